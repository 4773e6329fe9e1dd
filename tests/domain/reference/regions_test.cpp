#include "domain/reference/regions.hpp"

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "catch_all.hpp"

using namespace gallipot::reference;

// The list of Debian's package iso-codes, which tests/packages.sh installs.
TEST_CASE("regions are those of ISO 3166-1", "[reference]") {
    std::ifstream file("/usr/share/iso-codes/json/iso_3166-1.json");
    REQUIRE(file);
    const auto published = nlohmann::json::parse(file).at("3166-1");
    CHECK(regions().size() == published.size());
    for (const auto& entry : published) {
        const auto code = entry.at("alpha_2").get<std::string>();
        INFO(code);
        const Region* region = find_region(code);
        REQUIRE(region != nullptr);
        CHECK(region->alpha_3 == entry.at("alpha_3").get<std::string>());
        CHECK_FALSE(region->name.empty());
    }
}

TEST_CASE("a code that ISO 3166-1 does not have is none", "[reference]") {
    for (const char* code : {"", "UK", "ZZ", "de", "USA", "EU", "D"})
        CHECK(find_region(code) == nullptr);
}

// europa.eu, list of EU countries; EFTA: Iceland, Liechtenstein, Norway in the EEA (both memory).
TEST_CASE("the EU has 27 members, seven territories of theirs with codes, the EEA three more",
          "[reference]") {
    const auto count = [](Bloc bloc) {
        return std::count_if(regions().begin(), regions().end(),
                             [&](const Region& region) { return region.bloc == bloc; });
    };
    CHECK(count(Bloc::eu) == 27 + 7);
    CHECK(count(Bloc::eea) == 3);
    CHECK(count(Bloc::uk) == 1);
    CHECK(count(Bloc::us) == 7);
    CHECK(find_region("CH")->bloc == Bloc::none);
    CHECK(find_region("HR")->bloc == Bloc::eu);
}

TEST_CASE("a near region is found for what people write", "[reference]") {
    const auto near = [](std::string_view word) {
        const auto found = near_regions(word);
        return found.empty() ? std::string() : std::string(found.front()->code);
    };
    CHECK(near("UK") == "GB");
    CHECK(near("uk") == "GB");
    CHECK(near("NZL") == "NZ");
    CHECK(near("new zealand") == "NZ");
    CHECK(near("Phillipines") == "PH");
    CHECK(near("ph") == "PH");
    CHECK(near("QQ").empty());
    CHECK(near("").empty());
}
