#include "papers/layout/mirror.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <functional>

#include "catch_all.hpp"

#include "languages.hpp"
#include "papers/document/runs.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/typeset.hpp"
#include "papers/text/direction.hpp"

using namespace gallipot;
using namespace gallipot::layout;
using tests::installed_faces;

namespace {

Item text_at(double x, double width, const std::string& words, bool goes_on = false) {
    Item made;
    Text text{{x, 20}, 10, Face::regular, black, words, width};
    text.goes_on = goes_on;
    made.shape = text;
    made.bounds = {x, 17, width, 4};
    return made;
}

double left(const Item& item) {
    const auto* text = std::get_if<Text>(&item.shape);
    return text != nullptr ? text->origin.x : item.bounds.x;
}

/// The texts of one line, from left to right as they are drawn; no-break spaces as spaces.
std::vector<std::string> drawn(const text::StyledText& runs, const std::string& language) {
    const double wide = 5000;  // mm
    auto setting = set(runs, wide, {10, 13, Alignment::left}, "test", installed_faces(), language);
    std::ranges::sort(setting.items, {}, left);
    std::vector<std::string> all;
    for (const Item& item : setting.items) {
        std::string text = std::get<Text>(item.shape).text;
        for (auto at = text.find("\u00a0"); at != std::string::npos; at = text.find("\u00a0", at))
            text.replace(at, 2, " ");
        all.push_back(text);
    }
    return all;
}

bool holds(const std::vector<std::string>& texts, const std::string& words) {
    return std::ranges::any_of(
        texts, [&](const auto& text) { return text.find(words) != std::string::npos; });
}

std::vector<std::string> from_right_to_left() {
    std::vector<std::string> all;
    for (const std::string& language : tests::languages())
        if (text::runs_right_to_left(language)) all.push_back(language);
    return all;
}

text::Catalog words_in(const std::string& language) {
    diag::Diagnostics out;
    return {GALLIPOT_SOURCE_DIR "/templates", language, "AU", out};
}

}  // namespace

TEST_CASE("a mirrored page: places change, words and figures stay", "[mirror]") {
    Page page{{100, 100}, {"all"}, {}};
    page.tags = {{Role::paragraph, -1, {}, {}}, {Role::figure, -1, {}, {}}};
    page.items = {item(Line{{10, 5}, {30, 9}, 0.2}),
                  item(Rectangle{{60, 10, 30, 5}}),
                  text_at(10, 8, "one"),
                  text_at(18, 12, "line", true),
                  text_at(50, 10, "other"),
                  item(Rectangle{{0, 30, 4, 4}, true}),
                  item(Line{{4, 30}, {20, 40}, 0})};
    for (const std::size_t i : {2u, 3u, 4u}) page.items[i].tag = 0;
    for (const std::size_t i : {5u, 6u}) page.items[i].tag = 1;
    page.links.push_back({{10, 17, 20, 4}, "tel:131126"});
    const Page before = page;
    mirror(page);
    const auto& line = std::get<Line>(page.items[0].shape);
    CHECK(line.from.x == Approx(90));
    CHECK(line.to.x == Approx(70));
    CHECK(std::get<Rectangle>(page.items[1].shape).box.x == Approx(10));
    // A line of text as a whole, 10 to 30, and another.
    CHECK(left(page.items[2]) == Approx(70));
    CHECK(left(page.items[3]) == Approx(78));
    CHECK(left(page.items[4]) == Approx(40));
    // The figure, 0 to 20: its box still stands before its line.
    CHECK(std::get<Rectangle>(page.items[5].shape).box.x == Approx(80));
    const auto& in_figure = std::get<Line>(page.items[6].shape);
    CHECK(in_figure.from.x == Approx(84));
    CHECK(in_figure.to.x == Approx(100));
    CHECK(page.links[0].box.x == Approx(70));
    mirror(page);
    for (std::size_t i = 0; i < page.items.size(); ++i) {
        CHECK(left(page.items[i]) == Approx(left(before.items[i])).margin(1e-9));
        CHECK(page.items[i].bounds.x == Approx(before.items[i].bounds.x).margin(1e-9));
    }
}

TEST_CASE("a sheet in Arabic begins at the right", "[mirror]") {
    document::Table table;
    table.columns = {{document::regular("\u0631\u0642\u0645"), {}},
                     {document::regular("\u0643\u0645"), {}}};
    table.rows = {{{document::regular("K1"), {}}, {document::regular("7"), {}}}};
    document::Checklist list;
    list.numbered = true;
    list.items = {document::regular("\u0627\u063a\u0633\u0644 \u064a\u062f\u064a\u0643.")};
    const auto lay = [&](const std::string& language) {
        document::Sheet sheet;
        sheet.title = document::regular("\u0628\u0637\u0627\u0642\u0629");
        sheet.blocks = {table, list};
        return lay_out({"Test", "", language, {sheet}}, a4_style(), installed_faces())
            .pages.front();
    };
    const auto box_of = [](const Page& page, const std::string& words) {
        const auto found = std::ranges::find_if(page.items, [&](const Item& item) {
            const auto* text = std::get_if<Text>(&item.shape);
            return text != nullptr && text->text == words;
        });
        REQUIRE(found != page.items.end());
        return found->bounds;
    };
    const PageStyle style = a4_style();
    const Page arabic = lay("ar"), english = lay("en");
    CHECK(box_of(arabic, "\u0628\u0637\u0627\u0642\u0629").right() ==
          Approx(style.page.width - style.margin));
    CHECK(box_of(english, "\u0628\u0637\u0627\u0642\u0629").x == Approx(style.margin));
    CHECK(box_of(arabic, "K1").x > box_of(arabic, "7").x);
    CHECK(box_of(english, "K1").x < box_of(english, "7").x);
    CHECK(box_of(arabic, "1").x > box_of(arabic, "\u0627\u063a\u0633\u0644").x);
}

TEST_CASE("what is put into a text from right to left is drawn as it is written", "[mirror]") {
    const std::vector<std::string> samples{"13 11 26",        "(02) 5550 0142", "1-800-222-1222",
                                           "+61 2 5550 0142", "K1-2",           "0.68 g (5 %)",
                                           "2027-03-02"};
    REQUIRE_FALSE(from_right_to_left().empty());
    for (const std::string& language : from_right_to_left()) {
        const auto words = words_in(language);
        std::size_t tried = 0;
        for (const std::string& key : words.keys()) {
            if (key.starts_with("format.")) continue;
            const auto shape = words.shape(key);
            text::Arguments arguments;
            std::vector<std::string> put_in;
            for (const std::string& name : shape.arguments) {
                if (std::ranges::find(shape.counts, name) != shape.counts.end()) {
                    arguments.emplace_back(name, std::int64_t{3});
                    continue;
                }
                put_in.push_back(samples[++tried % samples.size()]);
                arguments.emplace_back(name, put_in.back());
            }
            const auto runs = words.rich(key, arguments);
            const auto line = drawn(runs, words.tag());
            for (const std::string& sample : put_in) {
                // One that only chooses among words stands nowhere.
                if (text::plain(runs).find(sample) == std::string::npos) continue;
                INFO(language << " " << key << ": " << sample << " in "
                              << fmt::format("{}", fmt::join(line, "|")));
                CHECK(holds(line, sample));
            }
        }
        CHECK(tried > 500);
    }
    // Not without what the program puts round it: the check can fail.
    CHECK_FALSE(
        holds(drawn(document::regular("\u0627\u062a\u0635\u0644 13 11 26"), "ar"), "13 11 26"));
}

TEST_CASE("a date from right to left: the day first, the year last", "[mirror]") {
    using namespace std::chrono;
    for (const std::string& language : from_right_to_left()) {
        const auto words = words_in(language);
        const auto line =
            drawn(words.rich("sheet.made", {{"made", words.date(2027y / March / 2)}}), words.tag());
        const auto at = [&](const std::string& figure) {
            return std::ranges::find(line, figure) - line.begin();
        };
        REQUIRE(at("2") < std::ssize(line));
        CHECK(at("2027") < at("2"));
    }
}

// Without a direction of its own a list or an amount with another behind it ran from left to right.
TEST_CASE("what is made of pieces runs as the language does", "[mirror]") {
    const auto words = words_in("ar");
    const auto order = [&](const text::StyledText& runs, const std::vector<std::string>& pieces) {
        const auto line = drawn(runs, words.tag());
        std::vector<std::ptrdiff_t> at;
        for (const std::string& piece : pieces)
            at.push_back(
                std::ranges::find_if(
                    line, [&](const auto& text) { return text.find(piece) != std::string::npos; }) -
                line.begin());
        return std::ranges::is_sorted(at, std::greater()) && at.front() < std::ssize(line);
    };
    const std::string list = words.list({"K1", "P2-1", "P2-2"});
    CHECK(order(words.rich("join.head", {{"name", list}}), {"K1", "P2-1", "P2-2"}));
    const std::string amount = words(
        "measure.beside",
        {{"written", words("unit.cup", {{"n", std::string("2")}, {"count", std::int64_t{2}}})},
         {"metric", std::string("473 mL")}});
    CHECK(order(words.rich("join.head", {{"name", amount}}), {"2", "473"}));
    // A ratio and a time stay what they are.
    const auto scale = drawn(words.rich("placement.scale", {{"n", std::string("50")}}), words.tag());
    CHECK(holds(scale, "1:50"));
}
