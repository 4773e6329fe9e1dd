#include "papers/text/catalog.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <set>
#include <stdexcept>
#include <unicode/plurrule.h>
#include <unicode/stringoptions.h>

#include "base/strings/ascii.hpp"
#include "papers/text/icu.hpp"
#include "papers/text/messages.hpp"
#include "papers/text/tags.hpp"
#include "papers/text/writer.hpp"

namespace gallipot::text {

namespace {

constexpr std::string_view no_break_space = "\u00A0";

/// Patterns for dates, not messages.
bool is_date_pattern(std::string_view key) {
    return key.starts_with("format.");
}

bool letters(const std::string& text, std::size_t minimum, std::size_t maximum) {
    return text.size() >= minimum && text.size() <= maximum &&
           std::all_of(text.begin(), text.end(), strings::is_letter);
}

/// Whether one of the folders has the texts of a catalog of that name.
bool has_texts(const std::vector<std::string>& folders, const std::string& name) {
    return std::ranges::any_of(folders, [&](const std::string& folder) {
        std::error_code error;
        return std::filesystem::exists(std::filesystem::path(folder) / "text" / (name + ".yaml"),
                                       error);
    });
}

units::WrittenUnit us_unit(std::string_view name) {
    return units::unit_in_full(name, units::KitchenSystem::us);
}

}  // namespace

/// Of an amount that is not metric.
enum class Digits { in_full, three };

struct Catalog::Impl {
    std::string language;
    std::string region;
    std::string tag;
    icu::Locale locale;
    Messages messages;
    units::DisplayUnits display;
    SharedWriter writer{messages, locale};

    void check(const std::string& key, const Message& message, diag::Diagnostics& out) const {
        if (!is_date_pattern(key)) return check_message(key, message, out);
        if (!DateWriter::valid(message.text, locale))
            out.error("catalog-message", message.place,
                      diag::say("'{}' is not a date pattern", key), "write it as in 'd MMMM y'");
    }

    /// "1½ tbsp", without a word on whose tablespoon that is.
    static std::string bare(const SharedWriter::Locked& locked, double number,
                            std::string_view unit, Digits digits) {
        // Spoons and cups come in fractions, scales and rulers in decimals.
        constexpr std::array<std::string_view, 3> spoons = {"teaspoon", "tablespoon", "cup"};
        std::string key = "unit." + std::string(unit);
        std::replace(key.begin(), key.end(), ' ', '_');
        NumberWriter& numbers = locked->numbers;
        std::string figure;
        if (std::find(spoons.begin(), spoons.end(), unit) != spoons.end())
            figure = numbers.with_fraction(number);
        if (figure.empty())
            figure = digits == Digits::in_full ? numbers.in_full_or_three(number)
                                               : numbers.up_to_three(number);
        const std::int64_t count = number <= 1 ? 1 : 2;
        return plain(locked->rich(key, {{"n", figure}, {"count", count}}));
    }

    /// "US" of a US cup, where the job's readers know another cup or none; else empty.
    std::string whose(const SharedWriter::Locked& locked, const units::WrittenUnit& unit) const {
        if (!units::needs_naming(unit, display.kitchen)) return {};
        return plain(locked->rich(
            "measure.whose." + strings::to_lower(units::prefix_of(*unit.kitchen)), {}));
    }

    /// A value in SI shown in a unit, with `metric` beside it.
    std::string in_unit(double si, const units::WrittenUnit& unit, Digits digits,
                        const std::string& metric) {
        if (unit.metric()) return metric;
        const auto locked = writer.lock();
        const std::string written = bare(locked, si / unit.si, unit.name, digits);
        const std::string of = whose(locked, unit);
        if (of.empty())
            return plain(
                locked->rich("measure.beside", {{"written", written}, {"metric", metric}}));
        return plain(locked->rich("measure.beside_of",
                                  {{"written", written}, {"whose", of}, {"metric", metric}}));
    }
};

Catalog::Catalog(const std::string& folder, const std::string& language, const std::string& region,
                 diag::Diagnostics& out)
    : Catalog(std::vector{folder}, language, region, out) {}

Catalog::Catalog(const std::vector<std::string>& folders, const std::string& language,
                 const std::string& region, diag::Diagnostics& out)
    : impl_(std::make_unique<Impl>()) {
    Impl& my = *impl_;
    const Tag wanted = split_tag(language);
    my.language =
        catalog_for(language, [&](const std::string& name) { return has_texts(folders, name); });
    if (my.language.empty()) my.language = wanted.language;
    my.region = wanted.region.empty() ? region : wanted.region;
    // These become part of a file's name.
    if (!letters(wanted.language, 2, 3) || (!my.region.empty() && !letters(my.region, 2, 2))) {
        out.error("unknown-language", {}, diag::say("'{}' is not a language we know", language),
                  "use a language code such as en or es, and a region of two letters");
        return;
    }
    if (my.region == "US") {
        my.display = {units::UnitSystem::metric, units::UnitSystem::us, units::KitchenSystem::us};
    }
    my.tag = my.region.empty() ? my.language : my.language + "-" + my.region;
    my.locale = locale_for(my.language, my.region);
    my.messages = read_messages(folders, my.language, my.region, out);
    for (const auto& [key, message] : my.messages)
        if (!message.checked) my.check(key, message, out);
}

Catalog::Catalog(const std::string& language, const std::vector<Text>& texts,
                 diag::Diagnostics& out)
    : impl_(std::make_unique<Impl>()) {
    Impl& my = *impl_;
    my.language = my.tag = language;
    my.locale = locale_for(my.language, my.region);
    for (const Text& text : texts) {
        diag::Diagnostics found;
        Message message{text.text, text.place};
        my.check(text.key, message, found);
        if (!found.has_errors()) my.messages.insert_or_assign(text.key, std::move(message));
        out.append(found);
    }
}

Catalog::~Catalog() = default;
Catalog::Catalog(Catalog&&) noexcept = default;

const std::string& Catalog::language() const {
    return impl_->language;
}
const std::string& Catalog::tag() const {
    return impl_->tag;
}
bool Catalog::has(std::string_view key) const {
    return impl_->messages.find(key) != impl_->messages.end();
}

std::vector<std::string> Catalog::keys() const {
    std::vector<std::string> keys;
    for (const auto& [key, message] : impl_->messages) keys.push_back(key);
    return keys;
}

StyledText Catalog::rich(std::string_view key, const Arguments& arguments) const {
    return impl_->writer.lock()->rich(key, arguments);
}

std::string Catalog::operator()(std::string_view key, const Arguments& arguments) const {
    return plain(rich(key, arguments));
}

std::string Catalog::number(double value, Figures figures) const {
    return impl_->writer.lock()->numbers.write(value, figures);
}

std::string Catalog::amount(double value) const {
    return impl_->writer.lock()->numbers.amount(value);
}

std::string Catalog::mass(units::Mass mass) const {
    const auto writer = impl_->writer.lock();
    const double grams = units::in_g(mass);
    const double size = std::abs(grams);
    NumberWriter& numbers = writer->numbers;
    // The next unit begins where rounding would carry into it.
    if (size >= 999.5) return writer->unit("kilogram", numbers.up_to_three(grams / 1000));
    if (size >= 0.0995 || size == 0) return writer->unit("gram", numbers.amount(grams));
    return writer->unit("milligram", numbers.amount(grams * 1000));
}

std::string Catalog::volume(units::Volume volume) const {
    const auto writer = impl_->writer.lock();
    const double millilitres = units::in_mL(volume);
    NumberWriter& numbers = writer->numbers;
    if (std::abs(millilitres) >= 999.5) {
        return writer->unit("litre", numbers.up_to_three(millilitres / 1000));
    }
    return writer->unit("millilitre", numbers.amount(millilitres));
}

std::string Catalog::area(units::Area area, const units::WrittenUnit& unit) const {
    const std::string metric = [&] {
        const auto writer = impl_->writer.lock();
        return writer->unit("square_metre", writer->numbers.amount(units::in_m2(area)));
    }();
    return impl_->in_unit(area.si(), unit, Digits::in_full, metric);
}

std::string Catalog::mass(units::Mass mass, const units::WrittenUnit& unit) const {
    return impl_->in_unit(mass.si(), unit, Digits::in_full, this->mass(mass));
}
std::string Catalog::volume(units::Volume volume, const units::WrittenUnit& unit) const {
    return impl_->in_unit(volume.si(), unit, Digits::in_full, this->volume(volume));
}
std::string Catalog::computed(units::Mass mass, const units::WrittenUnit& unit) const {
    return impl_->in_unit(mass.si(), unit, Digits::three, this->mass(mass));
}
std::string Catalog::computed(units::Volume volume, const units::WrittenUnit& unit) const {
    return impl_->in_unit(volume.si(), unit, Digits::three, this->volume(volume));
}

std::string Catalog::usual(units::Mass mass) const {
    if (impl_->display.amounts == units::UnitSystem::metric) return this->mass(mass);
    const units::WrittenUnit pound = us_unit("pound");
    return computed(mass, std::abs(mass.si()) < pound.si ? us_unit("ounce") : pound);
}

std::string Catalog::usual(units::Volume volume) const {
    if (impl_->display.amounts == units::UnitSystem::metric) return this->volume(volume);
    const units::WrittenUnit ounce = us_unit("fluid ounce"), gallon = us_unit("gallon");
    const double size = std::abs(volume.si());
    return computed(volume, size < ounce.si / 2 ? us_unit("teaspoon")
                            : size < gallon.si  ? ounce
                                                : gallon);
}

std::string Catalog::usual(units::Area area) const {
    const bool us = impl_->display.sizes == units::UnitSystem::us;
    return this->area(area, us ? us_unit("square foot") : units::WrittenUnit{});
}

std::string Catalog::usual(units::Length length) const {
    const auto writer = impl_->writer.lock();
    NumberWriter& numbers = writer->numbers;
    const std::string metric = plain(
        writer->rich("placement.amounts.metres", {{"n", numbers.amount(units::in_m(length))}}));
    if (impl_->display.sizes == units::UnitSystem::metric) return metric;
    const double feet = length.si() / us_unit("foot").si;
    const std::string written = writer->unit("foot", numbers.amount(feet));
    return plain(writer->rich("measure.beside", {{"written", written}, {"metric", metric}}));
}

std::string Catalog::temperature(units::Celsius celsius) const {
    const auto writer = impl_->writer.lock();
    const auto degrees = [&](const char* unit, double value) {
        return writer->unit(unit, writer->numbers.with_decimals(value, 0));
    };
    const std::string metric = degrees("celsius", celsius.degrees);
    if (impl_->display.sizes == units::UnitSystem::metric) return metric;
    // Exact by definition.
    const std::string fahrenheit = degrees("fahrenheit", celsius.degrees * 9 / 5 + 32);
    return plain(writer->rich("measure.beside", {{"written", fahrenheit}, {"metric", metric}}));
}

std::string Catalog::kitchen_number(double number) const {
    const auto writer = impl_->writer.lock();
    const std::string figure = writer->numbers.with_fraction(number);
    return figure.empty() ? writer->numbers.amount(number) : figure;
}

std::string Catalog::spoonfuls(double number, const units::WrittenUnit& unit) const {
    const auto writer = impl_->writer.lock();
    const std::string written = Impl::bare(writer, number, unit.name, Digits::in_full);
    const std::string of = impl_->whose(writer, unit);
    if (of.empty()) return written;
    return plain(writer->rich("measure.of", {{"written", written}, {"whose", of}}));
}

void Catalog::show_in(const units::DisplayUnits& display) {
    impl_->display = display;
}
const units::DisplayUnits& Catalog::shows_in() const {
    return impl_->display;
}

std::string Catalog::percent(double fraction) const {
    const auto writer = impl_->writer.lock();
    return writer->unit("percent", writer->numbers.amount(fraction * 100));
}

std::string Catalog::percent_range(double low, double high) const {
    const auto writer = impl_->writer.lock();
    NumberWriter& numbers = writer->numbers;
    const double from = low * 100;
    const double to = high * 100;
    const bool whole_ends = whole(from) && whole(to);
    const int decimals =
        whole_ends ? 0 : std::max(decimals_for(to, 2), from > 0 ? decimals_for(from, 1) : 0);
    const std::string first = numbers.with_decimals(from, decimals);
    const std::string last = numbers.with_decimals(to, decimals);
    if (first == last) return writer->unit("percent", last);
    return plain(writer->rich("unit.percent_range", {{"low", first}, {"high", last}}));
}

std::string Catalog::date(std::chrono::year_month_day date) const {
    return impl_->writer.lock()->date("format.date", date);
}

std::string Catalog::short_date(std::chrono::year_month_day date) const {
    return impl_->writer.lock()->date("format.short_date", date);
}

std::string Catalog::day(std::chrono::year_month_day date) const {
    return impl_->writer.lock()->date("format.day", date);
}

std::string Catalog::weekday(std::chrono::year_month_day date) const {
    return impl_->writer.lock()->date("format.weekday", date);
}

std::string Catalog::time_of_day(std::chrono::local_time<std::chrono::minutes> time) const {
    return impl_->writer.lock()->date("format.time", time);
}

std::string Catalog::date_time(std::chrono::local_time<std::chrono::minutes> time) const {
    return impl_->writer.lock()->date("format.date_time", time);
}

std::string Catalog::list(const std::vector<std::string>& items) const {
    return impl_->writer.lock()->joined(items, ULISTFMT_TYPE_AND);
}

std::string Catalog::either(const std::vector<std::string>& items) const {
    return impl_->writer.lock()->joined(items, ULISTFMT_TYPE_OR);
}

std::string Catalog::capital(std::string_view text) const {
    icu::UnicodeString words = to_icu(text);
    words.toTitle(nullptr, impl_->locale, U_TITLECASE_WHOLE_STRING | U_TITLECASE_NO_LOWERCASE);
    return to_utf8(words);
}

Catalog::Shape Catalog::shape(std::string_view key) const {
    const Message& message = text::message(impl_->messages, key);
    return is_date_pattern(key) ? Shape{{}, {}, {}, message.text, message.place}
                                : shape_of(message);
}

std::vector<std::string> Catalog::plural_categories() const {
    UErrorCode status = U_ZERO_ERROR;
    const std::unique_ptr<icu::PluralRules> rules(
        icu::PluralRules::forLocale(impl_->locale, status));
    require(status, "reading the plural rules");
    std::set<std::string> categories;
    for (std::int32_t n = 0; n <= 1000; ++n) categories.insert(to_utf8(rules->select(n)));
    return {categories.begin(), categories.end()};
}

std::vector<std::string> languages(const std::string& folder) {
    std::vector<std::string> found;
    std::error_code error;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::filesystem::path(folder) / "text", error)) {
        const std::string stem = entry.path().stem().string();
        if (entry.path().extension() == ".yaml" && is_catalog_name(stem)) found.push_back(stem);
    }
    std::sort(found.begin(), found.end());
    return found;
}

std::string unbroken(std::string_view text) {
    std::string joined;
    for (const char c : text) {
        if (c == ' ') {
            joined += no_break_space;
        } else {
            joined += c;
        }
    }
    return joined;
}

std::string capitalised(const std::string& text) {
    icu::UnicodeString all = to_icu(text);
    if (all.isEmpty()) return text;
    const UChar32 first = all.char32At(0);
    all.replace(0, U16_LENGTH(first), u_totitle(first));
    return to_utf8(all);
}

}  // namespace gallipot::text
