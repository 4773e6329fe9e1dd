#include "domain/safety/precautions.hpp"

#include "catch_all.hpp"

#include "domain/safety/classify.hpp"

using namespace gallipot;
using namespace gallipot::safety;
using Codes = std::vector<std::string>;

namespace {

Hazard borax(double percent, RuleSet rules = RuleSet::clp_like) {
    return classify(
        {{"borax", reference::find_substance("borax"), percent / 100, percent / 100, false}},
        rules);
}

}  // namespace

TEST_CASE("a code is printed as published", "[safety]") {
    CHECK(published_code("P280-eyes") == "P280");
    CHECK(published_code("P305+P351+P338") == "P305+P351+P338");
    CHECK(published_code("H360FD") == "H360FD");
    CHECK(published_code("us_children").empty());
}

TEST_CASE("what is set out cannot be locked up", "[safety]") {
    CHECK(precautions_for(borax(1), Setting::set_out) ==
          Codes{"P102", "P280", "P308+P313", "P501"});
    CHECK(precautions_for(borax(1), Setting::stored) == borax(1).precaution_codes);
    CHECK(precautions_for(borax(1, RuleSet::us_household), Setting::set_out) ==
          Codes{"us_children", "us_contact"});
}

// CLP Annex I, 1.5.2.1.1: up to 125 mL; eye irritation 2 is listed, reproductive toxicity is not.
TEST_CASE("H360FD stays however small the cup", "[safety]") {
    for (double mL : {1.0, 10.0, 45.0, 125.0}) {
        const Codes out = may_leave_out(borax(33), units::mL(mL));
        CHECK(out == Codes{"P264", "P305+P351+P338", "H319"});
    }
    CHECK(may_leave_out(borax(33), units::mL(125.1)).empty());
    CHECK(may_leave_out(borax(1), units::mL(10)).empty());
    CHECK(may_leave_out(borax(33, RuleSet::us_household), units::mL(10)).empty());
}
