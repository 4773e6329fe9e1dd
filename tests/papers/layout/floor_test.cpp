#include <map>
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
        CHECK(error.overflows()[0].problem.english().find("300 m by 2 m") != std::string::npos);
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

namespace {

/// What a sketch consists of: the boxes of its names by name, its marks and its frame.
struct Drawn {
    std::map<std::string, layout::Box> names;
    std::vector<layout::Box> marks;
    layout::Box frame;
};

Drawn drawn(const layout::Page& page) {
    Drawn all;
    for (const auto& item : page.items) {
        const std::string& group = page.groups[static_cast<std::size_t>(item.group)];
        if (!group.ends_with("floor plan 1")) continue;  // not the lists below it
        if (const auto* text = std::get_if<layout::Text>(&item.shape))
            all.names[text->text] = item.bounds;
        const auto* box = std::get_if<layout::Rectangle>(&item.shape);
        if (box == nullptr) continue;
        if (!box->filled && box->colour == layout::hairline) all.frame = box->box;
        if (box->filled && box->colour == layout::black && box->radius > 0)
            all.marks.push_back(box->box);
    }
    return all;
}

}  // namespace

// The household sheet's small plan: R1 touched the frame, and "F1-07 F1-08" read as one.
TEST_CASE("small plans of crowded floors: names clear of each other, of marks and of the frame",
          "[layout][floor]") {
    std::minstd_rand random(24);
    const auto part = [&] { return static_cast<double>(random() % 10'000) / 10'000; };
    layout::PageStyle style = layout::a4_style();
    style.page.width = 63 + 2 * style.margin;  // as wide as it is beside the list
    std::size_t asked = 0, named = 0;
    for (int turn = 0; turn < 60; ++turn) {
        const double wide = 4 + 20 * part(), deep = 3 + 9 * part();
        FloorDrawing floor = floor_of(wide, deep);
        floor.states_scale = false;
        floor.highest = 46;
        const int count = 1 + turn % 14;
        const bool in_rows = turn % 3 == 0;
        for (int i = 0; i < count; ++i)
            floor.spots.push_back({"F1-" + std::to_string(10 + i), Mark::disc,
                                   in_rows ? FloorDrawing::Point{wide * (i % 7 + 0.5) / 7,
                                                                 deep * (i < 7 ? 0.25 : 0.75)}
                                           : FloorDrawing::Point{wide * part(), deep * part()}});
        INFO("turn " << turn << ": " << count << " stations, " << wide << " by " << deep);
        const auto paper = laid(floor, style);
        REQUIRE(paper.pages.size() == 1);
        const Drawn all = drawn(paper.pages.front());
        REQUIRE(all.marks.size() == floor.spots.size());
        for (const auto& spot : floor.spots) {
            ++asked;
            const auto found = all.names.find(spot.name);
            if (found == all.names.end()) continue;  // told below, or by a number
            ++named;
            const layout::Box& name = found->second;
            INFO(spot.name << " at " << name.x << ", " << name.y);
            const layout::Box clear{name.x - 0.8, name.y, name.width + 1.6, name.height};
            CHECK(all.frame.contains(clear));
            for (const auto& mark : all.marks) CHECK_FALSE(name.overlaps(mark));
            for (const auto& [other, box] : all.names)
                if (other != spot.name) CHECK_FALSE(clear.overlaps(box));
        }
    }
    INFO(named << " of " << asked << " have their name on the plan");
    CHECK(100 * named > 97 * asked);
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
