#include "domain/reference/emergency.hpp"

#include <algorithm>
#include <set>

#include "catch_all.hpp"

#include "domain/reference/regions.hpp"

using namespace gallipot::reference;
using namespace std::chrono_literals;

TEST_CASE("the table of numbers is in order and each region is one", "[reference]") {
    std::string_view before;
    for (const EmergencyHelp& help : emergency_help()) {
        INFO(help.region);
        CHECK(before < help.region);
        CHECK(find_region(help.region) != nullptr);
        CHECK(find_emergency_help(help.region) == &help);
        before = help.region;
    }
    CHECK(find_emergency_help("TH") == nullptr);
    CHECK(find_emergency_help("") == nullptr);
}

TEST_CASE("every number has a source and looks like one", "[reference]") {
    const auto looks_right = [](std::string_view phone) {
        return phone.size() >= 2 && phone.find_first_not_of("0123456789 -()+") == phone.npos;
    };
    for (const EmergencyHelp& help : emergency_help()) {
        INFO(help.region);
        const auto check = [&](const Number& number) {
            CHECK(looks_right(number.value));
            CHECK_FALSE(number.source.empty());
            if (number.shown_on) CHECK(number.shown_on->ok());
            // None is from after the day on which all were read.
            if (number.shown_on) CHECK(*number.shown_on <= 2026y / std::chrono::November / 30);
        };
        for (const auto& number : {help.phone, help.emergency, help.animal_phone})
            if (number) check(*number);
        for (const AreaNumber& number : help.by_area) {
            INFO(number.area);
            check(number.phone);
            CHECK_FALSE(number.area.empty());
        }
        if (help.phone) CHECK_FALSE(help.centre.empty());
        CHECK(help.animal_phone.has_value() == !help.animal_centre.empty());
    }
}

// 112.hu, 112 in the EU: available everywhere in the EU.
TEST_CASE("112 stands behind every member of the EU and nobody else", "[reference]") {
    for (const Region& region : regions()) {
        INFO(region.code);
        const auto number = emergency_number(region.code);
        if (region.bloc == Bloc::eu) {
            REQUIRE(number.has_value());
            CHECK(number->provenance == Provenance::found);
            if (find_emergency_help(region.code) == nullptr) CHECK(number->value == "112");
        } else if (find_emergency_help(region.code) == nullptr) {
            CHECK_FALSE(number.has_value());
        }
    }
    CHECK(emergency_number("FR")->value == "15");
    CHECK(emergency_number("PL")->value == "112");
}

// uniklinikum-saarland.de: the centre at Homburg closed on 31 March 2021; unimedizin-mainz.de: from
// the next day on the one at Mainz serves the Saarland.
TEST_CASE("every German Land has one centre, and none is at Homburg", "[reference]") {
    const EmergencyHelp* germany = find_emergency_help("DE");
    REQUIRE(germany != nullptr);
    std::string lands;
    for (const AreaNumber& centre : germany->by_area) {
        CHECK(centre.area.find("Homburg") == std::string_view::npos);
        CHECK(centre.phone.value.find("06841") == std::string_view::npos);
        const auto open = centre.area.find('(');
        lands += std::string(centre.area.substr(open + 1, centre.area.size() - open - 2)) + ", ";
        if (centre.area.find("SL") != std::string_view::npos)
            CHECK(centre.phone.value == "06131 19240");
    }
    for (const char* land : {"BB", "BE", "BW", "BY", "HB", "HE", "HH", "MV", "NI", "NW", "RP", "SH",
                             "SL", "SN", "ST", "TH"}) {
        INFO(land);
        const auto first = lands.find(std::string(land) + ", ");
        REQUIRE(first != std::string::npos);
        CHECK(lands.find(std::string(land) + ", ", first + 1) == std::string::npos);
    }
}

// ohsu.edu for Guam, poisonhelp.hrsa.gov/es for Puerto Rico and American Samoa, the Department of
// Health of the Virgin Islands; nothing was found for the Northern Marianas.
TEST_CASE("territories under US rules have the US number where a source says so", "[reference]") {
    for (const char* region : {"PR", "GU", "AS", "VI"}) {
        INFO(region);
        REQUIRE(find_emergency_help(region) != nullptr);
        CHECK(find_emergency_help(region)->phone->value == "1-800-222-1222");
    }
    CHECK(find_emergency_help("MP") == nullptr);
    CHECK_FALSE(emergency_number("VI").has_value());  // not found: the job must give it
}

TEST_CASE("a number is old two years after it was shown, or when nobody knows", "[reference]") {
    Number number{"111", Provenance::found, "a page", 2024y / std::chrono::March / 2};
    CHECK_FALSE(is_old(number, 2025y / std::chrono::March / 2));
    CHECK_FALSE(is_old(number, 2026y / std::chrono::March / 2));
    CHECK(is_old(number, 2026y / std::chrono::March / 3));
    number.shown_on.reset();
    CHECK(is_old(number, 2025y / std::chrono::March / 2));
}
