#include <map>
#include <optional>
#include <utility>

#include "base/diag/utf8.hpp"
#include "papers/text/po.hpp"

namespace gallipot::text {

namespace {

/// What a string of the file belongs to.
enum class Field { none, context, id, text };

class Reader {
  public:
    Reader(const diag::SourcePtr& source, diag::Diagnostics& out) : source_(source), out_(out) {}

    PoFile read() {
        std::string_view rest = source_->text;
        constexpr std::string_view mark = "\xEF\xBB\xBF";
        if (rest.starts_with(mark)) rest.remove_prefix(mark.size());
        while (!rest.empty()) {
            const auto end = rest.find('\n');
            std::string_view line = rest.substr(0, end);
            rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
            if (line.ends_with('\r')) line.remove_suffix(1);
            ++line_;
            read_line(line);
        }
        finish();
        if (!header_)
            out_.error("po-header", {source_, 0, 0, 1}, "the file does not say its language",
                       "begin it with the entry of msgid \"\" that gallipot languages --po writes");
        return std::move(file_);
    }

  private:
    void read_line(std::string_view line) {
        line_text_ = line;
        for (std::size_t at = 0; at < line.size();) {
            const diag::Character character = diag::character_at(line, at);
            if (!character.valid)
                return fault(at, "a byte that is no text in UTF-8", "save the file as UTF-8");
            if (diag::is_control(character.code) && character.code != '\t')
                return fault(at, "a control character", "take it out");
            at += character.bytes;
        }
        const auto first = line.find_first_not_of(" \t");
        if (first == std::string_view::npos) return finish();
        std::string_view rest = line.substr(first);
        if (rest.front() == '#') return comment(rest);
        if (rest.front() == '"') {
            if (field_ == Field::none)
                return fault(first, "a text that belongs to nothing",
                             "write it behind msgctxt, msgid or msgstr");
            return add(first);
        }
        const auto end = std::min(rest.find_first_of(" \t\""), rest.size());
        const std::string_view word = rest.substr(0, end);
        if (word == "msgctxt") {
            finish();
            begin(Field::context, first);
        } else if (word == "msgid") {
            if (field_ != Field::context) finish();
            begin(Field::id, first);
        } else if (word == "msgstr") {
            if (field_ != Field::id)
                return fault(first, "a msgstr without a msgid before it",
                             "write msgctxt, msgid and msgstr, in this order");
            begin(Field::text, first);
        } else {
            return fault(first, diag::say("'{}' is not known here", diag::printable(word, 30)),
                         word.starts_with("msg")
                             ? "write the plural inside the message, as {n, plural, one {...} "
                               "other {...}}"
                             : "write msgctxt, msgid and msgstr, each with a text in quotes");
        }
        const auto quote = rest.find_first_not_of(" \t", end);
        if (quote == std::string_view::npos || rest[quote] != '"')
            return fault(first + std::min(end, rest.size() - 1),
                         "a text in quotes was expected behind it", "write it as msgid \"Text\"");
        add(first + quote);
    }

    void comment(std::string_view line) {
        // What follows the strings of an entry belongs to the next.
        if (field_ == Field::text) finish();
        if (line.starts_with("#.")) {
            line.remove_prefix(2);
            if (line.starts_with(' ')) line.remove_prefix(1);
            entry_.comments.emplace_back(line);
        } else if (line.starts_with("#,")) {
            entry_.fuzzy |= line.find("fuzzy") != std::string_view::npos;
        }
    }

    void begin(Field field, std::size_t at) {
        field_ = field;
        diag::Place& place = field == Field::context ? entry_.key_place : entry_.place;
        place = place_at(at);
        if (field == Field::id && entry_.key_place.line == 0) entry_.key_place = place;
    }

    /// The string that begins with the quote at `at`, and nothing behind it.
    void add(std::size_t at) {
        std::string& text = field_ == Field::context ? entry_.key
                            : field_ == Field::id    ? entry_.english
                                                     : entry_.text;
        for (++at; at < line_text_.size(); ++at) {
            const char c = line_text_[at];
            if (c == '"') {
                const auto more = line_text_.find_first_not_of(" \t", at + 1);
                if (more != std::string_view::npos)
                    fault(more, "something stands behind the closing quote",
                          "write \\\" for a quote within the text");
                return;
            }
            if (c != '\\') {
                text += c;
                continue;
            }
            static const std::map<char, char> escapes{
                {'n', '\n'}, {'t', '\t'}, {'"', '"'}, {'\\', '\\'}};
            const auto meant =
                at + 1 < line_text_.size() ? escapes.find(line_text_[at + 1]) : escapes.end();
            if (meant == escapes.end())
                return fault(at, "a backslash that begins nothing known",
                             "write \\\\ for a backslash, \\\" for a quote and \\n for a new line");
            text += meant->second;
            ++at;
        }
        fault(line_text_.size(), "the text is not closed", "end it with a quote on the same line");
    }

    void finish() {
        PoEntry entry = std::exchange(entry_, {});
        const Field last = std::exchange(field_, Field::none);
        const bool faulty = std::exchange(faulty_, false);
        if (last == Field::none) {
            entry_.comments = std::move(entry.comments);  // of the entry that follows
            entry_.fuzzy = entry.fuzzy;
            return;
        }
        if (faulty) return;
        if (last != Field::text) {
            out_.error("po-syntax", entry.key_place, "the entry has no msgstr",
                       "write msgctxt, msgid and msgstr, in this order");
            return;
        }
        if (entry.english.empty() && entry.key.empty()) return read_header(entry);
        if (entry.key.empty()) {
            out_.error("po-syntax", entry.key_place, "the entry has no msgctxt",
                       "write the text's name before its msgid, as gallipot languages --po does");
            return;
        }
        const auto [known, is_new] = lines_.try_emplace(entry.key, entry.key_place.line);
        if (!is_new) {
            out_.error("po-syntax", entry.key_place,
                       diag::say("'{}' stands twice, first in line {}", diag::printable(entry.key),
                                 known->second),
                       "take one of the two out");
            return;
        }
        file_.entries.push_back(std::move(entry));
    }

    void read_header(const PoEntry& entry) {
        header_ = true;
        const auto value = [&](std::string_view name) {
            const std::string lines = "\n" + entry.text;
            const auto at = lines.find("\n" + std::string(name) + ":");
            if (at == std::string::npos) return std::string();
            const auto from = lines.find_first_not_of(' ', at + name.size() + 2);
            const auto to = lines.find('\n', from);
            return from == std::string::npos ? std::string() : lines.substr(from, to - from);
        };
        file_.language = value("Language");
        const std::string type = value("Content-Type");
        if (file_.language.empty())
            out_.error("po-header", entry.place, "the header does not name the language",
                       "write \"Language: es\\n\" with your language's code into it");
        if (type.find("charset=UTF-8") == std::string::npos &&
            type.find("charset=utf-8") == std::string::npos)
            out_.error("po-header", entry.place, "the header does not say that the file is UTF-8",
                       "save it as UTF-8 and write \"Content-Type: text/plain; "
                       "charset=UTF-8\\n\"");
    }

    void fault(std::size_t at, diag::Text message, diag::Text fix) {
        faulty_ = true;
        out_.error("po-syntax", place_at(at), std::move(message), std::move(fix));
    }

    [[nodiscard]] diag::Place place_at(std::size_t at) const {
        return {source_, line_,
                1 + static_cast<int>(diag::count_characters(line_text_.substr(0, at))), 1};
    }

    const diag::SourcePtr& source_;
    diag::Diagnostics& out_;
    PoFile file_;
    PoEntry entry_;
    Field field_ = Field::none;
    bool faulty_ = false;  ///< something of this entry was told already
    bool header_ = false;
    int line_ = 0;
    std::string_view line_text_;
    std::map<std::string, int> lines_;  ///< of each key
};

}  // namespace

PoFile read_po(const diag::SourcePtr& source, diag::Diagnostics& out) {
    return Reader(source, out).read();
}

}  // namespace gallipot::text
