#include "papers/text/figures.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "papers/text/icu.hpp"

namespace gallipot::text {

using icu::number::Precision;

std::string NumberWriter::write(const std::string& name, const Precision& precision, double value) {
    if (!std::isfinite(value)) throw std::logic_error("a number to be shown is not finite");
    auto found = formatters_.find(name);
    if (found == formatters_.end()) {
        auto formatter = icu::number::NumberFormatter::withLocale(locale_).precision(precision);
        found = formatters_.emplace(name, std::move(formatter)).first;
    }
    UErrorCode status = U_ZERO_ERROR;
    // A zero that was negative before rounding would read "-0".
    const auto text = found->second.formatDouble(value == 0 ? 0.0 : value, status).toString(status);
    require(status, "writing a number");
    return to_utf8(text);
}

std::string NumberWriter::write(double value, Figures figures) {
    switch (figures) {
        case Figures::two_significant:
            return write("2 significant", Precision::fixedSignificantDigits(2), value);
        case Figures::three_significant:
            return write("3 significant", Precision::fixedSignificantDigits(3), value);
        case Figures::whole:
            return with_decimals(value, 0);
        case Figures::one_decimal:
            return with_decimals(value, 1);
        case Figures::two_decimals:
            return with_decimals(value, 2);
    }
    throw std::logic_error("unknown Figures");
}

std::string NumberWriter::with_decimals(double value, int decimals) {
    const bool rounds_to_zero = std::abs(value) < 0.5 * std::pow(10.0, -decimals);
    return write(std::to_string(decimals) + " decimals", Precision::fixedFraction(decimals),
                 rounds_to_zero ? 0.0 : value);
}

std::string NumberWriter::up_to_three(double value) {
    return write("up to 3", Precision::maxSignificantDigits(3), value);
}

std::string NumberWriter::amount(double value) {
    // 9.95 is the least that two significant figures round to 10.
    if (whole(value) || std::abs(value) >= 9.95) return with_decimals(value, 0);
    return write(value, Figures::two_significant);
}

std::string NumberWriter::with_fraction(double value) {
    constexpr std::array<std::pair<double, std::string_view>, 9> fractions = {{
        {1.0 / 8, "⅛"},
        {1.0 / 4, "¼"},
        {1.0 / 3, "⅓"},
        {3.0 / 8, "⅜"},
        {1.0 / 2, "½"},
        {5.0 / 8, "⅝"},
        {2.0 / 3, "⅔"},
        {3.0 / 4, "¾"},
        {7.0 / 8, "⅞"},
    }};
    constexpr double slack = 1e-6;
    const double whole = std::floor(value + slack);
    const double rest = value - whole;
    const std::string figure = whole > 0 ? with_decimals(whole, 0) : std::string();
    if (std::abs(rest) <= slack) return figure.empty() ? "0" : figure;
    for (const auto& [fraction, glyph] : fractions) {
        if (std::abs(rest - fraction) <= slack) return figure + std::string(glyph);
    }
    return {};
}

std::string NumberWriter::in_full_or_three(double value) {
    for (int decimals = 0; decimals <= 4; ++decimals) {
        if (whole(value * std::pow(10.0, decimals))) return with_decimals(value, decimals);
    }
    const std::string fraction = with_fraction(value);  // a third of an ounce
    return fraction.empty() ? up_to_three(value) : fraction;
}

int decimals_for(double value, int significant) {
    if (value <= 0) return 0;
    const auto exponent = static_cast<int>(std::floor(std::log10(value)));
    const double unit = std::pow(10.0, exponent - significant + 1);
    const bool carries = std::round(value / unit) >= std::pow(10.0, significant);
    return std::max(0, significant - 1 - exponent - (carries ? 1 : 0));
}

bool whole(double value) {
    return std::abs(value - std::round(value)) <= 1e-9 * std::max(1.0, std::abs(value));
}

}  // namespace gallipot::text
