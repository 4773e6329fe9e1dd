#include "base/csv/csv.hpp"

#include <algorithm>

#include "base/diag/utf8.hpp"

namespace gallipot::csv {
namespace {

std::string_view without_mark(std::string_view text) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    return text;
}

class Reader {
  public:
    Reader(const diag::SourcePtr& source, const Format& format, diag::Diagnostics& out)
        : source_(source), text_(without_mark(source->text)), format_(format), out_(out) {}

    void rows(const std::function<void(const Row&)>& use) {
        while (at_ < text_.size()) {
            if (at_line_end()) {  // an empty line; a file may be nothing else
                take_line_end();
                continue;
            }
            const Row row = read_row();
            if (row.size() > 1 || !row[0].text.empty()) use(row);
        }
    }

  private:
    Row read_row() {
        Row row;
        for (;;) {
            Field field = read_field();
            if (row.size() < format_.maximum_fields) row.push_back(std::move(field));
            if (at_ == text_.size()) return row;
            if (at_separator()) {
                step();
                continue;
            }
            take_line_end();
            return row;
        }
    }

    Field read_field() {
        Field field{{}, here()};
        field.quoted = at_ < text_.size() && text_[at_] == '"';
        if (field.quoted)
            read_quoted(field);
        else
            read_bare(field);
        if (line_ == field.place.line)
            field.place.length = std::max(column_ - field.place.column, 1);
        return field;
    }

    void read_bare(Field& field) {
        while (at_ < text_.size() && !at_separator() && !at_line_end()) {
            if (text_[at_] == '"')
                out_.error("csv-quote", here(),
                           "a quote inside a field that does not begin with one",
                           "put the whole field in quotes and double this one: \"\"");
            take_character(field.text);
        }
    }

    void read_quoted(Field& field) {
        step();
        for (;;) {
            if (at_ == text_.size()) {
                out_.error("csv-quote", field.place, "this quote is never closed",
                           "close it at the end of the field");
                return;
            }
            if (text_[at_] != '"') {
                take_character(field.text);
                continue;
            }
            step();
            if (at_ == text_.size() || text_[at_] != '"') break;
            field.text += '"';
            step();
        }
        if (at_ == text_.size() || at_separator() || at_line_end()) return;
        out_.error("csv-quote", here(), "text after the closing quote",
                   "double a quote that belongs to the text: \"\"");
        std::string ignored;
        while (at_ < text_.size() && !at_separator() && !at_line_end()) take_character(ignored);
    }

    [[nodiscard]] bool at_separator() const { return text_[at_] == format_.separator; }

    [[nodiscard]] bool at_line_end() const {
        return text_[at_] == '\n' || text_.substr(at_, 2) == "\r\n";
    }

    void take_line_end() {
        at_ += text_[at_] == '\r' ? 2u : 1u;
        ++line_;
        column_ = 1;
    }

    /// Past one byte that is a character.
    void step() {
        ++at_;
        ++column_;
    }

    void take_character(std::string& into) {
        const diag::Character character = diag::character_at(text_, at_);
        if (!character.valid)
            out_.error("not-utf8", here(), "these bytes are not UTF-8",
                       "save the file as CSV in UTF-8");
        into += text_.substr(at_, character.bytes);
        at_ += character.bytes;
        ++column_;
        if (character.code == U'\n') {
            ++line_;
            column_ = 1;
        }
    }

    [[nodiscard]] diag::Place here() const { return {source_, line_, column_, 1}; }

    diag::SourcePtr source_;
    std::string_view text_;
    Format format_;
    diag::Diagnostics& out_;
    std::size_t at_ = 0;
    int line_ = 1;
    int column_ = 1;
};

}  // namespace

char separator_of(std::string_view text) {
    text = without_mark(text);
    text.remove_prefix(std::min(text.find_first_not_of("\r\n"), text.size()));
    bool quoted = false;
    for (const char c : text) {
        if (c == '"') quoted = !quoted;
        if (quoted) continue;
        if (c == ',' || c == ';' || c == '\t') return c;
        if (c == '\n') break;
    }
    return ',';
}

void read(const diag::SourcePtr& source, diag::Diagnostics& out,
          const std::function<void(const Row&)>& use, const Format& format) {
    Reader(source, format, out).rows(use);
}

std::string print(const std::vector<std::string>& fields, char separator) {
    const std::string in_quotes = std::string("\"\r\n") + separator;
    std::string line;
    for (const std::string& field : fields) {
        if (&field != &fields.front()) line += separator;
        if (field.find_first_of(in_quotes) == std::string::npos) {
            line += field;
            continue;
        }
        line += '"';
        for (const char c : field) {
            if (c == '"') line += '"';
            line += c;
        }
        line += '"';
    }
    return line + "\r\n";
}

}  // namespace gallipot::csv
