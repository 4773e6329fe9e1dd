#include "domain/reference/emergency.hpp"

#include <algorithm>
#include <set>

#include "catch_all.hpp"

#include "domain/reference/regions.hpp"

using namespace gallipot::reference;

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
        for (const auto& number : {help.phone, help.emergency}) {
            if (!number) continue;
            CHECK(looks_right(number->value));
            CHECK_FALSE(number->source.empty());
        }
        for (const AreaNumber& number : help.by_area) {
            INFO(number.area);
            CHECK(looks_right(number.phone));
            CHECK_FALSE(number.area.empty());
        }
        if (help.phone) CHECK_FALSE(help.centre.empty());
    }
}

// 112.hu, 112 in the EU: available everywhere in the EU.
TEST_CASE("112 stands behind every member of the EU and nobody else", "[reference]") {
    for (const Region& region : regions()) {
        INFO(region.code);
        const auto number = emergency_number(region.code);
        if (region.bloc == Bloc::eu) {
            REQUIRE(number.has_value());
            CHECK(number->standing == Standing::found);
            if (find_emergency_help(region.code) == nullptr) CHECK(number->value == "112");
        } else if (find_emergency_help(region.code) == nullptr) {
            CHECK_FALSE(number.has_value());
        }
    }
    CHECK(emergency_number("FR")->value == "15");
    CHECK(emergency_number("PL")->value == "112");
}
