#pragma once

#include <chrono>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/units/quantity.hpp"
#include "base/units/unit_table.hpp"

/// Words in a language. All texts stand in templates/text/<language>.yaml as ICU messages; nothing
/// that a user reads on paper is written in C++.
namespace gallipot::text {

/// A stretch of text in one weight. Messages mark weight with <b>...</b>.
struct Run {
    std::string text;
    bool bold = false;
    std::string language{};  ///< BCP 47, where it is not that of what it stands in
    bool operator==(const Run&) const = default;
};
using StyledText = std::vector<Run>;
std::string plain(const StyledText& runs);

/// A named argument of a message. Text is inserted as it stands: markup in it stays text.
using Value = std::variant<std::string, double, std::int64_t, std::chrono::year_month_day,
                           std::chrono::local_time<std::chrono::minutes>>;
using Arguments = std::vector<std::pair<std::string, Value>>;

/// How many figures to show; the one rounding of a quantity happens here, half to even on the
/// decimal value (ICU's default, and IEEE 754's).
enum class Figures { two_significant, three_significant, whole, one_decimal, two_decimals };

/// The words of one language. May be shared between threads.
class Catalog {
  public:
    /// Reads text/<language>.yaml below the templates `folder`, then text/<language>-<region>.yaml
    /// over it if that is there: "en" in the region "US" spells and dates as they do there.
    /// `region` (ISO 3166-1, may be empty) also chooses how numbers are written. Errors point into
    /// those files. Throws system::SystemError when the language's file cannot be read.
    Catalog(const std::string& folder, const std::string& language, const std::string& region,
            diag::Diagnostics& out);
    /// The same from several folders: the first that has the language's file gives the whole, and
    /// files of that name in later ones word some of it anew. So a user's own templates need to
    /// hold only what they change.
    Catalog(const std::vector<std::string>& folders, const std::string& language,
            const std::string& region, diag::Diagnostics& out);
    /// From texts that stand elsewhere, by key. One that cannot be read is told and left out.
    struct Text {
        std::string key, text;
        diag::Place place;
    };
    Catalog(const std::string& language, const std::vector<Text>& texts, diag::Diagnostics& out);
    ~Catalog();
    Catalog(Catalog&&) noexcept;

    [[nodiscard]] const std::string& language() const;  ///< "en"
    [[nodiscard]] const std::string& tag() const;       ///< BCP 47, with the region: "en-US"
    [[nodiscard]] bool has(std::string_view key) const;
    [[nodiscard]] std::vector<std::string> keys() const;  ///< sorted

    /// The message under `key` with its arguments. Dates are written long, as date() does. A
    /// missing key or argument is our bug: throws std::logic_error naming it (a test asks for
    /// every key in every language).
    [[nodiscard]] StyledText rich(std::string_view key, const Arguments& arguments = {}) const;
    [[nodiscard]] std::string operator()(std::string_view key,
                                         const Arguments& arguments = {}) const;

    /// Numbers and units in the language: "3.2 g", "1,5 %". A no-break space (U+00A0) joins figure
    /// and unit. An amount shows two significant figures below ten and no decimals above: 0.49,
    /// 3.2, 64, 254; what is whole, as a user's own 45 mL, is shown whole. Kilograms and litres
    /// show up to three significant figures: 1.25 kg. Values must be finite.
    [[nodiscard]] std::string number(double value, Figures figures) const;
    [[nodiscard]] std::string amount(double value) const;
    [[nodiscard]] std::string mass(units::Mass mass) const;  ///< mg below 0.1 g, g, kg from 1 kg
    [[nodiscard]] std::string volume(units::Volume volume) const;  ///< mL, L from 1 L
    /// "1½ tbsp (22 mL)": in the unit it was written in, metric beside it where that is not metric.
    /// Both figures come from the exact value. In the unit written, what comes out even stands in
    /// full: with a kitchen's fraction, or up to four decimals. What does not shows up to three
    /// significant figures. "2 cups (US, 473 mL)" where a bare cup would be another.
    [[nodiscard]] std::string mass(units::Mass mass, const units::WrittenUnit& unit) const;
    [[nodiscard]] std::string volume(units::Volume volume, const units::WrittenUnit& unit) const;
    [[nodiscard]] std::string area(units::Area area, const units::WrittenUnit& unit = {}) const;
    /// The same of what follows from an amount written in `unit`, as what is left in a packet: up
    /// to three significant figures.
    [[nodiscard]] std::string computed(units::Mass mass, const units::WrittenUnit& unit) const;
    [[nodiscard]] std::string computed(units::Volume volume, const units::WrittenUnit& unit) const;
    /// Where nobody wrote the amount: metric alone, or in US units with metric beside.
    [[nodiscard]] std::string usual(units::Mass mass) const;
    [[nodiscard]] std::string usual(units::Volume volume) const;
    [[nodiscard]] std::string usual(units::Area area) const;
    [[nodiscard]] std::string usual(
        units::Length length) const;  ///< of a room: metres or feet, as amounts
    /// Whole degrees Celsius; or Fahrenheit, with Celsius beside.
    [[nodiscard]] std::string temperature(units::Celsius celsius) const;
    /// "¾", "1½", and what is no fraction of a kitchen as amount() has it.
    [[nodiscard]] std::string kitchen_number(double number) const;
    /// "2 cups": how often to fill such a spoon; "2 cups (US)" where a bare cup would be another.
    [[nodiscard]] std::string spoonfuls(double number, const units::WrittenUnit& unit) const;
    /// Sets which units the above go by. Until then a catalog for the United States shows
    /// temperatures, areas and lengths as they do there, and all else is metric.
    void show_in(const units::DisplayUnits& display);
    [[nodiscard]] const units::DisplayUnits& shows_in() const;
    [[nodiscard]] std::string percent(double fraction) const;
    /// "0.9 to 1.1 %": both with the decimals that give the higher two significant figures.
    [[nodiscard]] std::string percent_range(double low, double high) const;
    [[nodiscard]] std::string date(std::chrono::year_month_day date) const;        ///< 2 March 2027
    [[nodiscard]] std::string short_date(std::chrono::year_month_day date) const;  ///< 2 Mar 2027
    [[nodiscard]] std::string day(std::chrono::year_month_day date) const;         ///< 2 March
    /// Tuesday, 2 March 2027
    [[nodiscard]] std::string weekday(std::chrono::year_month_day date) const;
    [[nodiscard]] std::string time_of_day(
        std::chrono::local_time<std::chrono::minutes> time) const;  ///< 19:30
    [[nodiscard]] std::string date_time(std::chrono::local_time<std::chrono::minutes> time) const;
    [[nodiscard]] std::string list(const std::vector<std::string>& items) const;  ///< "a, b and c"
    [[nodiscard]] std::string either(const std::vector<std::string>& items) const;  ///< "a or b"
    /// The same with a capital at its beginning.
    [[nodiscard]] std::string capital(std::string_view text) const;

    /// What a message asks for. Throws std::logic_error for a key that is not there.
    struct Shape {
        std::vector<std::string> arguments;             ///< sorted, each once
        std::vector<std::string> counts;                ///< of those, what a plural or format needs
        std::vector<std::vector<std::string>> plurals;  ///< the cases of each plural, sorted
        std::string text;                               ///< as its file has it
        diag::Place place;
    };
    [[nodiscard]] Shape shape(std::string_view key) const;
    /// The plural categories that whole numbers take in this language ("few", "many", "one").
    [[nodiscard]] std::vector<std::string> plural_categories() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// The languages there is a file for below the templates `folder`, sorted.
std::vector<std::string> languages(const std::string& folder);

/// Everything in which `other` falls short of `reference`: keys missing or not known there, other
/// arguments, plural cases that the language needs and a message lacks. Errors point into the
/// files of `other`.
void compare(const Catalog& reference, const Catalog& other, diag::Diagnostics& out);

/// The same text with no-break spaces for spaces: a telephone number stays on one line.
std::string unbroken(std::string_view text);

/// Offsets in bytes at which a line of `text` may be broken (ICU, UAX 14), the end included.
/// `mandatory` ones are where it must be.
struct Break {
    std::size_t offset = 0;
    bool mandatory = false;
};
std::vector<Break> line_breaks(std::string_view text, const std::string& language);

/// With a capital first letter, for where a sentence begins.
std::string capitalised(const std::string& text);

}  // namespace gallipot::text
