#include "domain/job/table_text.hpp"

#include <fmt/format.h>
#include <string_view>

#include "base/diag/utf8.hpp"
#include "domain/yaml/character_fault.hpp"

namespace gallipot::job {

namespace {

/// One pass over the text, with the place of each character.
class Check {
  public:
    Check(const diag::SourcePtr& csv, char separator, const yaml::Limits& limits,
          diag::Diagnostics& out)
        : csv_(csv), separator_(separator), limits_(limits), out_(out) {}

    bool run() {
        const std::string_view text = csv_->text;
        constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
        std::size_t at = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
        line_start_ = at;
        while (at < text.size()) {
            const diag::Character character = diag::character_at(text, at);
            if (!is_readable(character, text, at) || !is_within_limits(character, at)) return false;
            at += character.bytes;
            ++place_.column;
            if (character.code != '\n') continue;
            ++place_.line;
            place_.column = 1;
            line_start_ = at;
        }
        return true;
    }

  private:
    bool is_readable(const diag::Character& character, std::string_view text, std::size_t at) {
        if (character.code == '\n' || text.substr(at, 2) == "\r\n") return true;
        const auto fault = yaml::fault_of(character);
        if (!fault) return true;
        const bool encoding = !character.valid;
        out_.error(fault->text.code, place_, fault->text.message,
                   encoding ? "save the table as CSV in UTF-8" : fault->text.hint);
        return !fault->ends_reading;
    }

    bool is_within_limits(const diag::Character& character, std::size_t at) {
        if (at + character.bytes - line_start_ > limits_.line) {
            out_.error("line-too-long", {csv_, place_.line, 1, 1},
                       diag::say("this line is longer than {} bytes", limits_.line),
                       "check that this is the table you meant");
            return false;
        }
        const bool ends_cell =
            character.code == static_cast<unsigned char>(separator_) || character.code == '\n';
        if (ends_cell && ++cells_ > limits_.nodes) {
            out_.error("too-many-values", place_,
                       diag::say("the table holds more than {} cells", limits_.nodes),
                       "split the job into several files");
            return false;
        }
        return true;
    }

    const diag::SourcePtr& csv_;
    char separator_;
    const yaml::Limits& limits_;
    diag::Diagnostics& out_;
    diag::Place place_{csv_, 1, 1, 1};
    std::size_t line_start_ = 0;
    std::size_t cells_ = 0;
};

}  // namespace

bool check_table_text(const diag::SourcePtr& csv, char separator, const yaml::Limits& limits,
                      diag::Diagnostics& out) {
    if (csv->text.size() > limits.bytes) {
        out.error("file-too-large", {csv, 1, 1, 1},
                  diag::say("the table has {} bytes; at most {} are read", csv->text.size(),
                            limits.bytes),
                  "split the job into several files");
        return false;
    }
    return Check(csv, separator, limits, out).run();
}

}  // namespace gallipot::job
