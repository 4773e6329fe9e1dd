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

// CLP Annex I, 1.5.2.1.1: up to 125 mL those of eye irritation 2 first; reproductive toxicity is
// not in its list.
TEST_CASE("a label gives up its precautions in a stated order", "[safety]") {
    const auto order = [](double percent, Setting setting, double mL) {
        return leave_out_order(borax(percent), setting, units::mL(mL));
    };
    for (double mL : {1.0, 45.0, 125.0}) {
        CHECK(order(33, Setting::set_out, mL) ==
              Codes{"P264", "P305+P351+P338", "P280-eyes", "P501"});
        CHECK(order(33, Setting::stored, mL) ==
              Codes{"P264", "P305+P351+P338", "P201", "P280-eyes"});
    }
    CHECK(order(33, Setting::set_out, 125.1) ==
          Codes{"P264", "P280-eyes", "P501", "P305+P351+P338"});
    CHECK(order(33, Setting::stored, 500) == Codes{"P201", "P264", "P280-eyes", "P305+P351+P338"});
    CHECK(order(1, Setting::set_out, 45) == Codes{"P280", "P501"});
    CHECK(order(1, Setting::stored, 500) == Codes{"P201", "P280"});
    CHECK(
        leave_out_order(borax(33, RuleSet::us_household), Setting::stored, units::mL(10)).empty());
}
