#include <algorithm>
#include <regex>
#include <set>
#include <sstream>
#include <unicode/uchar.h>
#include <unicode/unistr.h>

#include "catch_all.hpp"

#include "folder.hpp"
#include "samples.hpp"

using namespace gallipot;
using text::Catalog;

namespace {

Catalog shipped(const std::string& language, const std::string& region = "") {
    diag::Diagnostics out;
    Catalog catalog(tests::templates(), language, region, out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    return catalog;
}

/// Official texts are quoted as the standards have them.
bool official(const std::string& key) {
    return key.starts_with("hazard.") || key.starts_with("precaution.") || key.starts_with("law.");
}

/// Whether the character before or at a place in a text is a letter.
bool letter(UChar32 character) {
    return u_isalpha(character) != 0 || u_charType(character) == U_NON_SPACING_MARK;
}

/// Whether `word` stands in `text`, whatever their capitals; as a whole word, but that a '*' at an
/// end of it lets it go on there.
bool says(const std::string& text, const std::string& word) {
    const auto small = [](const std::string& one) {
        auto low = icu::UnicodeString::fromUTF8(one).toLower();
        return low.findAndReplace(u"\u00a0", u" ");
    };
    icu::UnicodeString wanted = small(word);
    const icu::UnicodeString all = small(text);
    const bool begins = !wanted.startsWith(u"*"), ends = !wanted.endsWith(u"*");
    wanted.findAndReplace(u"*", u"");
    for (auto at = all.indexOf(wanted); at >= 0; at = all.indexOf(wanted, at + 1)) {
        const auto behind = at + wanted.length();
        const bool from = at == 0 || !letter(all.char32At(at - 1));
        const bool to = behind == all.length() || !letter(all.char32At(behind));
        if ((from || !begins) && (to || !ends)) return true;
    }
    return false;
}

/// What no paper may say of a bait: 40 CFR 156.10(a)(5)(ix) and (x), 16 CFR 1500.122, Article 25(4)
/// of Regulation (EC) No 1272/2008 and Article 72(3) of Regulation (EU) No 528/2012 forbid such
/// words on labels; each catalog has them in its language, in words of ours.
std::vector<std::string> forbidden(const Catalog& words) {
    std::vector<std::string> all;
    std::istringstream list(words("translation.never"));
    for (std::string word; std::getline(list >> std::ws, word, ',');) all.push_back(word);
    return all;
}

}  // namespace

TEST_CASE("every language says everything that English does", "[catalogs]") {
    const auto english = shipped("en");
    const auto languages = text::languages(tests::templates());
    REQUIRE(std::find(languages.begin(), languages.end(), "en") != languages.end());
    for (const std::string& language : languages) {
        diag::Diagnostics out;
        text::compare(english, shipped(language), out);
        INFO(diag::print(out));
        CHECK_FALSE(out.has_errors());
    }
}

TEST_CASE("every message of every language can be written", "[catalogs]") {
    for (const std::string& language : text::languages(tests::templates())) {
        for (const std::string region : {"", "US"}) {
            const auto words = shipped(language, region);
            for (const std::string& key : words.keys()) {
                INFO(words.tag() << " " << key);
                if (key.starts_with("format.")) continue;
                const std::string said = words(key, tests::sample_arguments(words, key));
                CHECK_FALSE(said.empty());
                // What a broken message leaves behind.
                CHECK(said.find_first_of("{}<>") == std::string::npos);
                CHECK(said.find("  ") == std::string::npos);
                CHECK(said.find("\uE000") == std::string::npos);
                CHECK(said.front() != ' ');
                CHECK(said.back() != ' ');
            }
        }
    }
}

TEST_CASE("a region's texts use no argument that the language's own lack", "[catalogs]") {
    const auto english = shipped("en");
    for (const auto& entry : std::filesystem::directory_iterator(tests::templates() + "/text")) {
        const std::string name = entry.path().stem().string();
        const auto dash = name.rfind('-');
        if (dash == std::string::npos || name.size() - dash > 3) continue;  // zh-Hans
        const auto words = shipped(name.substr(0, dash), name.substr(dash + 1));
        for (const std::string& key : words.keys()) {
            INFO(name << " " << key);
            CHECK(words.shape(key).arguments == english.shape(key).arguments);
        }
    }
}

TEST_CASE("no paper calls a bait safe", "[catalogs]") {
    for (const std::string& language : text::languages(tests::templates())) {
        for (const std::string region : {"", "US"}) {
            const auto words = shipped(language, region);
            const auto never = forbidden(words);
            INFO(language << ": safe, harmless, not toxic, natural, approved at the least");
            CHECK(never.size() >= 5);
            for (const std::string& key : words.keys()) {
                if (official(key) || key.starts_with("format.") || key == "translation.never")
                    continue;
                std::string said = words(key, tests::sample_arguments(words, key));
                // That it is no authorised product may be said.
                for (const std::string denied : {"kein zugelassenes Produkt", "nicht zugelassen"})
                    if (const auto at = said.find(denied); at != std::string::npos)
                        said.erase(at, denied.size());
                for (const std::string& word : never) {
                    INFO(words.tag() << " " << key << ": " << said << " / " << word);
                    CHECK_FALSE(says(said, word));
                }
            }
        }
    }
}

TEST_CASE("the search for forbidden words finds them", "[catalogs]") {
    CHECK(says("It is safe.", "safe"));
    CHECK_FALSE(says("the safest way", "safe"));
    CHECK_FALSE(says("unsafe", "safe"));
    CHECK(says("una mezcla segura", "segur*"));
    CHECK(says("Безпечна суміш", "безпечн*"));
    CHECK_FALSE(says("Небезпечна суміш", "безпечн*"));
    CHECK(says("NATÜRLICH", "natürlich*"));
    CHECK(says("ЇЖА", "їжа"));
    CHECK(says("không\u00a0độc", "không độc"));
    CHECK(says("这是安全的", "*安全*"));
    CHECK_FALSE(says("这是安全的", "安全"));
}

TEST_CASE("a gap or a slip in a translation is reported", "[catalogs]") {
    const std::string formats =
        "format: { date: d MMMM y, short_date: d MMM y, day: d MMMM, date_time: 'd MMMM y' }\n";
    const tests::TextFolder folder;
    folder.put("en.yaml", formats + "a: 'by {x}'\nb: here\nc: '{n, plural, one {#} other {#}}'\n");
    folder.put("uk.yaml",
               formats + "a: 'від {y}'\nc: '{n, plural, one {#} other {#}}'\nd: зайве\n");
    diag::Diagnostics out;
    const Catalog english(folder.path(), "en", "", out);
    const Catalog ukrainian(folder.path(), "uk", "", out);
    REQUIRE_FALSE(out.has_errors());
    text::compare(english, ukrainian, out);
    std::vector<std::string> found;
    for (const auto& diagnostic : out.in_order()) {
        found.push_back(diagnostic.code + " " + std::to_string(diagnostic.place.line));
    }
    CHECK(found == std::vector<std::string>{"catalog-arguments 2", "catalog-plural 3",
                                            "catalog-key 4", "catalog-missing 0"});
}
