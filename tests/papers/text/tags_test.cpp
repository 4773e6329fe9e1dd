#include "papers/text/tags.hpp"

#include <set>

#include "catch_all.hpp"

using namespace gallipot;

namespace {

std::string chosen(const std::string& tag, const std::set<std::string>& there) {
    return text::catalog_for(tag, [&](const std::string& name) { return there.contains(name); });
}

}  // namespace

TEST_CASE("a tag in its parts", "[tags]") {
    const auto tag = text::split_tag("zh-hans-CN");
    CHECK(tag.language == "zh");
    CHECK(tag.script == "Hans");
    CHECK(tag.region == "CN");
    CHECK(text::split_tag("fil").region.empty());
    CHECK(text::split_tag("es-419").region.empty());
}

// The scripts are those of Unicode's CLDR, likely subtags.
TEST_CASE("a catalog by language and script", "[tags]") {
    const std::set<std::string> there{"de", "en", "sr", "zh-Hans"};
    CHECK(chosen("de-AT", there) == "de");
    CHECK(chosen("zh-Hans", there) == "zh-Hans");
    CHECK(chosen("zh", there) == "zh-Hans");
    CHECK(chosen("zh-CN", there) == "zh-Hans");
    CHECK(chosen("zh-SG", there) == "zh-Hans");
    CHECK(chosen("zh-Hant", there).empty());
    CHECK(chosen("zh-TW", there).empty());
    CHECK(chosen("en-Latn", there) == "en");
    CHECK(chosen("sr", there) == "sr");
    CHECK(chosen("sr-Latn", there).empty());  // most write it in Cyrillic
    CHECK(chosen("fr", there).empty());
    CHECK(chosen("../en", there).empty());
}

TEST_CASE("names of catalogs", "[tags]") {
    for (const char* name : {"en", "fil", "zh-Hans"}) CHECK(text::is_catalog_name(name));
    for (const char* name : {"en-US", "zh-hans", "english", "e", ""})
        CHECK_FALSE(text::is_catalog_name(name));
}
