#include "tracking/log/csv.hpp"

#include "base/diag/utf8.hpp"

namespace gallipot::log {
namespace {

class CsvReader {
  public:
    CsvReader(const diag::SourcePtr& source, diag::Diagnostics& out)
        : source_(source), text_(source->text), out_(out) {
        constexpr std::string_view mark = "\xEF\xBB\xBF";
        if (text_.substr(0, mark.size()) == mark) at_ = mark.size();
    }

    void rows(const std::function<void(const CsvRow&)>& use) {
        while (at_ < text_.size()) {
            if (at_line_end()) {  // an empty line; a file may be nothing else
                take_line_end();
                continue;
            }
            const CsvRow row = read_row();
            if (row.size() > 1 || !row[0].text.empty()) use(row);
        }
    }

  private:
    CsvRow read_row() {
        CsvRow row;
        for (;;) {
            row.push_back(read_field());
            if (at_ == text_.size()) return row;
            if (text_[at_] == ',') {
                step();
                continue;
            }
            take_line_end();
            return row;
        }
    }

    CsvField read_field() {
        CsvField field{{}, here()};
        if (at_ < text_.size() && text_[at_] == '"')
            read_quoted(field);
        else
            read_bare(field);
        return field;
    }

    void read_bare(CsvField& field) {
        while (at_ < text_.size() && text_[at_] != ',' && !at_line_end()) {
            if (text_[at_] == '"')
                out_.error("csv-quote", here(),
                           "a quote inside a field that does not begin with one",
                           "put the whole field in quotes and double this one: \"\"");
            take_character(field.text);
        }
    }

    void read_quoted(CsvField& field) {
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
        if (at_ == text_.size() || text_[at_] == ',' || at_line_end()) return;
        out_.error("csv-quote", here(), "text after the closing quote",
                   "double a quote that belongs to the text: \"\"");
        std::string ignored;
        while (at_ < text_.size() && text_[at_] != ',' && !at_line_end()) take_character(ignored);
    }

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
    diag::Diagnostics& out_;
    std::size_t at_ = 0;
    int line_ = 1;
    int column_ = 1;
};

}  // namespace

void read_csv(const diag::SourcePtr& source, diag::Diagnostics& out,
              const std::function<void(const CsvRow&)>& use) {
    CsvReader(source, out).rows(use);
}

std::string print_csv(const std::vector<std::string>& fields) {
    std::string line;
    for (const std::string& field : fields) {
        if (&field != &fields.front()) line += ',';
        if (field.find_first_of(",\"\r\n") == std::string::npos) {
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

}  // namespace gallipot::log
