#include <fmt/format.h>

#include "papers/text/po.hpp"

namespace gallipot::text {

namespace {

/// Between quotes, as C writes them.
std::string in_quotes(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\n')
            out += "\\n";
        else if (c == '\t')
            out += "\\t";
        else
            out += c;
    }
    return out + '"';
}

}  // namespace

std::string print_po(const PoFile& file, std::string_view program, std::string_view time) {
    std::string out = fmt::format(
        "# The texts of gallipot. Keep {{names in braces}} and <b>...</b> as they are; of\n"
        "# {{n, plural, one {{...}} other {{...}}}} translate what stands in the inner braces, "
        "with the\n"
        "# cases that your language has.\n"
        "msgid \"\"\nmsgstr \"\"\n"
        "\"Project-Id-Version: {}\\n\"\n\"PO-Revision-Date: {}\\n\"\n"
        "\"Last-Translator: nobody\\n\"\n\"Language-Team: none\\n\"\n\"Language: {}\\n\"\n"
        "\"MIME-Version: 1.0\\n\"\n\"Content-Type: text/plain; charset=UTF-8\\n\"\n"
        "\"Content-Transfer-Encoding: 8bit\\n\"\n",
        program, time, file.language);
    for (const PoEntry& entry : file.entries) {
        out += '\n';
        for (const std::string& line : entry.comments) out += "#. " + line + '\n';
        if (entry.fuzzy) out += "#, fuzzy\n";
        out += "msgctxt " + in_quotes(entry.key) + "\nmsgid " + in_quotes(entry.english) +
               "\nmsgstr " + in_quotes(entry.text) + '\n';
    }
    return out;
}

}  // namespace gallipot::text
