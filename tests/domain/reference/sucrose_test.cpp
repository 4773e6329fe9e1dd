#include "domain/reference/sucrose.hpp"

#include "catch_all.hpp"

using namespace gallipot;
using namespace gallipot::reference;

namespace {
/// Density of a solution from the room its sugar takes up, in kg/m3.
double density(double percent) {
    const double share = percent / 100;
    const double room = sucrose_volume_in_solution({share}).si();
    return 1 / (share * room + (1 - share) / 998.2);
}
}  // namespace

TEST_CASE("densities between our points agree with a published table") {
    // CRC Handbook, concentrative properties, sucrose, 20 C, as carried in the data of the open
    // repository pcingola/SnpEff (Sucrose.java), kg/m3; none of these is a point of our table.
    for (const auto& [percent, kg_per_m3] : {std::pair{2.0, 1006.0},
                                             {8.0, 1029.9},
                                             {12.0, 1046.5},
                                             {18.0, 1072.2},
                                             {22.0, 1089.9},
                                             {28.0, 1117.5},
                                             {32.0, 1136.6},
                                             {38.0, 1166.3},
                                             {42.0, 1186.8},
                                             {44.0, 1197.2},
                                             {46.0, 1207.9},
                                             {48.0, 1218.6},
                                             {52.0, 1240.6},
                                             {54.0, 1251.8},
                                             {56.0, 1263.2},
                                             {58.0, 1274.7},
                                             {62.0, 1298.3},
                                             {66.0, 1322.4}}) {
        INFO(percent << " %");
        CHECK(density(percent) == Approx(kg_per_m3).epsilon(3e-4));
    }
}

TEST_CASE("the room sugar takes is that of the source's own derivation") {
    // Worked out by hand from 1.0809, 1.2296 and 1.2865 g/mL: 0.6185, 0.6248 and 0.6277
    // mL/g.
    CHECK(units::in_mL_per_g(sucrose_volume_in_solution({0.20})) == Approx(0.6185).margin(1e-4));
    CHECK(units::in_mL_per_g(sucrose_volume_in_solution({0.50})) == Approx(0.6248).margin(1e-4));
    CHECK(units::in_mL_per_g(sucrose_volume_in_solution({0.60})) == Approx(0.6277).margin(1e-4));
}

TEST_CASE("the room sugar takes rises smoothly and is bounded outside the table") {
    double before = sucrose_volume_in_solution({0}).si();
    for (int percent = 1; percent <= 100; ++percent) {
        const double now = sucrose_volume_in_solution({percent / 100.0}).si();
        CHECK(now >= before);
        CHECK(now - before < 0.4e-6);
        before = now;
    }
    CHECK(sucrose_volume_in_solution({1.0}) == sucrose_volume_in_solution({0.671}));
}
