#include "base/units/parse.hpp"

#include <clocale>
#include <string>

#include "catch_all.hpp"

using namespace gallipot::units;

namespace {

/// "code: message (hint)", or the value.
template <class T>
std::string said(const Parsed<T>& parsed) {
    const auto* problem = std::get_if<Problem>(&parsed);
    if (problem == nullptr) return "fine";
    return problem->code + ": " + problem->message.english() + " (" + problem->hint.english() + ")";
}

Parsed<Volume> volume(const std::string& text) {
    return parse_volume(text, KitchenSystem::metric);
}

}  // namespace

TEST_CASE("numbers as people write them") {
    struct Case {
        std::string text;
        double value;
    };
    const auto c = GENERATE(values<Case>({
        {"0", 0},
        {"1", 1},
        {"1.5", 1.5},
        {"0.05", 0.05},
        {"10", 10},
        {"1000000000", 1e9},
        {"0.333333333333333", 0.333333333333333},
        {"123456789.012345", 123456789.012345},
        {"1.50", 1.5},
        {"1/2", 0.5},
        {"3/2", 1.5},
        {"1 1/2", 1.5},
        {"2  3/4", 2.75},
        {"\u00BD", 0.5},
        {"1\u00BD", 1.5},
        {"1 \u00BC", 1.25},
        {"\u2153", 1.0 / 3},
        {"1\u20442", 0.5},  // U+2044 fraction slash
        {"1/16", 0.0625},
    }));
    INFO(c.text);
    const auto parsed = parse_number(c.text);
    REQUIRE(said(parsed) == "fine");
    CHECK(std::get<double>(parsed) == c.value);
}

TEST_CASE("what is no number, and what to write instead") {
    struct Case {
        std::string text, expected;
    };
    const auto c = GENERATE(values<Case>({
        {"", "empty-value: expected a number, got nothing (write a number in digits)"},
        {"010", "bad-number: '010' begins with a needless zero (write 10)"},
        {"00", "bad-number: '00' begins with a needless zero (write 0)"},
        {"007.5", "bad-number: '007.5' begins with a needless zero (write 7.5)"},
        {"0x10", "bad-number: '0x10' is not a decimal number (write the number in decimal digits)"},
        {"0o17", "unit-not-wanted: '0o17' is more than a number (write 0)"},
        {".inf", "bad-number: '.inf' does not begin with a number (write a number in digits)"},
        {"inf", "bad-number: 'inf' does not begin with a number (write a number in digits)"},
        {"nan", "bad-number: 'nan' does not begin with a number (write a number in digits)"},
        {".NaN", "bad-number: '.NaN' does not begin with a number (write a number in digits)"},
        {"1e3", "bad-number: '1e3' has an exponent (write the number out in digits)"},
        {"1E-3", "bad-number: '1E-3' has an exponent (write the number out in digits)"},
        {".5",
         "bad-number: '.5' has no digit before its point (write the digit before its point, 0 "
         "where it is none)"},
        {"5.",
         "bad-number: '5.' has no digit after its point (write the digits behind its point, or "
         "leave the point out)"},
        {"1.2.3",
         "bad-number: '1.2.3' is not a number (write digits, with one point before decimals)"},
        {"1,5", "decimal-comma: '1,5' has a comma in its number (write 1.5, with a point)"},
        {"1,000",
         "decimal-comma: '1,000' has a comma in its number (write 1000 if the comma parts "
         "thousands, or 1.000 if it is a decimal comma)"},
        {"1,000,000",
         "decimal-comma: '1,000,000' has a comma in its number (write 1000000, without commas)"},
        {"1,000.5",
         "decimal-comma: '1,000.5' has a comma in its number (write 1000.5, without commas)"},
        {"1 000",
         "bad-number: '1 000' has its digits in groups (write 1000, if one number is meant)"},
        {"1'000'000",
         "bad-number: '1'000'000' has its digits in groups (write 1000000, if one number is "
         "meant)"},
        {"1_000",
         "bad-number: '1_000' has its digits in groups (write 1000, if one number is meant)"},
        {"1.5 1/2", "bad-number: '1.5 1/2' looks like two numbers (write one number)"},
        {"+1", "bad-number: '+1' has a plus sign (write 1)"},
        {"-1", "bad-number: '-1' is below zero (write 1 if the minus sign slipped in)"},
        {"\u22121", "bad-number: '\u22121' is below zero (write 1 if the minus sign slipped in)"},
        {"1-2",
         "bad-number: '1-2' looks like two numbers (write one number; a range has no place here)"},
        {"1\u20132",
         "bad-number: '1\u20132' looks like two numbers (write one number; a range has no place "
         "here)"},
        {"1/0", "bad-number: '1/0' has no usable fraction (write a fraction like 1/4)"},
        {"0/4", "bad-number: '0/4' has no usable fraction (write a fraction like 1/4)"},
        {"1/00002", "bad-number: '1/00002' has no usable fraction (write a fraction like 1/4)"},
        {"1 3/2", "bad-number: '1 3/2' has no usable fraction (write a number like 1 1/2)"},
        {"1/2/3",
         "bad-number: '1/2/3' is not a number (write digits, with one point before decimals)"},
        {"1.5/2",
         "bad-number: '1.5/2' is not a number (write digits, with one point before decimals)"},
        {"1234567890123456",
         "bad-number: '1234567890123456' has too many digits (write at most 15 digits)"},
        {"0.1234567890123456",
         "bad-number: '0.1234567890123456' has too many digits (write at most 15 digits)"},
        {"1000000001",
         "bad-number: '1000000001' is not a number of a size that makes sense here (check the "
         "number and its unit)"},
        {"0.0000000001",
         "bad-number: '0.0000000001' is not a number of a size that makes sense here (check the "
         "number and its unit)"},
        {"3.20 EUR", "unit-not-wanted: '3.20 EUR' is more than a number (write 3.20)"},
        {"once", "bad-number: 'once' does not begin with a number (write a number in digits)"},
        {"~5", "bad-number: '~5' does not begin with a number (write a number in digits)"},
        {"\u0663", "bad-number: '\u0663' does not begin with a number (write a number in digits)"},
    }));
    CHECK(said(parse_number(c.text)) == c.expected);
}

TEST_CASE("a long run of digits takes no long time and overflows nothing") {
    CHECK(said(parse_number(std::string(100'000, '9'))).starts_with("bad-number"));
    CHECK(said(parse_number("0." + std::string(100'000, '0') + "1")).starts_with("bad-number"));
    CHECK(said(parse_number("1/" + std::string(100'000, '9'))).starts_with("bad-number"));
    CHECK(said(parse_whole(std::string(100'000, '9'))).starts_with("bad-number"));
}

TEST_CASE("whole numbers") {
    CHECK(std::get<int>(parse_whole("2")) == 2);
    CHECK(std::get<int>(parse_whole("1000")) == 1000);
    CHECK(std::get<int>(parse_whole("999999999")) == 999999999);
    CHECK(said(parse_whole("1.0")) ==
          "bad-number: '1.0' is not a whole number (write a whole number in digits)");
    CHECK(said(parse_whole("1/2")) == "bad-number: '1/2' is not a whole number (write 0 or 1)");
    CHECK(said(parse_whole("02")) == "bad-number: '02' begins with a needless zero (write 2)");
    CHECK(said(parse_whole("-2")) ==
          "bad-number: '-2' is below zero (write 2 if the minus sign slipped in)");
    CHECK(std::get<int>(parse_whole("two")) == 2);
    CHECK(std::get<int>(parse_whole("Twelve")) == 12);
    for (const char* text : {"half", "two and a half", "two cups", "twos", "a", "thirteen"}) {
        INFO(text);
        CHECK(parse_whole(text).index() == 1);
    }
}

TEST_CASE("numbers in words mean what they say") {
    struct Case {
        std::string text;
        double value;
    };
    const auto c = GENERATE(values<Case>({{"half", 0.5},
                                          {"a half", 0.5},
                                          {"one-half", 0.5},
                                          {"Half", 0.5},
                                          {"a quarter", 0.25},
                                          {"two thirds", 2.0 / 3},
                                          {"three quarters", 0.75},
                                          {"one", 1},
                                          {"twelve", 12},
                                          {"two and a half", 2.5},
                                          {"one and 1/2", 1.5},
                                          {"1 and 1/2", 1.5},
                                          {"1 and a half", 1.5},
                                          {"1 and \u00BD", 1.5},
                                          {"10 and three quarters", 10.75}}));
    INFO(c.text);
    const auto read = parse_number(c.text);
    REQUIRE(read.index() == 0);
    CHECK(std::get<double>(read) == Approx(c.value));
    const auto cups = parse_volume(c.text + " cups", KitchenSystem::metric);
    REQUIRE(cups.index() == 0);
    CHECK(in_mL(std::get<Volume>(cups)) == Approx(250 * c.value));
}

TEST_CASE("what stands between a number and its unit in words") {
    for (const char* text : {"half a cup", "half of a cup", "1/2 a cup", "1/2 of a cup",
                             "\u00BD a cup", "a half cup", "Half a  cup", "one half cup"}) {
        INFO(text);
        const auto read = parse_volume(text, KitchenSystem::metric);
        REQUIRE(read.index() == 0);
        CHECK(in_mL(std::get<Volume>(read)) == Approx(125));
    }
    CHECK(in_days(std::get<Duration>(parse_duration("a week"))) == Approx(7));
    CHECK(in_days(std::get<Duration>(parse_duration("half an hour"))) == Approx(1.0 / 48));
    // Two numbers, half a word, nothing behind "a": none of them is read as something.
    for (const char* text : {"1 half cup", "2 half cups", "half 2 cups", "halfcup", "half a", "a",
                             "-half cup", "2 a cup", "a a cup", "one 1/2 cup", "1 and 3/2 cups",
                             "1 and 2 cups", "one and one cup", "half half cup"}) {
        INFO(text);
        CHECK(parse_volume(text, KitchenSystem::metric).index() == 1);
    }
}

TEST_CASE("months and years are no lengths of time until it is said how long they are") {
    CHECK(said(parse_duration("2 months")) ==
          "ambiguous-unit: a month has 28 to 31 days (write 60 d if months of 30 days are meant)");
    CHECK(said(parse_duration("half a year")) ==
          "ambiguous-unit: a year has 365 or 366 days (write 182.5 d if years of 365 days are "
          "meant)");
    CHECK(in_days(std::get<Duration>(parse_duration("3 weeks"))) == Approx(21));
}

TEST_CASE("quantities of each dimension") {
    CHECK(std::get<Volume>(volume("60 mL")) == mL(60));
    CHECK(std::get<Volume>(volume("60mL")) == mL(60));
    CHECK(std::get<Volume>(volume("  60  mL ")) == mL(60));
    CHECK(in_mL(std::get<Volume>(volume("1/2 tsp"))) == Approx(2.5));
    CHECK(in_mL(std::get<Volume>(volume("1 1/2 tsp"))) == Approx(7.5));
    CHECK(in_mL(std::get<Volume>(volume("\u00BD tsp"))) == Approx(2.5));
    CHECK(std::get<Celsius>(parse_temperature("8 C")).degrees == 8);
    CHECK(std::get<Celsius>(parse_temperature("-5 \u00B0C")).degrees == -5);
    CHECK(std::get<Celsius>(parse_temperature("\u22125 C")).degrees == -5);
    CHECK(std::get<Celsius>(parse_temperature("50 F")).degrees == 10);
    CHECK(std::get<Area>(parse_area("6 m2")) == m2(6));
    CHECK(std::get<Area>(parse_area("6 m\u00B2")) == m2(6));
    CHECK(std::get<Duration>(parse_duration("30 d")) == days(30));
    CHECK(std::get<Duration>(parse_duration("2 weeks")) == days(14));
    CHECK(std::get<Share>(parse_share("10 %")).fraction == 0.1);
    CHECK(std::get<Share>(parse_share("7%")).fraction == 0.07);
    CHECK(std::get<Length>(parse_length("48 mm")) == mm(48));
    CHECK(in_g_per_mL(std::get<Density>(parse_density("1.40 g/mL"))) == Approx(1.4));
    CHECK(in_g_per_mL(std::get<Density>(parse_density("1400 kg/m3"))) == Approx(1.4));
}

TEST_CASE("what is no quantity of the kind wanted, and what to write instead") {
    CHECK(said(volume("45")) ==
          "missing-unit: '45' has no unit; a volume was expected (write 45 mL if millilitres are "
          "meant)");
    CHECK(said(parse_share("10")) ==
          "missing-unit: '10' has no unit; a share in percent was expected (write 10 % if percent "
          "are meant)");
    CHECK(said(parse_duration("1 1/2")) ==
          "missing-unit: '1 1/2' has no unit; a length of time was expected (write 1 1/2 d if days "
          "are meant)");
    CHECK(said(volume("60 g")) ==
          "wrong-unit: '60 g' is a mass; a volume was expected (write a volume in mL, L, tsp, "
          "tbsp, cup, fl oz or US pt)");
    CHECK(said(volume("8 oz")) ==
          "wrong-unit: '8 oz' is a mass; a volume was expected (write 8 fl oz if fluid ounces are "
          "meant)");
    CHECK(said(parse_duration("30 m")) ==
          "wrong-unit: '30 m' is a length; a length of time was expected (write 30 min if minutes "
          "are meant)");
    CHECK(said(parse_area("6 m")) ==
          "wrong-unit: '6 m' is a length; an area was expected (write 6 m2 if square measure is "
          "meant)");
    CHECK(said(volume("2 pt")) ==
          "ambiguous-unit: 'pt' is not the same size everywhere (write 2 US pt or 2 imperial pt)");
    CHECK(said(volume("1,5 mL")) ==
          "decimal-comma: '1,5 mL' has a comma in its number (write 1.5 mL, with a point)");
    CHECK(
        said(volume("1 000 mL")) ==
        "bad-number: '1 000 mL' has its digits in groups (write 1000 mL, if one number is meant)");
    CHECK(said(volume("-5 mL")) ==
          "bad-number: '-5 mL' is below zero (write 5 mL if the minus sign slipped in)");
    CHECK(said(volume("")) ==
          "empty-value: expected a volume, got nothing (write a volume in mL, L, tsp, tbsp, cup, "
          "fl oz or US pt)");
    CHECK(said(volume("mL")) ==
          "bad-number: 'mL' does not begin with a number (write a number in digits)");
    CHECK(said(volume("60 ML")) ==
          "unknown-unit: unknown unit 'ML'; a volume was expected (use mL, L, tsp, tbsp, cup, fl "
          "oz or US pt)");
    const auto unknown = volume("60 mLs");
    CHECK(std::get<Problem>(unknown).number == "60");
    CHECK(std::get<Problem>(unknown).unit == "mLs");
    // A drop is no measure, and a month no fixed time.
    CHECK(said(volume("10 drops")).starts_with("unknown-unit"));
    CHECK(said(parse_duration("1 moon")).starts_with("unknown-unit"));
}

TEST_CASE("no locale takes part") {
    // Where the locale is not installed this changes nothing, and neither does it where it is.
    const std::string before = std::setlocale(LC_ALL, nullptr);
    std::setlocale(LC_ALL, "de_DE.UTF-8");
    CHECK(std::get<Volume>(volume("1.5 mL")) == mL(1.5));
    CHECK(said(volume("1,5 mL")).starts_with("decimal-comma"));
    std::setlocale(LC_ALL, before.c_str());
}
