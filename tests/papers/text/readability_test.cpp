#include "readability.hpp"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <memory>
#include <sstream>

#include "catch_all.hpp"

#include "folder.hpp"
#include "samples.hpp"

using namespace gallipot;

namespace {

/// Every sentence of a paper ("sheet", "card"), as a reader gets it. Headings of tables are no
/// sentences.
std::string sentences_of(const std::string& paper, const std::string& language = "en") {
    diag::Diagnostics out;
    const text::Catalog words(tests::templates(), language, "AU", out);
    REQUIRE_FALSE(out.has_errors());
    std::string all;
    for (const std::string& key : words.keys()) {
        // First aid is part of the sheet, but for what stands on labels only.
        const bool aid = paper == "sheet" && key.starts_with("first_aid.") &&
                         key.find(".label") == std::string::npos;
        if (!aid && !key.starts_with(paper + ".")) continue;
        std::string sentence = words(key, tests::sample_arguments(words, key));
        const bool title = key.starts_with("sheet.title.");
        const char last = sentence.back();
        const bool abbreviation = sentence.find(' ') == std::string::npos;  // "No."
        if (!title && (abbreviation || (last != '.' && last != '?'))) continue;
        if (title) sentence += '.';
        all += sentence + '\n';
    }
    return all;
}

/// One by one.
std::vector<std::string> single(const std::string& text) {
    std::vector<std::string> sentences;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::size_t start = 0;
        for (std::size_t end = 0; end != std::string::npos; start = end + 2) {
            end = line.find(". ", start);
            sentences.push_back(line.substr(start, end == std::string::npos ? end : end - start));
            if (end == std::string::npos) break;
        }
    }
    return sentences;
}

std::string output_of(const std::string& command) {
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    REQUIRE(pipe);
    std::string text;
    std::array<char, 4096> part{};
    while (const auto n = fread(part.data(), 1, part.size(), pipe.get()))
        text.append(part.data(), n);
    return text;
}

}  // namespace

TEST_CASE("syllables by the rule", "[readability]") {
    // How these are said: common knowledge, no source.
    for (const auto& [word, count] :
         std::vector<std::pair<std::string, int>>{{"bait", 1},
                                                  {"poison", 2},
                                                  {"container", 3},
                                                  {"people", 2},
                                                  {"gone", 1},
                                                  {"moved", 1},
                                                  {"wanted", 2},
                                                  {"pieces", 2},
                                                  {"times", 1},
                                                  {"the", 1},
                                                  {"cleaner", 2},
                                                  {"water", 2},
                                                  {"swallows", 2},
                                                  {"label", 2},
                                                  {"building", 2},
                                                  {"13", 2},
                                                  {"eyes", 1},
                                                  {"professional", 4}}) {
        INFO(word);
        CHECK(tests::syllables(word) == count);
    }
}

TEST_CASE("the grade of a text counted by hand", "[readability]") {
    const auto found = tests::readability("Do not move it. Keep children and pets away.");
    CHECK(found.sentences == 2);
    CHECK(found.words == 9);
    CHECK(found.syllables == 11);
    CHECK(found.grade() == Approx(0.39 * 4.5 + 11.8 * 11 / 9 - 15.59));
}

TEST_CASE("the household sheet is for school grade 6 or below", "[readability]") {
    const std::string text = sentences_of("sheet");
    const auto found = tests::readability(text);
    INFO(text);
    INFO("sentences " << found.sentences << ", words " << found.words << ", syllables "
                      << found.syllables << ", grade " << found.grade());
    REQUIRE(found.sentences > 30);
    CHECK(found.grade() <= 6.0);
}

TEST_CASE("the mixing card is for school grade 6 or below", "[readability]") {
    const std::string text = sentences_of("card");
    const auto found = tests::readability(text);
    INFO(text);
    INFO("sentences " << found.sentences << ", words " << found.words << ", syllables "
                      << found.syllables << ", grade " << found.grade());
    REQUIRE(found.sentences > 30);
    CHECK(found.grade() <= 6.0);
}

TEST_CASE("the other papers are for school grade 6 or below", "[readability]") {
    for (const std::string paper : {"placement", "visits", "tasting", "takedown"}) {
        const std::string text = sentences_of(paper);
        const auto found = tests::readability(text);
        INFO(text);
        INFO(paper << ": sentences " << found.sentences << ", words " << found.words
                   << ", syllables " << found.syllables << ", grade " << found.grade());
        REQUIRE(found.sentences >= (paper == "visits" ? 4 : 15));
        CHECK(found.grade() <= 6.0);
    }
}

TEST_CASE("syllables by the rules of other languages", "[readability]") {
    // How these are said: common knowledge, no source.
    const std::map<std::string, std::vector<std::pair<std::string, int>>> said{{"es",
                                                                                {{"agua", 2},
                                                                                 {"veneno", 3},
                                                                                 {"oído", 3},
                                                                                 {"creer", 2},
                                                                                 {"limpieza", 3},
                                                                                 {"hay", 1},
                                                                                 {"quien", 1},
                                                                                 {"cebo", 2},
                                                                                 {"niños", 2},
                                                                                 {"recipiente", 4},
                                                                                 {"teléfono", 4},
                                                                                 {"aún", 2},
                                                                                 {"13", 2}}},
                                                                               {"de",
                                                                                {{"Gift", 1},
                                                                                 {"Köder", 2},
                                                                                 {"Bauer", 2},
                                                                                 {"essen", 2},
                                                                                 {"Häuser", 2},
                                                                                 {"Giftnotruf", 3},
                                                                                 {"Wasser", 2},
                                                                                 {"nicht", 1},
                                                                                 {"sieben", 2},
                                                                                 {"Etikett", 3},
                                                                                 {"Behälter", 3},
                                                                                 {"See", 1}}},
                                                                               {"fr",
                                                                                {{"eau", 1},
                                                                                 {"poison", 2},
                                                                                 {"appât", 2},
                                                                                 {"bouche", 1},
                                                                                 {"enfants", 2},
                                                                                 {"créer", 2},
                                                                                 {"maïs", 2},
                                                                                 {"les", 1},
                                                                                 {"quelqu’un", 2},
                                                                                 {"numéro", 3},
                                                                                 {"étiquette", 3},
                                                                                 {"fourmis", 2},
                                                                                 {"avalée", 3}}}};
    for (const tests::Ease& ease : tests::eases())
        for (const auto& [word, count] : said.at(ease.language)) {
            INFO(ease.language << " " << word);
            CHECK(ease.syllables(word) == count);
        }
}

TEST_CASE("the household sheet is easy to read where a formula says how easy", "[readability]") {
    for (const tests::Ease& ease : tests::eases()) {
        const std::string text = sentences_of("sheet", ease.language);
        const auto found = tests::readability(text, ease.syllables);
        INFO(text);
        INFO(ease.language << ": sentences " << found.sentences << ", words a sentence "
                           << found.words_a_sentence() << ", syllables a word "
                           << found.syllables_a_word() << ", score " << ease.score(found));
        if (std::getenv("GALLIPOT_SCORES") != nullptr)
            WARN(ease.language << ": " << ease.score(found));
        REQUIRE(found.sentences > 30);
        CHECK(ease.score(found) >= ease.least);
        // No sentence alone is far from that.
        for (const std::string& sentence : single(text)) {
            INFO(sentence);
            CHECK(tests::readability(sentence, ease.syllables).words <= 25);
        }
    }
}

TEST_CASE("no sentence of the household sheet is long", "[readability]") {
    // Twenty words: plain-language advice, common practice, no source.
    for (const std::string& sentence : single(sentences_of("sheet"))) {
        INFO(sentence);
        CHECK(tests::readability(sentence).words <= 20);
    }
}

TEST_CASE("GNU style agrees on the grade", "[readability]") {
    if (std::system("command -v style > /dev/null") != 0) {
        WARN("the program 'style' (Debian package diction) is not installed: not compared");
        return;
    }
    const tests::TextFolder folder;
    const std::string text = sentences_of("sheet");
    folder.put("sheet.txt", text);
    const std::string report = output_of("style '" + folder.path() + "/text/sheet.txt'");
    INFO(report);
    const auto at = report.find("Kincaid: ");
    REQUIRE(at != std::string::npos);
    const double theirs = std::strtod(report.c_str() + at + 9, nullptr);
    // It cuts sentences and counts syllables by rules of its own.
    CHECK(tests::readability(text).grade() == Approx(theirs).margin(1.0));
    CHECK(theirs <= 6.0);
}
