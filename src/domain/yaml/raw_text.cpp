#include "domain/yaml/raw_text.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <string>

#include "base/diag/utf8.hpp"
#include "domain/yaml/character_fault.hpp"

namespace gallipot::yaml {

namespace {

constexpr std::size_t block = 64;
// Brackets open at once. The parser looks for the end of each before it says where it begins, so
// its own limit on depth would come late.
constexpr int maximum_open = 1000;

bool continues(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0) == 0x80;
}

/// Whether a value can begin after this character (blanks left out).
bool may_begin_value(char32_t before) {
    return before == '\n' || before == '[' || before == '{' || before == ',' || before == ':' ||
           before == '-' || before == '?';
}

/// One pass over the text; says what is wrong and goes on where that makes sense.
class Check {
  public:
    Check(std::string_view text, const diag::SourcePtr& source, const Positions& positions,
          const Limits& limits, diag::Diagnostics& out)
        : text_(text), source_(source), positions_(positions), limits_(limits), out_(out) {}

    bool run() {
        std::size_t start = 0;
        while (start < text_.size()) {
            const std::size_t end = std::min(text_.find('\n', start), text_.size());
            if (end - start > limits_.line) {
                out_.error("line-too-long", at(start),
                           diag::say("this line is longer than {} bytes", limits_.line),
                           "break it into several lines");
                return false;
            }
            if (!line(start, end)) return false;
            start = end + 1;
        }
        return usable_;
    }

  private:
    [[nodiscard]] diag::Place at(std::size_t offset) const {
        return positions_.place(source_, offset);
    }

    bool line(std::size_t start, std::size_t end) {
        if (end > start && text_[end - 1] == '\r') --end;
        indentation(start, end);
        if (end > start && text_[start] == '%' && !text_.substr(start).starts_with("%YAML 1.")) {
            out_.error("directive", at(start), "a line that begins with % is a YAML directive",
                       "take the line out, or put quotes around a text that begins with %");
            usable_ = false;
        }
        bool comment = false;
        for (std::size_t i = start; i < end;) {
            const diag::Character c = diag::character_at(text_, i);
            if (!character(c, i)) return false;
            if (c.code == '#' && (i == start || text_[i - 1] == ' ' || text_[i - 1] == '\t'))
                comment = true;
            if (!comment && !brackets(c.code, i)) return false;
            i += c.bytes;
        }
        before_ = '\n';
        return true;
    }

    void indentation(std::size_t start, std::size_t end) {
        const std::size_t first = std::min(text_.find_first_not_of(" \t", start), end);
        const std::size_t tab = text_.substr(start, first - start).find('\t');
        if (tab == std::string_view::npos || first == end) return;
        out_.error("tab", at(start + tab), "a tab indents this line; YAML takes only spaces",
                   "indent with spaces");
        usable_ = false;
    }

    bool character(const diag::Character& c, std::size_t offset) {
        const auto fault = fault_of(c);
        if (!fault) return true;
        out_.error(fault->text.code, at(offset), fault->text.message, fault->text.hint);
        // The parser leaves these out of its count, so that every place after one would be wrong.
        if (c.code == 0xFEFF) usable_ = false;
        return !fault->ends_reading;
    }

    bool brackets(char32_t code, std::size_t offset) {
        // A bracket opens a list or mapping only where a value can begin; elsewhere it is text.
        if ((code == '[' || code == '{') && may_begin_value(before_) && ++open_ > maximum_open) {
            out_.error("too-deep", at(offset),
                       diag::say("more than {} brackets are open here", maximum_open),
                       "close each bracket; a job needs no more than three inside each other");
            return false;
        }
        if ((code == ']' || code == '}') && open_ > 0) --open_;
        // Each begins a value or ends a key, so the file is not even read when there are too many.
        if (code == '[' || code == '{' || code == ',' || code == ':') {
            if (++values_ > limits_.nodes) {
                out_.error("too-many-values", at(offset),
                           diag::say("the file holds more than {} values", limits_.nodes),
                           "split it into several files");
                return false;
            }
        }
        if (code != ' ' && code != '\t') before_ = code;
        return true;
    }

    std::string_view text_;
    const diag::SourcePtr& source_;
    const Positions& positions_;
    const Limits& limits_;
    diag::Diagnostics& out_;
    bool usable_ = true;
    char32_t before_ = '\n';  // the last character that is no blank
    int open_ = 0;
    std::size_t values_ = 0;
};

}  // namespace

Positions::Positions(std::string_view text) : text_(text) {
    line_starts_.push_back(0);
    std::uint32_t count = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (i % block == 0) characters_.push_back(count);
        if (!continues(text[i])) ++count;
        if (text[i] == '\n') line_starts_.push_back(i + 1);
    }
}

std::size_t Positions::characters_before(std::size_t offset) const {
    if (text_.empty()) return 0;
    const std::size_t index = std::min(offset / block, characters_.size() - 1);
    std::size_t count = characters_[index];
    for (std::size_t i = index * block; i < offset; ++i)
        if (!continues(text_[i])) ++count;
    return count;
}

diag::Place Positions::place(const diag::SourcePtr& source, std::size_t offset, int length) const {
    offset = std::min(offset, text_.size());
    const auto next = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
    const std::size_t start = *(next - 1);
    const std::size_t column = characters_before(offset) - characters_before(start);
    return {source, static_cast<int>(next - line_starts_.begin()), static_cast<int>(column) + 1,
            length};
}

bool check_raw_text(std::string_view text, const diag::SourcePtr& source,
                    const Positions& positions, const Limits& limits, diag::Diagnostics& out) {
    return Check(text, source, positions, limits, out).run();
}

std::size_t closing_quote(std::string_view text, std::size_t offset) {
    const char quote = text[offset];
    for (std::size_t i = offset + 1; i < text.size(); ++i) {
        if (quote == '"' && text[i] == '\\') {
            ++i;
        } else if (text[i] == quote) {
            if (quote == '"' || text.substr(i + 1, 1) != "'") return i;
            ++i;  // '' is a quote inside the text
        }
    }
    return std::string_view::npos;
}

std::size_t unclosed_quote(std::string_view text, std::size_t from) {
    char before = '\n';
    for (std::size_t i = from; i < text.size(); ++i) {
        const bool quote = text[i] == '"' || text[i] == '\'';
        if (quote && may_begin_value(static_cast<unsigned char>(before))) {
            const std::size_t end = closing_quote(text, i);
            if (end == std::string_view::npos) return i;
            i = end;
        }
        if (text[i] != ' ') before = text[i];
    }
    return std::string_view::npos;
}

}  // namespace gallipot::yaml
