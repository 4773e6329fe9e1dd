#include "domain/safety/type_sizes.hpp"

#include <numbers>
#include <stdexcept>

#include "catch_all.hpp"

using namespace gallipot;
using namespace gallipot::safety;
using units::square_inches;

namespace {

constexpr units::Volume cup = units::mL(60);
constexpr units::Area panel = units::cm2(30);

/// The published figure in points (type size) or inches (cap height) for a panel in square inches.
double us_pt(Part part, double in2) {
    const auto sizes = minimum_sizes(part, RuleSet::us_household, square_inches(in2), cup);
    REQUIRE(sizes.size() == 2);
    REQUIRE(sizes[0].measured == Measured::type_size);
    return units::in_points(sizes[0].size);
}
double us_cap_in(Part part, double in2) {
    const auto sizes = minimum_sizes(part, RuleSet::us_household, square_inches(in2), cup);
    REQUIRE(sizes[1].measured == Measured::cap_height);
    return sizes[1].size / units::inches(1);
}
double clp_x_mm(double litres) {
    const auto sizes = minimum_sizes(Part::other, RuleSet::clp_like, panel, units::L(litres));
    REQUIRE(sizes.size() == 1);
    REQUIRE(sizes[0].measured == Measured::x_height);
    return units::in_mm(sizes[0].size);
}

}  // namespace

// 40 CFR 156.60(b)(1) and (2), 2015 annual edition.
TEST_CASE("type sizes of 40 CFR 156.60 by panel area", "[safety]") {
    struct Row {
        double over, up_to, signal, child;
    };
    const Row rows[] = {
        {0, 5, 6, 6}, {5, 10, 10, 6}, {10, 15, 12, 8}, {15, 30, 14, 10}, {30, 1000, 18, 12}};
    for (const Row& row : rows) {
        for (double in2 : {row.over + 0.001, (row.over + row.up_to) / 2, row.up_to}) {
            INFO(in2);
            CHECK(us_pt(Part::signal_word, in2) == Approx(row.signal));
            CHECK(us_pt(Part::child_warning, in2) == Approx(row.child));
            CHECK(us_pt(Part::hazard_statement, in2) == Approx(6));
            CHECK(us_pt(Part::other, in2) == Approx(6));
        }
    }
}

// 16 CFR 1500.121(c)(2), Table 1; figures from memory, in 64ths of an inch of cap height.
TEST_CASE("cap heights of 16 CFR 1500.121 by panel area", "[safety]") {
    struct Row {
        double over, up_to, signal, hazard, other;
    };
    const Row rows[] = {{0, 2, 3, 3, 2},   {2, 5, 4, 3, 3},   {5, 10, 6, 4, 4},
                        {10, 15, 7, 6, 4}, {15, 30, 8, 6, 5}, {30, 1000, 10, 7, 6}};
    for (const Row& row : rows) {
        for (double in2 : {row.over + 0.001, row.up_to}) {
            INFO(in2);
            CHECK(us_cap_in(Part::signal_word, in2) * 64 == Approx(row.signal));
            CHECK(us_cap_in(Part::hazard_statement, in2) * 64 == Approx(row.hazard));
            CHECK(us_cap_in(Part::child_warning, in2) * 64 == Approx(row.other));
            CHECK(us_cap_in(Part::other, in2) * 64 == Approx(row.other));
        }
    }
    const auto sizes = minimum_sizes(Part::other, RuleSet::us_household, panel, cup);
    CHECK(sizes[0].provenance == reference::Provenance::found);
    CHECK(sizes[1].provenance == reference::Provenance::memory);
}

// Regulation (EU) 2024/2865, new Table 1.3 of CLP Annex I, applicable from 2028-01-01.
TEST_CASE("x-heights of the CLP regulation by capacity", "[safety]") {
    CHECK(clp_x_mm(0.01) == Approx(1.2));
    CHECK(clp_x_mm(0.5) == Approx(1.2));
    CHECK(clp_x_mm(0.5001) == Approx(1.4));
    CHECK(clp_x_mm(3) == Approx(1.4));
    CHECK(clp_x_mm(3.001) == Approx(1.8));
    CHECK(clp_x_mm(50) == Approx(1.8));
    CHECK(clp_x_mm(50.1) == Approx(2.0));
    for (Part part : {Part::signal_word, Part::child_warning, Part::hazard_statement}) {
        const auto sizes = minimum_sizes(part, RuleSet::clp_like, panel, units::mL(500));
        CHECK(units::in_mm(sizes.at(0).size) == Approx(1.2));
    }
}

// With x-height 0.52 em and cap height 0.72 em: 1.2 mm needs 6.54 pt, 3/32 in needs 9.37 pt
// (arithmetic: 1.2 / 0.52 / 0.352778 and 25.4 x 3/32 / 0.72 / 0.352778).
TEST_CASE("sizes are converted by the letters of the font", "[safety]") {
    const LetterHeights font{0.72, 0.52};
    const auto points = [&](Measured measured, units::Length size) {
        return units::in_points(
            type_size_for(LeastSize{measured, size, reference::Provenance::found, ""}, font));
    };
    CHECK(points(Measured::x_height, units::mm(1.2)) == Approx(6.54).margin(0.005));
    CHECK(points(Measured::cap_height, units::inches(3.0 / 32)) == Approx(9.37).margin(0.01));
    CHECK(points(Measured::type_size, units::points(6)) == Approx(6));
}

TEST_CASE("of several rules the largest size holds", "[safety]") {
    const LetterHeights font{0.72, 0.52};
    // Panel of 7.54 square inches: 10 pt against 3/32 in of cap height, 9.37 pt.
    const auto signal =
        minimum_sizes(Part::signal_word, RuleSet::us_household, square_inches(7.54), cup);
    CHECK(units::in_points(type_size_for(signal, font)) == Approx(10));
    // A font with small capitals needs more for the second.
    CHECK(units::in_points(type_size_for(signal, {0.6, 0.45})) == Approx(11.25));
    CHECK(type_size_for(std::vector<LeastSize>{}, font) == units::Length{});
}

// 0.40 x 3.0 in x pi x 2.0 in = 7.54 square inches: the band over 5 up to 10.
TEST_CASE("a cylinder's panel is four tenths of height times circumference", "[safety]") {
    const auto area = cylinder_panel(units::inches(3), units::inches(2));
    CHECK(area / square_inches(1) == Approx(7.54).margin(0.002));
    CHECK(us_pt(Part::signal_word, area / square_inches(1)) == Approx(10));
    CHECK(rectangle_panel(units::mm(74), units::mm(52)) / units::cm2(1) == Approx(38.48));
    CHECK(disc_panel(units::mm(60)) / units::cm2(1) == Approx(9 * std::numbers::pi));
}

TEST_CASE("a panel that is a hair over its band by rounding alone is in it", "[safety]") {
    const auto area = rectangle_panel(units::inches(0.8), units::inches(6.25));
    REQUIRE(area / square_inches(1) > 5);
    const auto sizes = minimum_sizes(Part::signal_word, RuleSet::us_household, area, cup);
    CHECK(units::in_points(sizes[0].size) == Approx(6));
    CHECK(sizes[1].size / units::inches(1) == Approx(1.0 / 16));
}

TEST_CASE("a container's panel follows its body", "[safety]") {
    job::Body body;
    CHECK_FALSE(panel_of(body).has_value());
    body.diameter = units::mm(48);
    CHECK_FALSE(panel_of(body).has_value());
    body.diameter.reset();
    body.lid = units::mm(60);
    CHECK(*panel_of(body) / disc_panel(units::mm(60)) == Approx(1));
    body.diameter = units::mm(48);
    CHECK(*panel_of(body) / disc_panel(units::mm(60)) == Approx(1));
    body.height = units::mm(44);
    // 0.40 x 44 x pi x 48 = 2654 mm2, less than the lid's 2827 mm2; a taller one is more.
    CHECK(*panel_of(body) / disc_panel(units::mm(60)) == Approx(1));
    body.height = units::mm(60);
    CHECK(*panel_of(body) / units::cm2(1) == Approx(36.19).margin(0.01));
}

// CLP Annex I, 1.2.1, Table 1.3.
TEST_CASE("label and pictogram sizes of the CLP regulation by capacity", "[safety]") {
    struct Row {
        double litres, width, height, pictogram, better;
        bool if_possible;
    };
    const Row rows[] = {{0.06, 74, 52, 10, 16, true},    {3, 74, 52, 10, 16, true},
                        {3.001, 105, 74, 23, 23, false}, {50, 105, 74, 23, 23, false},
                        {51, 148, 105, 32, 32, false},   {500, 148, 105, 32, 32, false},
                        {501, 210, 148, 46, 46, false}};
    for (const Row& row : rows) {
        INFO(row.litres);
        const LabelSize size = label_size(units::L(row.litres));
        CHECK(units::in_mm(size.width) == Approx(row.width));
        CHECK(units::in_mm(size.height) == Approx(row.height));
        CHECK(units::in_mm(size.pictogram) == Approx(row.pictogram));
        CHECK(units::in_mm(size.pictogram_if_possible) == Approx(row.better));
        CHECK(size.if_possible == row.if_possible);
        // 1.2.1.4: at least 1 cm2, and a fifteenth of the label where that is possible (the table's
        // own figures are rounded to a millimetre).
        const auto minimum = size.pictogram * size.pictogram;
        CHECK(units::in_cm2(minimum) >= Approx(1));
        const auto better = size.pictogram_if_possible * size.pictogram_if_possible;
        CHECK(better / (size.width * size.height) == Approx(1.0 / 15).epsilon(0.03));
    }
}

// The dimension is the side of the diamond, not of an upright square around it.
TEST_CASE("a diamond is wider than its side", "[safety]") {
    CHECK(units::in_mm(diamond_width(units::mm(10))) == Approx(14.14).margin(0.005));
    CHECK(units::in_mm(diamond_width(units::mm(16))) == Approx(22.63).margin(0.005));
    CHECK(units::in_mm(diamond_width(units::mm(23))) == Approx(32.53).margin(0.005));
}

TEST_CASE("a panel or capacity of nothing is refused", "[safety]") {
    CHECK_THROWS_AS(minimum_sizes(Part::other, RuleSet::clp_like, panel, units::Volume{}),
                    std::invalid_argument);
    CHECK_THROWS_AS(minimum_sizes(Part::other, RuleSet::us_household, units::Area{}, cup),
                    std::invalid_argument);
}
