#include "domain/reference/law.hpp"

#include <algorithm>

#include "catch_all.hpp"

#include "domain/reference/regions.hpp"

using namespace gallipot::reference;

namespace {

std::vector<std::string> keys(std::string_view region) {
    std::vector<std::string> out;
    for (const LawNote& note : law_notes(region)) out.emplace_back(note.key);
    return out;
}

bool has(std::string_view region, const char* key) {
    const auto all = keys(region);
    return std::find(all.begin(), all.end(), key) != all.end();
}

}  // namespace

TEST_CASE("sources that disagree are both shown", "[reference]") {
    // Michigan State University Extension against Hawaii Ant Lab, LFA Fact Sheet 6.
    CHECK(keys("US") == std::vector<std::string>{"law.us_own_use", "law.us_conflict", "law.us_sale",
                                                 "law.us_licence"});
    CHECK(keys("PR") == keys("US"));
}

TEST_CASE("what is known is said where it holds", "[reference]") {
    CHECK(has("GB", "law.uk_home_made"));
    CHECK(has("DE", "law.eu_sale"));
    CHECK(has("NO", "law.eu_biocides"));
    CHECK(has("CA", "law.ca_boric_acid"));
    CHECK(has("AU", "law.au_unregistered"));
    CHECK_FALSE(has("GB", "law.eu_sale"));
    CHECK_FALSE(has("CH", "law.eu_sale"));
}

TEST_CASE("every region is told something, if only to ask", "[reference]") {
    for (const Region& region : regions()) {
        INFO(region.code);
        const auto notes = law_notes(region.code);
        CHECK_FALSE(notes.empty());
        for (const LawNote& note : notes) {
            CHECK(note.key.starts_with("law."));
            CHECK(note.source.empty() == (note.key == "law.not_known"));
            // Of when it is, or when it was read: laws change.
            CHECK((note.source.empty() || note.source.find("20") != note.source.npos));
            // ISO 8601, as far as it is known.
            CHECK(note.date.find_first_not_of("0123456789-") == note.date.npos);
        }
    }
    CHECK(keys("ZZ") == std::vector<std::string>{"law.not_known"});
    CHECK(keys("TH") == std::vector<std::string>{"law.not_known"});
}
