#include "base/units/duration_words.hpp"

#include "catch_all.hpp"

using gallipot::units::days_in_words;

TEST_CASE("lengths of time in words, one of each in the singular") {
    CHECK(days_in_words(1).english() == "1 day");
    CHECK(days_in_words(2).english() == "2 days");
    CHECK(days_in_words(2.5).english() == "2.5 days");
    CHECK(days_in_words(1826).english() == "1826 days");
    CHECK(days_in_words(1.0 / 24).english() == "1 hour");
    CHECK(days_in_words(5.0 / 24).english() == "5 hours");
    CHECK(days_in_words(0.5 / 24).english() == "30 minutes");
    CHECK(days_in_words(1.0 / 24 / 60).english() == "1 minute");
    CHECK(days_in_words(0.99999).english() == "1 day");
    CHECK(days_in_words(0.99999 / 24).english() == "1 hour");
    CHECK(days_in_words(0).english() == "0 minutes");
}
