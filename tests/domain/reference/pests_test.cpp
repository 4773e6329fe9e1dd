#include "domain/reference/pests.hpp"

#include "catch_all.hpp"

#include "domain/reference/coverage.hpp"

using namespace gallipot;
using namespace gallipot::reference;

namespace {
std::string_view meant(std::string_view text) {
    const Pest* pest = find_pest(text);
    return pest ? pest->name : "none";
}
}  // namespace

TEST_CASE("a pest is found by what people call it") {
    CHECK(meant("ants") == "ants");
    CHECK(meant("Ant") == "ants");
    CHECK(meant("sugar ants, kitchen") == "ants");
    CHECK(meant("Hormigas") == "ants");
    CHECK(meant("cockroaches") == "cockroaches");
    CHECK(meant("German cockroach") == "cockroaches");
    CHECK(meant("wood borers") == "wood borers");
    CHECK(meant("carpenter ants in wood") == "ants");
    CHECK(meant("elephants") == "none");
    CHECK(meant("") == "none");
    CHECK(meant(" , ") == "none");
}

TEST_CASE("usual strengths are ordered and name their source") {
    for (const Pest& pest : pests()) {
        CHECK_FALSE(pest.usual.empty());
        for (const UsualStrength& usual : pest.usual) {
            CHECK(usual.low <= usual.high);
            CHECK(usual.low.fraction > 0);
            CHECK_FALSE(usual.source.empty());
        }
    }
}

TEST_CASE("coverage is that of the source") {
    // A borate supplier: 1 US gallon (3.785 L) on 200 square feet (18.58 m2).
    const auto coat = coverage_per_coat(Preparation::spray);
    REQUIRE(coat);
    CHECK(units::in_mm(coat->value) == Approx(3.785 / 18.58).epsilon(1e-3));
    CHECK_FALSE(coverage_per_coat(Preparation::dry));
    CHECK_FALSE(coverage_per_coat(Preparation::paste));
}
