#include "base/units/duration_words.hpp"

#include "catch_all.hpp"

using gallipot::units::days_in_words;

TEST_CASE("lengths of time in words, one of each in the singular") {
    CHECK(days_in_words(1) == "1 day");
    CHECK(days_in_words(2) == "2 days");
    CHECK(days_in_words(2.5) == "2.5 days");
    CHECK(days_in_words(1826) == "1826 days");
    CHECK(days_in_words(1.0 / 24) == "1 hour");
    CHECK(days_in_words(5.0 / 24) == "5 hours");
    CHECK(days_in_words(0.5 / 24) == "30 minutes");
    CHECK(days_in_words(1.0 / 24 / 60) == "1 minute");
    CHECK(days_in_words(0.99999) == "1 day");
    CHECK(days_in_words(0.99999 / 24) == "1 hour");
    CHECK(days_in_words(0) == "0 minutes");
}
