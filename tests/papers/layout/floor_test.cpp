#include <random>

#include "catch_all.hpp"

#include "papers/layout/check.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/overflow.hpp"

using namespace gallipot;
using namespace gallipot::document;

namespace {

text::StyledText words(const std::string& text) {
    return {{text, false}};
}

FloorDrawing floor_of(double wide, double deep) {
    FloorDrawing floor;
    floor.rooms = {{words("Kitchen"), {{0, 0}, {wide / 2, 0}, {wide / 2, deep}, {0, deep}}},
                   {words("Hall"), {{wide / 2, 0}, {wide, 0}, {wide, deep}, {wide / 2, deep}}}};
    for (const double one_to : {20.0, 50.0, 100.0, 200.0, 500.0})
        floor.scales.push_back({one_to, words("Scale " + std::to_string(static_cast<int>(one_to))),
                                one_to / 20, words("bar")});
    floor.no_room = words("No room for:");
    return floor;
}

layout::Paper laid(FloorDrawing floor, const layout::PageStyle& style = layout::a4_style()) {
    Sheet sheet;
    sheet.bookmark = "Sheet";
    sheet.title = words("Title");
    sheet.blocks = {Heading{words("Floor")}, std::move(floor)};
    return layout::lay_out({"Title", "", "en", {sheet}}, style, tests::installed_faces());
}

std::string all_text(const layout::Paper& paper) {
    std::string all;
    for (const auto& page : paper.pages)
        for (const auto& item : page.items)
            if (const auto* text = std::get_if<layout::Text>(&item.shape)) all += text->text + "\n";
    return all;
}

}  // namespace

TEST_CASE("the largest scale that fits is taken and stated", "[layout][floor]") {
    // A4 leaves 156 mm by 130 mm for what is drawn.
    CHECK(all_text(laid(floor_of(3, 2))).find("Scale 20\n") != std::string::npos);
    CHECK(all_text(laid(floor_of(7.5, 2))).find("Scale 50\n") != std::string::npos);
    CHECK(all_text(laid(floor_of(2, 7.5))).find("Scale 100\n") != std::string::npos);
    CHECK(all_text(laid(floor_of(30, 2))).find("Scale 200\n") != std::string::npos);
    try {
        laid(floor_of(300, 2));
        FAIL("a floor of 300 m fits on no scale there is");
    } catch (const layout::LayoutError& error) {
        REQUIRE(error.overflows().size() == 1);
        CHECK(error.overflows()[0].problem.find("300 m by 2 m") != std::string::npos);
    }
}

TEST_CASE("what is drawn is to scale, and so is its bar", "[layout][floor]") {
    const auto paper = laid(floor_of(6, 4));
    double walls = 0, bar = 0;
    for (const auto& item : paper.pages.at(0).items) {
        if (const auto* path = std::get_if<layout::Path>(&item.shape))
            if (!path->filled) walls = std::max(walls, item.bounds.height - path->line_width);
        if (const auto* box = std::get_if<layout::Rectangle>(&item.shape))
            if (box->box.height < 2) bar += box->box.width;
    }
    CHECK(walls == Approx(80));  // 4 m at 1:50
    CHECK(bar == Approx(50));    // 2.5 m
}

TEST_CASE("random floors with up to 200 stations: nothing overlaps, strays or is lost",
          "[layout][floor]") {
    std::minstd_rand random(17);
    const auto part = [&] { return static_cast<double>(random() % 10'000) / 10'000; };
    for (const auto& style : {layout::a4_style(), layout::letter_style()}) {
        for (const int count : {1, 2, 7, 30, 90, 200}) {
            for (const double spread : {1.0, 0.2, 0.0}) {
                const double wide = 1 + 60 * part(), deep = 1 + 40 * part();
                FloorDrawing floor = floor_of(wide, deep);
                floor.rooms.push_back(
                    {words("A store with quite a long name for its size"),
                     {{0, deep}, {0.5, deep}, {0.5, deep + 0.4}, {0, deep + 0.4}}});
                for (int i = 0; i < count; ++i)
                    floor.spots.push_back({"N" + std::to_string(i + 1) + ".",
                                           static_cast<Mark>(i % 5),
                                           {wide * (0.4 + spread * (part() - 0.4)),
                                            deep * (0.4 + spread * (part() - 0.4))}});
                INFO(count << " stations, spread " << spread << ", " << wide << " by " << deep);
                const auto paper = laid(floor, style);
                const layout::Box allowed{
                    style.margin, style.margin_top, style.width(),
                    style.page.height - style.margin_top - style.margin_bottom};
                for (const auto& page : paper.pages) {
                    REQUIRE(layout::overlaps(page) == std::vector<std::string>{});
                    REQUIRE(layout::strays(page, allowed) == std::vector<std::string>{});
                    REQUIRE(layout::unnamed(page) == std::vector<std::string>{});
                }
                const std::string text = all_text(paper);
                for (const auto& spot : floor.spots)
                    REQUIRE(text.find(spot.name) != std::string::npos);
            }
        }
    }
}

TEST_CASE("a room too small for its name has a number in it, told below", "[layout][floor]") {
    FloorDrawing floor = floor_of(12, 8);
    floor.rooms.push_back({words("A store with quite a long name for its size"),
                           {{0, 8}, {0.8, 8}, {0.8, 8.8}, {0, 8.8}}});
    const auto paper = laid(std::move(floor));
    const std::string text = all_text(paper);
    CHECK(text.find("\n(1)\n") != std::string::npos);
    CHECK(text.find("(1) A store with quite a long name for its size\n") != std::string::npos);
    CHECK(text.find("No room for:") == std::string::npos);
}
