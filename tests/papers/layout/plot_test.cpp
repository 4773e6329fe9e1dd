#include <algorithm>

#include "catch_all.hpp"

#include "papers/layout/check.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/overflow.hpp"

using namespace gallipot;
using namespace gallipot::document;
using layout::Page;
using layout::Paper;

namespace {

text::StyledText words(const std::string& text) {
    return {{text, false}};
}

Plot plot(const std::string& title) {
    Plot plot;
    plot.title = words(title);
    plot.note = words("Down 83 %, from 24 to 4: more than chance.");
    plot.low = 0;
    plot.high = 30;
    plot.ticks = {{0, "0"}, {14, "14"}, {28, "28 days"}};
    Plot::Panel counts;
    counts.share = 3;
    counts.high = 30;
    counts.ticks = {{0, "0"}, {10, "10"}, {20, "20"}, {30, "30"}};
    counts.bands = {{{{0, 18}, {30, 0}}, {{0, 30}, {30, 8}}}};
    counts.curves = {{{{0, 24}, {30, 3}}, Stroke::solid}, {{{0, 20}, {30, 22}}, Stroke::dashed}};
    counts.marks = {{Mark::disc, {{0, 24}, {10, 15}, {30, 4}}}, {Mark::ring, {{0, 20}, {30, 22}}}};
    Plot::Panel level;
    level.high = 100;
    level.ticks = {{0, "0 %"}, {100, "100 %"}};
    level.curves = {{{{0, 100}, {10, 55}, {10, 100}, {30, 20}}, Stroke::thin}};
    level.marks = {{Mark::triangle, {{10, 90}}}, {Mark::cross, {{20, 15}}}};
    plot.panels = {counts, level};
    return plot;
}

Paper laid(std::vector<Block> blocks, const layout::PageStyle& style = layout::a4_style()) {
    Sheet sheet;
    sheet.bookmark = "Sheet";
    sheet.title = words("Title");
    sheet.blocks = std::move(blocks);
    return layout::lay_out({"Title", "", "en", {sheet}}, style, tests::installed_faces());
}

void check_sound(const Paper& paper, const layout::PageStyle& style) {
    const layout::Box allowed{style.margin, style.margin_top, style.width(),
                              style.page.height - style.margin_top - style.margin_bottom};
    for (const Page& page : paper.pages) {
        CHECK(layout::overlaps(page) == std::vector<std::string>{});
        CHECK(layout::strays(page, allowed) == std::vector<std::string>{});
        CHECK(layout::unnamed(page) == std::vector<std::string>{});
    }
}

std::vector<const layout::Text*> texts(const Paper& paper) {
    std::vector<const layout::Text*> all;
    for (const Page& page : paper.pages)
        for (const auto& item : page.items)
            if (const auto* text = std::get_if<layout::Text>(&item.shape)) all.push_back(text);
    return all;
}

}  // namespace

TEST_CASE("plots stand in rows, nothing laid over text, none lost", "[layout][plot]") {
    for (const auto& style : {layout::a4_style(), layout::letter_style()}) {
        for (const int across : {1, 2, 3}) {
            INFO(across << " in a row");
            Plots plots;
            plots.across = across;
            for (int i = 0; i < 11; ++i)
                plots.plots.push_back(plot("K" + std::to_string(i) + ", behind the bins"));
            const Paper paper = laid({Heading{words("Kitchen")}, plots}, style);
            check_sound(paper, style);
            const auto all = texts(paper);
            for (int i = 0; i < 11; ++i) {
                const std::string id = "K" + std::to_string(i) + ",";
                CHECK(std::count_if(all.begin(), all.end(), [&](const layout::Text* text) {
                          return text->text.starts_with(id);
                      }) == 1);
            }
        }
    }
}

TEST_CASE("the axes of a row begin at one height", "[layout][plot]") {
    Plots plots;
    plots.plots = {plot("K1"), plot("K2, a station whose place takes so many words that its title "
                                    "cannot stand on a single line above the plot")};
    const Paper paper = laid({plots});
    std::vector<double> zeros;
    for (const auto* text : texts(paper))
        if (text->text == "30") zeros.push_back(text->origin.y);
    REQUIRE(zeros.size() == 2);
    CHECK(zeros[0] == Approx(zeros[1]));
}

TEST_CASE("figures under an axis that stand too close are told, not laid over each other",
          "[layout][plot]") {
    Plot crowded = plot("K1");
    crowded.ticks.clear();
    for (int day = 0; day <= 30; ++day)
        crowded.ticks.push_back({day + 0.0, "day " + std::to_string(day)});
    CHECK_THROWS_AS(laid({Plots{{crowded}, 2}}), layout::LayoutError);
}

TEST_CASE("a key shows every mark and line beside its words", "[layout][plot]") {
    PlotKey key;
    key.entries = {{Mark::disc, words("seen at a count"), false},
                   {Mark::ring, words("places without bait"), false},
                   {Mark::triangle, words("filled"), false},
                   {Mark::cross, words("found clogged"), false},
                   {Stroke::solid, words("fitted fall"), true},
                   {Stroke::dashed, words("if it goes on so"), false},
                   {Stroke::thin, words("bait left"), false}};
    const Paper paper = laid({key});
    check_sound(paper, layout::a4_style());
    CHECK(texts(paper).size() >= key.entries.size());
    // Told apart without colour: everything drawn is black, white or grey.
    for (const Page& page : paper.pages)
        for (const auto& item : page.items)
            if (const auto* path = std::get_if<layout::Path>(&item.shape)) {
                CHECK(path->colour.r == path->colour.g);
                CHECK(path->colour.g == path->colour.b);
            }
}

TEST_CASE("dashes add up to half the line", "[layout][plot]") {
    PlotKey key;
    key.entries = {{Stroke::dashed, words("if it goes on so"), false}};
    const Paper paper = laid({key});
    double drawn = 0;
    for (const auto& item : paper.pages[0].items)
        if (const auto* path = std::get_if<layout::Path>(&item.shape))
            for (std::size_t i = 1; i < path->steps.size(); ++i)
                if (path->steps[i].kind == layout::PathStep::Kind::line)
                    drawn += path->steps[i].a.x - path->steps[i - 1].a.x;
    const layout::PageStyle style;
    CHECK(drawn > 0.4 * style.plot_sign);
    CHECK(drawn < 0.65 * style.plot_sign);
}
