#include "tracking/log/fields.hpp"

#include "catch_all.hpp"

#include "plan_for_tests.hpp"

namespace gallipot::log {
namespace {

using visit::Did;
using visit::State;

TEST_CASE("fields: a station is named by its id, or one of its containers by its number") {
    const plan::Plan plan = tests::two_stations();
    CHECK(find_target(plan, "K1") == Target{"K1", 0});
    CHECK(find_target(plan, "k1") == Target{"K1", 0});
    CHECK(find_target(plan, "K1-2") == Target{"K1", 2});
    CHECK_FALSE(find_target(plan, "K1-3"));
    CHECK_FALSE(find_target(plan, "K1-0"));
    CHECK_FALSE(find_target(plan, "K1-02"));
    CHECK_FALSE(find_target(plan, "K1-"));
    CHECK_FALSE(find_target(plan, "C1-1"));
    CHECK_FALSE(find_target(plan, "Z9"));
    CHECK_FALSE(find_target(plan, ""));
    visit::Visit visit;
    visit.station = "K1";
    CHECK(print_target(visit) == "K1");
    visit.container = 2;
    CHECK(print_target(visit) == "K1-2");
}

TEST_CASE("fields: an id of its own goes before a container's number") {
    plan::Plan plan = tests::two_stations();
    plan.stations[1].id = "K1-2";
    CHECK(find_target(plan, "K1-2") == Target{"K1-2", 0});
}

TEST_CASE("fields: counts are whole numbers") {
    CHECK(parse_count("0") == 0);
    CHECK(parse_count(" 120 ") == 120);
    CHECK(parse_count("007") == 7);
    CHECK(parse_count("1000000") == 1'000'000);
    for (const char* bad : {"", " ", "-1", "-0", "+1", "1.5", "1,5", "0x10", "1e3", "many",
                            "1000001", "99999999999999999999", "1 2"}) {
        INFO(bad);
        CHECK_FALSE(parse_count(bad));
    }
}

TEST_CASE("fields: levels in words and in percent") {
    CHECK(parse_level("full") == 100);
    CHECK(parse_level("Full") == 100);
    CHECK(parse_level("3/4") == 75);
    CHECK(parse_level("1/2") == 50);
    CHECK(parse_level("1/4") == 25);
    CHECK(parse_level("empty") == 0);
    CHECK(parse_level("62") == 62);
    CHECK(parse_level("62 %") == 62);
    CHECK(parse_level("62%") == 62);
    for (const char* bad : {"", "%", "101", "-5", "2/4", "halfway", "half full"}) {
        INFO(bad);
        CHECK_FALSE(parse_level(bad));
    }
}

TEST_CASE("fields: states and deeds, in any order and apart by any usual sign") {
    std::string stranger;
    const visit::Marks<State> both{State::clogged, State::wet};
    CHECK(parse_states("wet clogged", stranger) == both);
    CHECK(parse_states("clogged, wet", stranger) == both);
    CHECK(parse_states("Clogged;wet", stranger) == both);
    CHECK(parse_states("clogged+wet+wet", stranger) == both);
    CHECK(parse_states("", stranger) == visit::Marks<State>{});
    CHECK(print_states(both) == "clogged wet");
    CHECK(parse_dids("refilled", stranger) == visit::Marks<Did>{Did::refilled});
    CHECK(stranger.empty());
    CHECK_FALSE(parse_states("wet sticky", stranger));
    CHECK(stranger == "sticky");
    CHECK_FALSE(parse_dids("clogged", stranger));
    CHECK(state_words() == "clogged, wet, dry, spilt, moved, missing, mouldy");
    CHECK(did_words() == "cleared, refilled, replaced, moved, removed, placed");
}

TEST_CASE("fields: texts are kept as they were meant") {
    CHECK(tidy("  a\r\nb\rc\td \n") == "a\nb\nc d");
    CHECK(tidy(" \n ") == "");
    CHECK(find_fault("two\nlines", 100, true) == TextFault::none);
    CHECK(find_fault("two\nlines", 100, false) == TextFault::control_character);
    CHECK(find_fault("bell\a", 100, true) == TextFault::control_character);
    CHECK(find_fault(std::string("nul\0", 4), 100, true) == TextFault::control_character);
    CHECK(find_fault("\xE2\x80\xAE"
                     "turned",
                     100, true) == TextFault::control_character);
    CHECK(find_fault("\xFF", 100, true) == TextFault::not_utf8);
    CHECK(find_fault("\xC0\xAF", 100, true) == TextFault::not_utf8);  // an overlong slash
    CHECK(find_fault("жжж", 3, true) == TextFault::none);             // characters, not bytes
    CHECK(find_fault("жжжж", 3, true) == TextFault::too_long);
}

TEST_CASE("fields: a visit of nothing says nothing") {
    visit::Visit visit;
    visit.station = "K1";
    visit.by = "Someone";
    CHECK_FALSE(says_something(visit));
    visit.seen = 0;
    CHECK(says_something(visit));
}

}  // namespace
}  // namespace gallipot::log
