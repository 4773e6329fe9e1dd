#include "domain/job/language.hpp"

#include "catch_all.hpp"

#include "domain/job/local_text.hpp"

using namespace gallipot::job;

TEST_CASE("language tags", "[language]") {
    for (const char* tag :
         {"en", "fil", "pt-BR", "zh-Hant", "es-419", "de-DE-1996", "sl-rozaj-biske"})
        CHECK(is_language_tag(tag));
    for (const char* tag :
         {"", "e", "engl", "EN", "en-", "-en", "en--US", "en-US-", "en_US", "en-123456789"})
        CHECK_FALSE(is_language_tag(tag));
    CHECK(primary_language("de-AT") == "de");
    CHECK(primary_language("fil") == "fil");
}

TEST_CASE("languages are compared by subtags, not by how they begin", "[language]") {
    CHECK(same_language("en", "en-US"));
    CHECK(same_language("EN-us", "en-GB"));
    CHECK(same_language("zh", "zh-Hans"));
    CHECK_FALSE(same_language("fi", "fil"));
    CHECK_FALSE(same_language("fil", "fi"));
    CHECK_FALSE(same_language("zh-Hans", "zh-Hant"));
    CHECK(same_language("zh-Hant-TW", "zh-Hant-HK"));
}

// The example of RFC 4647, section 3.4: zh-Hant-CN-x-private1-private2.
TEST_CASE("the next tag to look for is that of RFC 4647", "[language]") {
    CHECK(wider_tag("zh-Hant-CN-x-private1-private2") == "zh-Hant-CN-x-private1");
    CHECK(wider_tag("zh-Hant-CN-x-private1") == "zh-Hant-CN");
    CHECK(wider_tag("zh-Hant-CN") == "zh-Hant");
    CHECK(wider_tag("zh-Hant") == "zh");
    CHECK(wider_tag("zh").empty());
}

TEST_CASE("a text in several languages", "[language]") {
    const LocalText text({{"en", "Kitchen"}, {"de", "Kueche"}, {"pt-BR", "Cozinha"}}, "en");
    CHECK(text.main() == "Kitchen");
    CHECK(text.in("de") == "Kueche");
    CHECK(text.in("DE-at") == "Kueche");
    CHECK(text.in("en-US") == "Kitchen");
    CHECK(text.in("pt") == "Cozinha");  // another region's rather than another language
    CHECK(text.in("pt-PT") == "Cozinha");
    CHECK(text.in("es") == "Kitchen");  // none: as in the main language
    CHECK(text.in("") == "Kitchen");
    CHECK(text.has("de-CH"));
    CHECK_FALSE(text.has("es"));
    CHECK_FALSE(text.one_for_all());
    CHECK(text.says("Kueche"));
    CHECK_FALSE(text.says("kueche"));

    // "fi" is no beginning of "fil".
    CHECK(LocalText({{"fi", "Keittio"}}, "fil").in("fil") == "Keittio");
    CHECK_FALSE(LocalText({{"fi", "Keittio"}}, "fil").has("fil"));
    // The region's own goes before the language's.
    const LocalText both({{"de", "Kasten"}, {"de-AT", "Kastl"}}, "de");
    CHECK(both.in("de-AT") == "Kastl");
    CHECK(both.in("de-DE") == "Kasten");
    CHECK(both.main() == "Kasten");

    const LocalText one("Yard");
    CHECK(one.in("es") == "Yard");
    CHECK(one.one_for_all());
    CHECK_FALSE(one.has("en"));
}
