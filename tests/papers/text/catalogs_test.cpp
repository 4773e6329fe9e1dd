#include <algorithm>
#include <regex>
#include <set>

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

bool letter(const std::string& text, std::size_t at) {
    if (at >= text.size()) return false;
    const auto byte = static_cast<unsigned char>(text[at]);
    return byte >= 0x80 || std::isalpha(byte) != 0;
}

/// Where `word` stands in `text` as a whole word; a '*' at its end lets it go on.
bool says(const std::string& text, std::string word) {
    const bool open = word.ends_with('*');
    if (open) word.pop_back();
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        const bool starts = at == 0 || !letter(text, at - 1);
        if (starts && (open || !letter(text, at + word.size()))) return true;
    }
    return false;
}

/// Small letters, for the scripts the catalogs are in; a space for each no-break space and each
/// mark of general punctuation (dashes, curly quotes).
std::string lower(const std::string& text) {
    std::string low;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0;
        if (byte < 0x80) {
            low += static_cast<char>(std::tolower(byte));
        } else if (byte == 0xC2 && next == 0xA0) {
            low += ' ';
            ++i;
        } else if (byte == 0xE2 && next == 0x80) {
            low += ' ';
            i += 2;
        } else if (byte == 0xC3 && next >= 0x80 && next <= 0x9E) {  // À to Þ
            low += {text[i], static_cast<char>(next + 0x20)};
            ++i;
        } else if (byte == 0xD0 && next >= 0x90 && next <= 0x9F) {  // А to П
            low += {text[i], static_cast<char>(next + 0x20)};
            ++i;
        } else if (byte == 0xD0 && next >= 0xA0 && next <= 0xAF) {  // Р to Я
            low += {'\xD1', static_cast<char>(next - 0x20)};
            ++i;
        } else if (byte == 0xD0 && next >= 0x80 && next <= 0x8F) {  // Є, І, Ї
            low += {'\xD1', static_cast<char>(next + 0x10)};
            ++i;
        } else {
            low += text[i];
        }
    }
    return low;
}

/// What no paper may say of a bait: 40 CFR 156.10(a)(5)(ix) and (x), 16 CFR 1500.122, Article 25(4)
/// of Regulation (EC) No 1272/2008 and Article 72(3) of Regulation (EU) No 528/2012 forbid such
/// words on labels; the translations are ours.
const std::map<std::string, std::vector<std::string>> forbidden = {
    {"en",
     {"safe", "safely", "harmless", "non-toxic", "nontoxic", "natural", "naturally", "approved",
      "non-poisonous", "nonpoisonous", "eco-friendly"}},
    {"es",
     {"segur*", "inofensiv*", "inocu*", "no tóxic*", "atóxic*", "natural*", "aprobad*",
      "no venenos*", "ecológic*"}},
    {"de",
     {"sicher", "sichere*", "harmlos*", "ungiftig*", "nicht giftig*", "natürlich*", "zugelassen*",
      "genehmigt*", "unbedenklich*", "unschädlich*"}},
    {"fil",
     {"ligtas", "hindi nakakalason", "hindi nakalalason", "walang lason", "di-nakalalason",
      "natural", "likas", "aprobado*", "inaprubahan", "hindi nakakapinsala"}},
    {"fr",
     {"sûr", "sûre", "sûrs", "sûres", "sans danger", "sans risque*", "inoffensi*", "non toxique*",
      "atoxique*", "non nocif*", "naturel*", "approuvé*", "autorisé*", "écologique*"}},
    {"uk",
     {"безпечн*", "нешкідлив*", "нетоксичн*", "неотруйн*", "натуральн*", "природн*", "схвален*",
      "дозволен*"}},
};

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
        const auto dash = name.find('-');
        if (dash == std::string::npos) continue;
        const auto words = shipped(name.substr(0, dash), name.substr(dash + 1));
        for (const std::string& key : words.keys()) {
            INFO(name << " " << key);
            CHECK(words.shape(key).arguments == english.shape(key).arguments);
        }
    }
}

TEST_CASE("no paper calls a bait safe", "[catalogs]") {
    for (const std::string& language : text::languages(tests::templates())) {
        INFO("add the words of " << language << " to the list in this test");
        REQUIRE(forbidden.count(language) == 1);
        for (const std::string region : {"", "US"}) {
            const auto words = shipped(language, region);
            for (const std::string& key : words.keys()) {
                if (official(key) || key.starts_with("format.")) continue;
                std::string said = lower(words(key, tests::sample_arguments(words, key)));
                // That it is no authorised product may be said.
                for (const std::string denied : {"kein zugelassenes produkt", "nicht zugelassen"})
                    if (const auto at = said.find(denied); at != std::string::npos)
                        said.erase(at, denied.size());
                for (const std::string& word : forbidden.at(language)) {
                    INFO(words.tag() << " " << key << ": " << said << " / " << word);
                    CHECK_FALSE(says(said, word));
                }
            }
        }
    }
}

TEST_CASE("the search for forbidden words finds them", "[catalogs]") {
    CHECK(says("it is safe.", "safe"));
    CHECK_FALSE(says("the safest way", "safe"));
    CHECK_FALSE(says("unsafe", "safe"));
    CHECK(says("una mezcla segura", "segur*"));
    CHECK(says(lower("Безпечна суміш"), "безпечн*"));
    CHECK_FALSE(says(lower("Небезпечна суміш"), "безпечн*"));
    CHECK(says(lower("NATÜRLICH"), "natürlich*"));
    CHECK(says(lower("ЇЖА"), "їжа"));
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
