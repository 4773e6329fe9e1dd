#include "domain/safety/dose.hpp"

#include "catch_all.hpp"

using namespace gallipot;
using namespace gallipot::safety;
using units::g;
using units::in_g;

// By hand: 0.31 g are 310 mg, over 10 kg 31 mg/kg.
TEST_CASE("a dose is milligrams for each kilogram of a child of ten", "[safety]") {
    CHECK(child_10kg_mg_per_kg(g(0.31)) == Approx(31));
    CHECK(child_10kg_mg_per_kg(g(5.5)) == Approx(550));
    CHECK(child_10kg_mg_per_kg(g(0)) == 0);
    CHECK(in_g(limits::child) == Approx(10'000));
}

TEST_CASE("what is left at a level was eaten, or only its water dried up", "[safety]") {
    const auto half = left_at_level(g(0.4), 0.5, true);
    CHECK(in_g(half.low) == Approx(0.2));
    CHECK(in_g(half.high) == Approx(0.4));
    CHECK(in_g(left_at_level(g(0.4), 0.5, false).high) == Approx(0.2));
    CHECK(in_g(left_at_level(g(0.4), 1, true).low) == Approx(0.4));
}
