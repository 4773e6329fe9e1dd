#include "domain/safety/rules.hpp"

#include "catch_all.hpp"

#include "domain/reference/regions.hpp"
#include "domain/safety/first_aid.hpp"

using namespace gallipot;
using namespace gallipot::safety;

TEST_CASE("the United States follow household rules, all others the EU's", "[safety]") {
    for (const char* region : {"US", "PR", "GU", "VI", "AS", "MP"}) {
        INFO(region);
        CHECK(rules_for(region).rules == RuleSet::us_household);
    }
    for (const char* region :
         {"DE", "ES", "FR", "NL", "IE", "AT", "FI", "IT", "PL", "NO", "IS", "LI",
          "GB", "CH", "AU", "NZ", "CA", "PH", "UA", "IN", "ZA", "BR", "MX"}) {
        INFO(region);
        CHECK(rules_for(region).rules == RuleSet::clp_like);
    }
    CHECK(rules_for("ZZ").rules == RuleSet::clp_like);
    CHECK(rules_for("").rules == RuleSet::clp_like);
}

TEST_CASE("every region's rules have a reason", "[safety]") {
    for (const auto& region : reference::regions()) {
        INFO(region.code);
        CHECK_FALSE(rules_for(region.code).why.empty());
    }
    const auto says = [](const char* region, const char* part) {
        return rules_for(region).why.find(part) != std::string_view::npos;
    };
    CHECK(says("AU", "Poisons Standard"));
    CHECK(says("CA", "national symbols"));
    CHECK(says("CH", "takes over EU classification"));
    CHECK(says("NZ", "hazardous substances notices"));
    CHECK(says("UA", "modelled on the EU's"));
    CHECK(says("TH", "no rules of its own are known"));
    // What stands in for a country's own rules is never called found.
    CHECK(rules_for("TH").provenance == reference::Provenance::memory);
    CHECK(rules_for("DE").provenance == reference::Provenance::found);
}

// centres-antipoison.net: nothing to drink; EPA PR Notice 2001-1: sip a glass of water.
TEST_CASE("only US advice lets the person drink", "[safety]") {
    CHECK(advice_for("US") == Advice::us_label);
    for (const char* region : {"FR", "GB", "NZ", "AU", "DE", "PH", "ZZ"}) {
        CHECK(advice_for(region) == Advice::ask_first);
    }
    const auto us = first_aid(Advice::us_label);
    const auto ask = first_aid(Advice::ask_first);
    CHECK(std::count(us.swallowed.begin(), us.swallowed.end(), "first_aid.us.swallowed_sip") == 1);
    CHECK(std::count(ask.swallowed.begin(), ask.swallowed.end(),
                     "first_aid.ask_first.swallowed_no_drink") == 1);
    for (const auto& key : ask.swallowed) CHECK(key.find("sip") == std::string::npos);
}
