#pragma once

#include <chrono>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "diag/diagnostic.hpp"
#include "units/quantity.hpp"

/// Words in a language. All texts stand in templates/text/<language>.yaml as ICU messages; nothing
/// that a user reads on paper is written in C++.
namespace gallipot::text {

/// A stretch of text in one weight. Messages mark weight with <b>...</b>.
struct Run {
    std::string text;
    bool bold = false;
    bool operator==(const Run&) const = default;
};
using Runs = std::vector<Run>;
std::string plain(const Runs& runs);

/// A named argument of a message. Text is inserted as it stands: markup in it stays text.
using Value = std::variant<std::string, double, std::int64_t, std::chrono::year_month_day,
                           std::chrono::local_time<std::chrono::minutes>>;
using Arguments = std::vector<std::pair<std::string, Value>>;

/// How many figures to show; the one rounding of a quantity happens here.
enum class Figures { two_significant, three_significant, whole, one_decimal, two_decimals };

class Catalog {
  public:
    /// Reads templates/text/<language>.yaml below `folder`. Errors point into that file.
    Catalog(const std::string& folder, const std::string& language, diag::Diagnostics& out);
    ~Catalog();
    Catalog(Catalog&&) noexcept;

    [[nodiscard]] const std::string& language() const;
    [[nodiscard]] bool has(std::string_view key) const;
    [[nodiscard]] std::vector<std::string> keys() const;

    /// The message under `key` with its arguments. A missing key or argument is our bug: throws
    /// std::logic_error naming it (a test asks for every key in every language).
    [[nodiscard]] Runs rich(std::string_view key, const Arguments& arguments = {}) const;
    [[nodiscard]] std::string operator()(std::string_view key,
                                         const Arguments& arguments = {}) const;

    /// Numbers and units in the language: "3.2 g", "1,5 %". A no-break space joins figure and unit.
    [[nodiscard]] std::string number(double value, Figures figures) const;
    [[nodiscard]] std::string mass(units::Mass mass) const;      ///< mg below 10 mg, g, kg from 1 kg
    [[nodiscard]] std::string volume(units::Volume volume) const;  ///< mL, L from 1 L
    [[nodiscard]] std::string area(units::Area area) const;
    [[nodiscard]] std::string temperature(units::Celsius celsius) const;  ///< whole degrees
    [[nodiscard]] std::string percent(double fraction) const;    ///< two significant figures
    [[nodiscard]] std::string percent_range(double low, double high) const;
    [[nodiscard]] std::string date(std::chrono::year_month_day date) const;        ///< 2 March 2027
    [[nodiscard]] std::string short_date(std::chrono::year_month_day date) const;  ///< 2 Mar 2027
    [[nodiscard]] std::string date_time(std::chrono::local_time<std::chrono::minutes> time) const;
    [[nodiscard]] std::string list(const std::vector<std::string>& items) const;   ///< "a, b and c"

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// Offsets in bytes at which a line of `text` may be broken (ICU, UAX 14), the end included.
/// `mandatory` ones are where it must be.
struct Break {
    std::size_t offset = 0;
    bool mandatory = false;
};
std::vector<Break> line_breaks(std::string_view text, const std::string& language);

}  // namespace gallipot::text
