#include "domain/job/bounds.hpp"

#include <fmt/format.h>
#include <stdexcept>

#include "base/units/duration_words.hpp"

namespace gallipot::job {

namespace {

/// "0.5", "1000000": no exponent, no needless zeros.
std::string plain(double value) {
    std::string text = fmt::format("{:.6f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

/// In the largest unit in which it is one or more.
std::string time(double days) {
    constexpr double year = 365.25;
    if (days < year) return units::days_in_words(days).english();
    return fmt::format("{:.6g} {}", days / year, days == year ? "year" : "years");
}

/// The table's unit for what is written as this type; nullptr for what is no single quantity.
const char* unit_of(Type type) {
    switch (type) {
        case Type::number:
        case Type::whole:
        case Type::amount:
        case Type::limit:
            return "";
        case Type::volume:
        case Type::batch:
        case Type::measure:
            return " mL";
        case Type::mass:
            return " g";
        case Type::mass_or_volume:
            return " g or mL";
        case Type::length:
            return " mm";
        case Type::area:
            return " m2";
        case Type::density:
        case Type::density_or_range:
            return " g/mL";
        case Type::temperature:
            return " C";
        case Type::share:
            return " %";
        case Type::point:
            return " m";
        default:
            return nullptr;
    }
}

}  // namespace

std::string bounds_in_words(const Key& key) {
    if (key.minimum == 0 && key.maximum == 0) return {};
    const std::string minimum = plain(key.minimum);
    const std::string maximum = plain(key.maximum);
    switch (key.type) {
        case Type::text:
        case Type::local_text:
        case Type::number_to_call:
        case Type::id:
        case Type::openings:
        case Type::csv_file:
            return minimum == maximum ? fmt::format("{} characters", minimum)
                                      : fmt::format("{} to {} characters", minimum, maximum);
        case Type::list:
        case Type::named:
        case Type::visits:
            return fmt::format("{} to {} entries", minimum, maximum);
        case Type::mapping:
            return fmt::format("a name of {} to {} characters", minimum, maximum);
        case Type::outline:
            return fmt::format("{} to {} corners", minimum, maximum);
        case Type::duration:
            return fmt::format("{} to {}", time(key.minimum), time(key.maximum));
        default:
            break;
    }
    const char* unit = unit_of(key.type);
    if (unit == nullptr) throw std::logic_error("bounds without a unit");
    return fmt::format("{} to {}{}", minimum, maximum, unit);
}

}  // namespace gallipot::job
