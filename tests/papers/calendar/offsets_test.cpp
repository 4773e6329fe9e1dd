#include "papers/calendar/offsets.hpp"

#include "catch_all.hpp"

using namespace gallipot::calendar;
using namespace std::chrono_literals;

namespace {

std::chrono::local_seconds at(int year, unsigned month, unsigned day) {
    return std::chrono::local_days(std::chrono::year{year} / static_cast<int>(month) /
                                   static_cast<int>(day));
}

}  // namespace

TEST_CASE("a zone's changes while the visits last", "[calendar]") {
    // New South Wales: summer time ends at 3 on the first Sunday of April (Standard Time Act 1987,
    // from memory), which is 4 April in 2027.
    const auto sydney = offsets("Australia/Sydney", at(2027, 3, 2), at(2027, 5, 31));
    REQUIRE(sydney.size() == 3);
    CHECK_FALSE(sydney[0].daylight);
    CHECK(sydney[1].after == 11h);
    CHECK(sydney[1].daylight);
    CHECK(sydney[1].from <= at(2027, 3, 2));
    CHECK(sydney[2].from == at(2027, 4, 4) + 3h);
    CHECK(sydney[2].before == 11h);
    CHECK(sydney[2].after == 10h);
    CHECK_FALSE(sydney[2].daylight);
    // United States: second Sunday of March at 2 (15 U.S.C. 260a, from memory).
    const auto chicago = offsets("America/Chicago", at(2027, 3, 2), at(2027, 3, 20));
    REQUIRE(chicago.size() == 2);
    CHECK(chicago[0].after == -6h);
    CHECK(chicago[1].from == at(2027, 3, 14) + 2h);
    CHECK(chicago[1].after == -5h);
    CHECK(chicago[1].daylight);
}

TEST_CASE("zones without summer time, and none at all", "[calendar]") {
    const auto utc = offsets("Etc/UTC", at(2027, 3, 2), at(2028, 3, 2));
    REQUIRE(utc.size() == 1);
    CHECK(utc[0].after == 0s);
    const auto brisbane = offsets("Australia/Brisbane", at(2027, 3, 2), at(2028, 3, 2));
    REQUIRE(brisbane.size() == 1);
    CHECK(brisbane[0].after == 10h);
    CHECK(offsets("Nowhere/At_All", at(2027, 3, 2), at(2028, 3, 2)).empty());
}
