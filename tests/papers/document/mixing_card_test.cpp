#include "papers/document/mixing_card.hpp"

#include <algorithm>

#include "catch_all.hpp"

#include "golden.hpp"
#include "languages.hpp"
#include "papers/document/plain_text.hpp"
#include "scenario.hpp"

using namespace gallipot;

TEST_CASE("the mixing cards of the hall", "[card]") {
    const auto hall = tests::hall();
    for (const std::string& language : tests::languages()) {
        const auto words = tests::words_in(language);
        for (const auto& mix : hall.plan.mixes) {
            tests::check_golden(
                "document/card-" + mix.id + "-" + language + ".txt",
                plain_text(document::mixing_card(hall.job, hall.plan, mix, hall.who, words)));
        }
    }
}

TEST_CASE("what is done to the wood before stands on the card of its spray", "[card]") {
    const auto hall = tests::hall();
    const auto words = tests::words_in("en");
    const auto card = [&](std::size_t mix) {
        std::string text = plain_text(
            document::mixing_card(hall.job, hall.plan, hall.plan.mixes[mix], hall.who, words));
        std::replace(text.begin(), text.end(), '\n', ' ');
        return text;
    };
    for (const char* key : {"advice.wood.leak", "advice.wood.mark"}) {
        INFO(key);
        const auto at = card(2).find(words(key));
        REQUIRE(at != std::string::npos);
        CHECK(at < card(2).find(words("advice.wood.probe")));
        CHECK(card(0).find(words(key)) == std::string::npos);
    }
}

TEST_CASE("a card where spoons, degrees and law are American", "[card]") {
    auto hall = tests::hall();
    hall.job.help.region.value = "US";
    for (auto& mix : hall.plan.mixes) {
        mix.hazard.signal_word = safety::SignalWord::caution;
        mix.hazard.basis = "basis.us_household";
        mix.hazard.notes = {};
    }
    const auto words = tests::words_in("en", "US");
    tests::check_golden("document/card-syrup-en-US.txt",
                        plain_text(document::mixing_card(hall.job, hall.plan, hall.plan.mixes[0],
                                                         hall.who, words)));
}

TEST_CASE("the page on the rules comes after the cards", "[card]") {
    auto hall = tests::hall();
    for (const std::string region : {"AU", "US", "DE"}) {
        hall.job.help.region.value = region;
        const auto sheets =
            document::mixing_cards(hall.job, hall.plan, hall.who, tests::words_in("en", region));
        REQUIRE(sheets.size() == 4);
        tests::check_golden("document/rules-" + region + ".txt", plain_text(sheets.back()));
    }
}

TEST_CASE("a mix of unknown hazard sends to the packet", "[card]") {
    auto hall = tests::hall();
    auto& mix = hall.plan.mixes[0];
    mix.hazard.signal_word = safety::SignalWord::none;
    mix.hazard.unknown = {"malt"};
    const auto text = plain_text(
        document::mixing_card(hall.job, hall.plan, mix, hall.who, tests::words_in("en")));
    CHECK(text.find("Read the packet of malt first") != std::string::npos);
    CHECK(text.find("Put on gloves") != std::string::npos);
    CHECK(text.find("DANGER") == std::string::npos);
}

TEST_CASE("a mix with no hazard asks for no gloves", "[card]") {
    auto hall = tests::hall();
    auto& mix = hall.plan.mixes[0];
    mix.hazard.signal_word = safety::SignalWord::none;
    const auto text = plain_text(
        document::mixing_card(hall.job, hall.plan, mix, hall.who, tests::words_in("en")));
    CHECK(text.find("gloves") == std::string::npos);
    CHECK(text.find("!! Not food.") != std::string::npos);
}

TEST_CASE("a supply named as a known substance is in the language of the paper", "[card]") {
    auto hall = tests::hall();
    hall.job.languages = {{"de", {}}};
    const auto card = [&](const std::string& language) {
        return plain_text(document::mixing_card(hall.job, hall.plan, hall.plan.mixes[0], hall.who,
                                                tests::words_in(language)));
    };
    const auto has_word = [](const std::string& text, const std::string& word) {
        return text.find(word) != std::string::npos;
    };
    // The packet holds another borate than the name says.
    for (auto& ingredient : hall.plan.mixes[0].ingredients)
        if (ingredient.name == "borax") ingredient.substance = "borax pentahydrate";
    CHECK_FALSE(has_word(card("de"), "borax"));
    CHECK(has_word(card("de"), "Borax"));
}

TEST_CASE("the page on the rules says where each number comes from", "[card]") {
    using namespace std::chrono_literals;
    auto hall = tests::hall();
    const auto rules = [&](const std::string& language) {
        return plain_text(
            document::mixing_cards(hall.job, hall.plan, hall.who, tests::words_in(language, "AU"))
                .back());
    };
    const auto has = [](const std::string& text, const std::string& part) {
        return text.find(part) != std::string::npos;
    };
    CHECK(has(rules("en"), "shown by poisonsinfo.health.qld.gov.au, we do not know when"));
    hall.who.shown_on = 2026y / std::chrono::August / 1;
    CHECK(has(rules("en"), "shown on 1 August 2026 by poisonsinfo.health.qld.gov.au."));
    CHECK_FALSE(has(rules("en"), "over two years ago"));
    hall.who.shown_on = 2023y / std::chrono::August / 1;
    CHECK(has(rules("en"), "over two years ago"));
    CHECK(has(rules("de"), "Das ist über zwei Jahre her"));
    hall.who.vouched = true;
    CHECK_FALSE(has(rules("en"), "over two years ago"));
    CHECK(has(rules("en"), "as whoever made these papers gave it"));
}
