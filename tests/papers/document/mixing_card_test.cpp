#include "papers/document/mixing_card.hpp"

#include <algorithm>

#include "catch_all.hpp"

#include "golden.hpp"
#include "languages.hpp"
#include "papers/document/measure_words.hpp"
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

namespace {

/// All drawings of a card, wherever they stand.
std::vector<document::ContainerDrawing> drawings_of(const std::vector<document::Block>& blocks) {
    std::vector<document::ContainerDrawing> found;
    const auto take = [&](const std::vector<document::Block>& more) {
        for (auto& one : drawings_of(more)) found.push_back(one);
    };
    for (const auto& block : blocks) {
        if (const auto* all = std::get_if<document::ContainerDrawings>(&block))
            found.insert(found.end(), all->drawings.begin(), all->drawings.end());
        if (const auto* pair = std::get_if<document::Beside>(&block)) {
            take(pair->left->blocks);
            take(pair->right->blocks);
        }
    }
    return found;
}

document::Sheet card_of(const tests::Scenario& it, std::size_t mix, const std::string& language) {
    return document::mixing_card(it.job, it.plan, it.plan.mixes[mix], it.who,
                                 tests::words_in(language));
}

}  // namespace

TEST_CASE("a card shows the container as the job measures it, filled as high as it is filled",
          "[card]") {
    auto hall = tests::hall();
    auto& cup = hall.job.containers[0];
    cup.holds.value = units::mL(90);
    cup.fill.value = units::mL(60);
    cup.body.diameter = units::mm(54);
    cup.body.height = units::mm(50);
    cup.openings = job::Openings{};
    cup.openings->side = true;
    cup.openings->hole = units::mm(6);
    cup.openings->area = 4 * units::mm(6) * units::mm(6) * 0.78539816339744831;
    const auto drawings = drawings_of(card_of(hall, 0, "en").blocks);
    REQUIRE_FALSE(drawings.empty());
    const auto& drawn = drawings.front();
    CHECK(drawn.width_mm == Approx(54));
    CHECK(drawn.height_mm == Approx(50));
    CHECK(drawn.filled == Approx(2.0 / 3));  // 60 of 90 mL
    CHECK(drawn.side_holes == 4);
    CHECK(drawn.hole_mm == Approx(6));
    CHECK(drawn.top == document::ContainerDrawing::Top::lid);
    CHECK(text::plain(drawn.fill) == "Fill to here: 60\u00A0mL, about 33\u00A0mm high");
    CHECK(text::plain(drawn.holes).starts_with("4 holes of 6\u00A0mm in the side"));
    // Where nobody measured it no height is told.
    cup.body = {};
    const auto plain = drawings_of(card_of(hall, 0, "en").blocks).front();
    CHECK(text::plain(plain.fill) == "Fill to here: 60\u00A0mL");
}

TEST_CASE("scoops and jugs stand beside what is taken, as often as they are used", "[card]") {
    const auto hall = tests::hall();
    const auto words = tests::words_in("en");
    for (const auto& mix : hall.plan.mixes)
        for (const auto& ingredient : mix.ingredients) {
            const auto drawn = document::tools(ingredient, hall.job, words);
            INFO(mix.id << ": " << ingredient.name);
            REQUIRE(drawn.size() == ingredient.measures.size());
            for (std::size_t i = 0; i < drawn.size(); ++i) {
                CHECK(drawn[i].times == ingredient.measures[i].times);
                CHECK(static_cast<int>(drawn[i].kind) ==
                      static_cast<int>(ingredient.measures[i].kind));
                const bool named = drawn[i].kind == document::Tool::Kind::scoop ||
                                   drawn[i].kind == document::Tool::Kind::jug;
                CHECK(drawn[i].name.empty() != named);
                CHECK(drawn[i].size <= 1);
                CHECK(drawn[i].filled <= 1 + 1e-9);
            }
        }
}

TEST_CASE("of several batches each has a row with a box for each step", "[card]") {
    auto hall = tests::hall();
    hall.plan.mixes[0].batches = 5;
    const auto card = card_of(hall, 0, "en");
    const document::Table* rows = nullptr;
    std::size_t steps = 0;
    const auto look = [&](const document::Block& block) {
        const auto* list = std::get_if<document::Checklist>(&block);
        if (list == nullptr || !list->numbered) return;
        steps = list->items.size();
        CHECK_FALSE(list->boxes);  // they stand in the rows
    };
    for (const auto& block : card.blocks) {
        look(block);
        if (const auto* pair = std::get_if<document::Beside>(&block))
            for (const auto& one : pair->left->blocks) look(one);
        if (const auto* table = std::get_if<document::Table>(&block); table && table->to_write)
            rows = table;
    }
    REQUIRE(steps > 3);
    REQUIRE(rows != nullptr);
    REQUIRE(rows->rows.size() == 5);
    for (const auto& row : rows->rows)
        CHECK(static_cast<std::size_t>(
                  std::ranges::count_if(row, [](const auto& cell) { return cell.box; })) == steps);
}

TEST_CASE("what no jug of the job holds is mixed in a jug or pail that the card asks for",
          "[card]") {
    auto hall = tests::hall();
    const auto text = [&] { return plain_text(card_of(hall, 0, "en")); };
    auto& measures = hall.job.measures;
    std::erase_if(measures, [](const auto& one) { return one.kind == job::Measure::Kind::jug; });
    const std::string without = text();
    CHECK(without.find("Have a mixing jug or pail ready") != std::string::npos);
    CHECK(without.find("into the mixing jug or pail") != std::string::npos);
    job::Measure jug;
    jug.kind = job::Measure::Kind::jug;
    jug.volume = hall.plan.mixes[0].finished;
    jug.marks = units::mL(25);
    measures.push_back(jug);
    const std::string with = text();
    CHECK(with.find("Have a mixing jug or pail ready") == std::string::npos);
    CHECK(with.find("into the mixing jug or pail") == std::string::npos);
    CHECK(with.find("into the mixing jug") != std::string::npos);
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
    hall.who.source = safety::of_the_job;
    CHECK_FALSE(has(rules("en"), "over two years ago"));
    CHECK(has(rules("en"), "as whoever made these papers gave it"));
}
