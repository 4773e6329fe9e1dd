#include <cmath>
#include <stdexcept>

#include "catch_all.hpp"

#include "folder.hpp"

using namespace gallipot;
using namespace std::chrono_literals;
using text::Catalog;
using text::Figures;

namespace {

Catalog shipped(const std::string& language, const std::string& region) {
    diag::Diagnostics out;
    Catalog catalog(tests::templates(), language, region, out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    return catalog;
}

/// No-break spaces made visible, so that a wrong one cannot hide.
std::string seen(std::string text) {
    for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0", at)) {
        text.replace(at, 2, "_");
    }
    return text;
}

}  // namespace

TEST_CASE("amounts show what they are good for", "[text]") {
    const auto words = shipped("en", "AU");
    const auto mass = [&](double g) { return seen(words.mass(units::g(g))); };
    CHECK(mass(0) == "0_g");
    CHECK(mass(0.000012) == "0.012_mg");
    CHECK(mass(0.0045) == "4.5_mg");
    CHECK(mass(0.045) == "45_mg");
    CHECK(mass(0.0994) == "99_mg");
    CHECK(mass(0.0996) == "0.10_g");
    CHECK(mass(0.49) == "0.49_g");
    CHECK(mass(0.999) == "1.0_g");
    CHECK(mass(3) == "3_g");
    CHECK(mass(3.004) == "3.0_g");
    CHECK(mass(3.2) == "3.2_g");
    CHECK(mass(9.94) == "9.9_g");
    CHECK(mass(9.96) == "10_g");
    CHECK(mass(64.4) == "64_g");
    CHECK(mass(321.3) == "321_g");
    CHECK(mass(999.4) == "999_g");
    CHECK(mass(999.6) == "1_kg");
    CHECK(mass(1254) == "1.25_kg");
    CHECK(mass(1500) == "1.5_kg");
    CHECK(mass(12340) == "12.3_kg");
    CHECK(mass(-3.2) == "-3.2_g");

    const auto volume = [&](double mL) { return seen(words.volume(units::mL(mL))); };
    CHECK(volume(45) == "45_mL");
    CHECK(volume(5) == "5_mL");
    CHECK(volume(3.69) == "3.7_mL");
    CHECK(volume(254.4) == "254_mL");
    CHECK(volume(1500) == "1.5_L");
    CHECK(volume(1000) == "1_L");
    CHECK(seen(words.area(units::m2(6))) == "6_m²");
    CHECK(seen(words.area(units::m2(0.25))) == "0.25_m²");
    CHECK(seen(words.temperature({39.6})) == "40_°C");
    CHECK(seen(words.temperature({-0.3})) == "0_°C");
    CHECK(seen(words.temperature({-4})) == "-4_°C");
}

TEST_CASE("percents and their ranges", "[text]") {
    const auto words = shipped("en", "AU");
    CHECK(seen(words.percent(0.01)) == "1_%");
    CHECK(seen(words.percent(0.0101)) == "1.0_%");
    CHECK(seen(words.percent(0.0065)) == "0.65_%");
    CHECK(seen(words.percent(0.2)) == "20_%");
    CHECK(seen(words.percent(0.791)) == "79_%");
    CHECK(seen(words.percent_range(0.0091, 0.0112)) == "0.9_to_1.1_%");
    CHECK(seen(words.percent_range(0.1, 0.2)) == "10_to_20_%");
    CHECK(seen(words.percent_range(0.312, 0.388)) == "31_to_39_%");
    CHECK(seen(words.percent_range(0.0002, 0.011)) == "0.02_to_1.10_%");
    CHECK(seen(words.percent_range(0.0098, 0.01)) == "1.0_%");
    CHECK(seen(words.percent_range(0.0945, 0.0996)) == "9_to_10_%");
}

TEST_CASE("the one rounding is half to even on the decimal value", "[text]") {
    const auto words = shipped("en", "AU");
    CHECK(words.number(0.125, Figures::two_decimals) == "0.12");
    CHECK(words.number(0.375, Figures::two_decimals) == "0.38");
    CHECK(words.number(2.5, Figures::whole) == "2");
    CHECK(words.number(3.5, Figures::whole) == "4");
    // 1.005 is a little less in binary; the decimal value as written is what counts.
    CHECK(words.number(1.005, Figures::two_decimals) == "1.00");
    CHECK(words.number(1.015, Figures::two_decimals) == "1.02");
    CHECK(words.number(1234.5, Figures::two_significant) == "1,200");
    CHECK(words.number(1234.5, Figures::three_significant) == "1,230");
    CHECK(words.number(-0.04, Figures::one_decimal) == "0.0");
    CHECK_THROWS_AS(words.number(std::nan(""), Figures::whole), std::logic_error);
    CHECK_THROWS_AS(words.mass(units::g(INFINITY)), std::logic_error);
}

TEST_CASE("dates", "[text]") {
    const auto words = shipped("en", "AU");
    const auto day = std::chrono::year{2027} / 3 / 2;
    const auto time = std::chrono::local_days{day} + 19h + 30min;
    CHECK(words.date(day) == "2 March 2027");
    CHECK(words.short_date(day) == "2 Mar 2027");
    CHECK(words.day(day) == "2 March");
    CHECK(words.date_time(time) == "2 March 2027, 19:30");
    CHECK(words.date(std::chrono::year{1500} / 2 / 28) == "28 February 1500");
    CHECK_THROWS_AS(words.date(std::chrono::year{2027} / 2 / 30), std::logic_error);

    const auto us = shipped("en", "US");
    CHECK(us.date(day) == "March 2, 2027");
    CHECK(us.short_date(day) == "Mar 2, 2027");
    CHECK(us.day(day) == "March 2");
    CHECK(us.date_time(time) == "March 2, 2027, 7:30 PM");
    CHECK(us.temperature({40}) == "104\u00A0°F (40\u00A0°C)");
    CHECK(us.percent(0.0065) == "0.65%");
}

TEST_CASE("a region with a calendar or digits of its own changes nothing", "[text]") {
    const auto words = shipped("en", "TH");
    CHECK(words.date(std::chrono::year{2027} / 3 / 2) == "2 March 2027");
}

TEST_CASE("lists", "[text]") {
    const auto words = shipped("en", "AU");
    CHECK(words.list({}) == "");
    CHECK(words.list({"a"}) == "a");
    CHECK(words.list({"a", "b"}) == "a and b");
    CHECK(words.list({"a", "b", "c"}) == "a, b and c");
    CHECK(words.list({"{0}", "<b>"}) == "{0} and <b>");
}
