#include "domain/safety/type_sizes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace gallipot::safety {

namespace {

using reference::Provenance;
using units::Area;
using units::Length;
using units::Volume;

constexpr double no_end = std::numeric_limits<double>::infinity();

// 40 CFR 156.60(b)(1), edition of 2015 (found). Points by square inches of panel.
struct EpaBand {
    double up_to_in2, signal_pt, child_pt;
};
constexpr std::array<EpaBand, 5> epa{
    {{5, 6, 6}, {10, 10, 6}, {15, 12, 8}, {30, 14, 10}, {no_end, 18, 12}}};
// 40 CFR 156.60(b)(2) and 156.10(a)(2)(ii) (found).
constexpr double epa_other_pt = 6;

// 16 CFR 1500.121(c)(2), Table 1. The structure was found, the figures are from memory: every copy
// read had lost the table's rows. Inches of cap height by square inches of panel.
struct FhsaBand {
    double up_to_in2, signal_in, hazard_in, other_in;
};
constexpr std::array<FhsaBand, 6> fhsa{{{2, 3.0 / 64, 3.0 / 64, 1.0 / 32},
                                        {5, 1.0 / 16, 3.0 / 64, 3.0 / 64},
                                        {10, 3.0 / 32, 1.0 / 16, 1.0 / 16},
                                        {15, 7.0 / 64, 3.0 / 32, 1.0 / 16},
                                        {30, 1.0 / 8, 3.0 / 32, 5.0 / 64},
                                        {no_end, 5.0 / 32, 7.0 / 64, 3.0 / 32}}};

// Regulation (EU) 2024/2865, Annex I 1.2.1, as told by bens-consulting.com, article 465 (found).
// Millimetres of x-height by litres.
struct ClpLetters {
    double up_to_l, x_mm;
};
constexpr std::array<ClpLetters, 4> clp{{{0.5, 1.2}, {3, 1.4}, {50, 1.8}, {no_end, 2.0}}};

// CLP Annex I, 1.2.1, Table 1.3 (found, reachonline.eu). Millimetres by litres.
struct ClpLabel {
    double up_to_l, width_mm, height_mm, pictogram_mm, better_mm;
};
constexpr std::array<ClpLabel, 4> labels{{{3, 74, 52, 10, 16},
                                          {50, 105, 74, 23, 23},
                                          {500, 148, 105, 32, 32},
                                          {no_end, 210, 148, 46, 46}}};

double in_square_inches(Area area) {
    return area / units::square_inches(1);
}

// A band's end belongs to it: not to be lost to the last bit of a conversion.
bool within(double value, double up_to) {
    return value <= up_to * (1 + 1e-9);
}

const EpaBand& epa_band(double in2) {
    return *std::find_if(epa.begin(), epa.end(),
                         [&](const EpaBand& band) { return within(in2, band.up_to_in2); });
}

const FhsaBand& fhsa_band(double in2) {
    return *std::find_if(fhsa.begin(), fhsa.end(),
                         [&](const FhsaBand& band) { return within(in2, band.up_to_in2); });
}

std::vector<LeastSize> us_sizes(Part part, Area panel) {
    const double in2 = in_square_inches(panel);
    const EpaBand& points = epa_band(in2);
    const FhsaBand& caps = fhsa_band(in2);
    double pt = epa_other_pt;
    double cap = caps.other_in;
    if (part == Part::signal_word) {
        pt = points.signal_pt;
        cap = caps.signal_in;
    } else if (part == Part::child_warning) {
        pt = points.child_pt;
    } else if (part == Part::hazard_statement) {
        cap = caps.hazard_in;
    }
    return {{Measured::type_size, units::points(pt), Provenance::found, "40 CFR 156.60(b)"},
            {Measured::cap_height, units::inches(cap), Provenance::memory,
             "16 CFR 1500.121(c)(2), Table 1"}};
}

std::vector<LeastSize> clp_sizes(Volume capacity) {
    const double litres = units::in_L(capacity);
    const auto& band = *std::find_if(clp.begin(), clp.end(), [&](const ClpLetters& letters) {
        return within(litres, letters.up_to_l);
    });
    return {{Measured::x_height, units::mm(band.x_mm), Provenance::found,
             "Regulation (EU) 2024/2865, from 2028-01-01"}};
}

}  // namespace

std::vector<LeastSize> minimum_sizes(Part part, RuleSet rules, Area panel, Volume capacity) {
    if (!(panel > Area{}) || !(capacity > Volume{})) {
        throw std::invalid_argument("a panel's area and a container's capacity must be above 0");
    }
    return rules == RuleSet::us_household ? us_sizes(part, panel) : clp_sizes(capacity);
}

Length type_size_for(const LeastSize& minimum, LetterHeights font) {
    switch (minimum.measured) {
        case Measured::type_size:
            return minimum.size;
        case Measured::cap_height:
            return minimum.size / font.cap;
        case Measured::x_height:
            return minimum.size / font.x;
    }
    return minimum.size;
}

Length type_size_for(const std::vector<LeastSize>& minimum, LetterHeights font) {
    Length size{};
    for (const LeastSize& one : minimum) size = std::max(size, type_size_for(one, font));
    return size;
}

Area cylinder_panel(Length height, Length diameter) {
    return 0.40 * (height * (std::numbers::pi * diameter));
}

Area disc_panel(Length diameter) {
    return std::numbers::pi / 4 * (diameter * diameter);
}

Area rectangle_panel(Length width, Length height) {
    return width * height;
}

std::optional<Area> panel_of(const job::Body& body) {
    std::optional<Area> panel;
    if (body.diameter && body.height) panel = cylinder_panel(*body.height, *body.diameter);
    if (body.lid) panel = std::max(panel.value_or(Area{}), disc_panel(*body.lid));
    return panel;
}

LabelSize label_size(Volume capacity) {
    const double litres = units::in_L(capacity);
    const auto& band = *std::find_if(labels.begin(), labels.end(), [&](const ClpLabel& label) {
        return within(litres, label.up_to_l);
    });
    return {units::mm(band.width_mm), units::mm(band.height_mm), &band == labels.begin(),
            units::mm(band.pictogram_mm), units::mm(band.better_mm)};
}

Length diamond_width(Length side) {
    return side * std::numbers::sqrt2;
}

}  // namespace gallipot::safety
