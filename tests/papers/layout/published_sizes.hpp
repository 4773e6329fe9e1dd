#pragma once

#include <algorithm>
#include <array>
#include <limits>
#include <string>

#include "papers/document/label.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/layout/page.hpp"

/// The published least sizes once more, typed from their sources and not taken from
/// src/domain/safety.
namespace gallipot::tests {

inline constexpr double no_end = std::numeric_limits<double>::infinity();

/// Regulation (EU) 2024/2865, new Table 1.3 (read at bens-consulting.com, article 465): least
/// x-height in mm by the capacity of the package in litres.
inline double clp_x_height(double litres) {
    return litres <= 0.5 ? 1.2 : litres <= 3 ? 1.4 : litres <= 50 ? 1.8 : 2.0;
}

/// 40 CFR 156.60(b)(1), edition of 2015: least points by square inches of panel.
struct Epa {
    double up_to, signal_word, child_warning;
};
inline constexpr std::array<Epa, 5> epa{
    {{5, 6, 6}, {10, 10, 6}, {15, 12, 8}, {30, 14, 10}, {no_end, 18, 12}}};

/// 16 CFR 1500.121(c)(2), Table 1 (figures from memory): least inches of capitals.
struct Fhsa {
    double up_to, signal_word, hazard, other;
};
inline constexpr std::array<Fhsa, 6> fhsa{{{2, 3. / 64, 3. / 64, 1. / 32},
                                           {5, 1. / 16, 3. / 64, 3. / 64},
                                           {10, 3. / 32, 1. / 16, 1. / 16},
                                           {15, 7. / 64, 3. / 32, 1. / 16},
                                           {30, 1. / 8, 3. / 32, 5. / 64},
                                           {no_end, 5. / 32, 7. / 64, 3. / 32}}};

template <class Table>
const auto& row(const Table& table, double value) {
    for (const auto& one : table)
        if (value <= one.up_to * (1 + 1e-9)) return one;
    return table.back();
}

/// Least type size in points of a part of this label, set in that face.
inline double minimum_points(const document::LabelBody& label, document::Part part,
                             double panel_in2, const fonts::Font& face) {
    if (label.rules == safety::RuleSet::clp_like)
        return clp_x_height(units::in_L(label.capacity)) / face.x_height() / layout::mm_per_point;
    const auto& points = row(epa, panel_in2);
    const auto& caps = row(fhsa, panel_in2);
    const double pt = part == document::Part::signal_word ? points.signal_word
                      : part == document::Part::keep_away ? points.child_warning
                                                          : 6;
    const double inches = part == document::Part::signal_word ? caps.signal_word
                          : part == document::Part::hazards   ? caps.hazard
                                                              : caps.other;
    return std::max(pt, inches * 72 / face.cap_height());
}

/// Table 1.3 of CLP Annex I, 1.2.1 (reachonline.eu): least side of a pictogram in mm by litres.
inline double minimum_pictogram(double litres) {
    return litres <= 3 ? 10 : litres <= 50 ? 23 : litres <= 500 ? 32 : 46;
}

/// A text without what a line break takes away: spaces and the dots between parts.
inline std::string bare(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text.compare(i, 2, "·") == 0 || text.compare(i, 2, "\xC2\xA0") == 0) {
            ++i;
            continue;
        }
        if (text.compare(i, 3, "\xE2\x80\xAF") == 0 ||  // narrow space, isolates
            text.compare(i, 3, "\u2067") == 0 || text.compare(i, 3, "\u2068") == 0 || text.compare(i, 3, "\u2069") == 0) {
            i += 2;
            continue;
        }
        if (text[i] != ' ') out += text[i];
    }
    return out;
}

}  // namespace gallipot::tests
