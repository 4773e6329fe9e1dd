#include <algorithm>
#include <set>

#include "catch_all.hpp"

#include "papers/layout/check.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/label_jobs.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/sheet_marks.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using units::in_mm;

namespace {

/// `count` cups of a liquid bait, in these languages.
document::Labels cups(int count, const std::string& languages = "en",
                      const std::string& holds = "60 mL") {
    std::string error;
    const auto labels = labels_of(
        "title: Hall\nprepared: 2027-03-02\nlanguages: [" + languages +
            "]\nhelp:\n  region: AU\nlog:\n  address: http://10.0.0.2\n"
            "measures:\n  - { scale: 9 kg, marks: 0.1 g }\n"
            "mixes:\n  bait:\n    title: Bait\n    against: ants\n    form: liquid\n"
            "    basis: percent w/w\n    ingredients: { borax: 1, sugar: 20, water: rest }\n"
            "    lasts: 30 d\n"
            "containers:\n  cup: { holds: " +
            holds +
            ", fill: 45 mL, openings: open top }\n"
            "stations:\n  - { id: K1, place: Bins, mix: bait, container: cup, count: " +
            std::to_string(count) + ", placed: 2027-03-02 19:30 }\n",
        &error);
    INFO(error);
    REQUIRE(labels);
    return *labels;
}

layout::LabelSheets placed(const document::Labels& labels, const std::string& stock,
                           const layout::LabelOptions& options = {}) {
    return layout::place_labels(labels, shipped_stock(stock), installed_faces(), options);
}

std::string problem_of(const document::Labels& labels, const std::string& stock,
                       const layout::LabelOptions& options = {}) {
    try {
        placed(labels, stock, options);
    } catch (const layout::LayoutError& error) {
        return error.overflows().front().problem.english();
    }
    return "none";
}

}  // namespace

TEST_CASE("labels follow one another from the first free place over several sheets") {
    // 20 cups, bottle, what is left, jar: 23 labels, each twice, from place 6 of 8 on.
    const auto labels = cups(20);
    REQUIRE(labels.labels.size() == 23);
    const auto sheets = placed(labels, "a4-2x4", {.start_at = 6, .offset = {}, .copies = 2});
    const auto& stock = shipped_stock("a4-2x4").stock;
    REQUIRE(sheets.labels.size() == 46);
    CHECK(sheets.paper.pages.size() == 7);  // 3 places, then 43 on sheets of 8
    for (std::size_t i = 0; i < sheets.labels.size(); ++i) {
        const int place = 5 + static_cast<int>(i);
        const auto& label = sheets.labels[i];
        CHECK(label.name == labels.labels[i / 2].name);
        CHECK(label.page == place / 8);
        CHECK(label.box.x == Approx(in_mm(stock.left) + (place % 2) * (99.1 + 2.5)));
        CHECK(label.box.y == Approx(in_mm(stock.top) + (place % 8 / 2) * 67.7));
    }
}

TEST_CASE("an offset moves everything on the sheet, and no label off it") {
    const auto labels = cups(3);
    const auto still = placed(labels, "a4-3x4");
    const auto moved = placed(labels, "a4-3x4", {.start_at = 1, .offset = {1.5, -0.5}});
    const auto& before = still.paper.pages.front().items;
    const auto& after = moved.paper.pages.front().items;
    REQUIRE(before.size() == after.size());
    for (std::size_t i = 0; i < before.size(); ++i) {
        CHECK(after[i].bounds.x == Approx(before[i].bounds.x + 1.5));
        CHECK(after[i].bounds.y == Approx(before[i].bounds.y - 0.5));
    }
    // The sheet's upper margin is 4.5 mm and ink keeps 1.5 mm from a label's edge.
    CHECK(problem_of(labels, "a4-3x4", {.start_at = 1, .offset = {0, -8}}) ==
          "an offset of 0, -8 mm moves labels 2.0 mm off the page");
    CHECK(problem_of(labels, "a4-3x4", {.start_at = 13, .offset = {}}) ==
          "it has positions 1 to 12, not 13");
}

TEST_CASE("plain paper has cut marks outside every label, and label sheets have none") {
    const auto labels = cups(3);
    const auto marks = [](const layout::Page& page) {
        std::vector<layout::Line> found;
        for (const auto& item : page.items)
            if (item.group >= 0 && page.groups[static_cast<std::size_t>(item.group)] == "cut marks")
                found.push_back(std::get<layout::Line>(item.shape));
        return found;
    };
    CHECK(marks(placed(labels, "a4-2x4").paper.pages.front()).empty());
    const auto sheets = placed(labels, "a4-plain-2x4");
    const auto lines = marks(sheets.paper.pages.front());
    CHECK(lines.size() == 8 * sheets.labels.size());  // two at each corner
    for (const auto& line : lines) {
        CHECK((line.from.x == line.to.x || line.from.y == line.to.y));
        for (const auto& label : sheets.labels)
            for (const auto& end : {line.from, line.to})
                CHECK_FALSE((end.x > label.box.x + 0.01 && end.x < label.box.right() - 0.01 &&
                             end.y > label.box.y + 0.01 && end.y < label.box.bottom() - 0.01));
    }
}

TEST_CASE("the alignment page shows every label of a stock where it is printed") {
    for (const auto& one : shipped_stocks()) {
        INFO(one.stock.name);
        const layout::LabelOptions options{.start_at = 1, .offset = {0.5, 0.25}};
        const auto paper = layout::alignment_page(one.stock, installed_faces(), "x", options);
        REQUIRE(paper.pages.size() == 1);
        const auto& page = paper.pages.front();
        CHECK(page.size.width == Approx(in_mm(one.stock.page_width)));
        std::vector<layout::Box> outlines;
        std::set<std::string> numbers;
        for (const auto& item : page.items) {
            if (const auto* outline = std::get_if<layout::Rectangle>(&item.shape))
                outlines.push_back(outline->box);
            if (const auto* text = std::get_if<layout::Text>(&item.shape))
                numbers.insert(text->text);
        }
        REQUIRE(outlines.size() == static_cast<std::size_t>(one.stock.per_page()));
        CHECK(numbers.size() == outlines.size());
        for (int i = 0; i < one.stock.per_page(); ++i) {
            const auto at = layout::position(one.stock, i);
            CHECK(outlines[static_cast<std::size_t>(i)].x == Approx(at.x + 0.5));
            CHECK(outlines[static_cast<std::size_t>(i)].y == Approx(at.y + 0.25));
        }
        CHECK(layout::overlaps(page) == std::vector<std::string>{});
    }
}

namespace {

/// What is printed of a part of a label, in order.
std::vector<const layout::Item*> items_of(const layout::LabelSheets& sheets,
                                          const std::string& group) {
    std::vector<const layout::Item*> found;
    for (const auto& page : sheets.paper.pages)
        for (const auto& item : page.items)
            if (item.group >= 0 && page.groups[static_cast<std::size_t>(item.group)] == group)
                found.push_back(&item);
    return found;
}

std::string words_of(const std::vector<const layout::Item*>& items) {
    std::string all;
    for (const auto* item : items)
        if (const auto* text = std::get_if<layout::Text>(&item->shape))
            all += (all.empty() || all.back() == ' ' ? "" : " ") + text->text;
    return all;
}

/// Three cups of one mix in places of very different length.
document::Labels three_places(const std::string& body = "") {
    std::string error;
    const auto labels = labels_of(
        "title: Hall\nprepared: 2027-03-02\nlanguages: [en]\nhelp: { region: AU }\n"
        "log: { address: http://10.0.0.2 }\nmeasures:\n  - { scale: 9 kg, marks: 0.1 g }\n"
        "mixes:\n  bait: { title: Bait, against: ants, form: liquid, basis: percent w/w,\n"
        "    ingredients: { borax: 1, sugar: 20, water: rest }, lasts: 30 d }\n"
        "containers:\n  cup: { holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm" +
            body +
            " }\nstations:\n"
            "  - { id: K1, place: Bins, mix: bait, container: cup, placed: 2027-03-02 19:30 }\n"
            "  - { id: WASHROOM12, place: \"Second floor, washroom, behind the third basin "
            "from the door\", mix: bait, container: cup, placed: 2027-03-02 19:30 }\n"
            "  - { id: Y1, place: Yard, mix: bait, container: cup, placed: 2027-03-04 19:30, near: "
            "[pets] }\n",
        &error);
    INFO(error);
    REQUIRE(labels);
    return *labels;
}

}  // namespace

TEST_CASE("labels of one mix are set alike on every stock that holds them") {
    const auto labels = three_places();
    int held = 0;
    for (const auto& stock : shipped_stocks()) {
        INFO(stock.stock.name);
        const auto reports = layout::fit_labels(labels, stock, installed_faces());
        if (reports[0] == nullptr) continue;
        ++held;
        for (std::size_t i = 1; i < 3; ++i) {
            if (reports[i] == nullptr) continue;  // it has more to say
            CHECK(reports[i]->type_points == reports[0]->type_points);
            CHECK(reports[i]->module_mm == reports[0]->module_mm);
            CHECK(reports[i]->pictogram_mm == reports[0]->pictogram_mm);
            CHECK(reports[i]->run_on == reports[0]->run_on);
        }
        // Where nothing is lost for it they say the same things too.
        for (std::size_t i = 1; i < 3; ++i)
            if (reports[0]->whole() && reports[i] != nullptr)
                CHECK(reports[i]->left_out == reports[0]->left_out);
    }
    CHECK(held > 20);
}

TEST_CASE("every cup's label says where it belongs, and its code what it is for") {
    for (const auto* name :
         {"a4-2x4", "a4-2x7", "a4-3x4", "a4-2x2", "a4-round-80", "roll-62x100-203"}) {
        INFO(name);
        const auto sheets = placed(three_places(), name);
        CHECK(words_of(items_of(sheets, "label K1/place")) == "Place: Bins");
        CHECK(words_of(items_of(sheets, "label WASHROOM12/place")) ==
              "Place: Second floor, washroom, behind the third basin from the door");
        CHECK(items_of(sheets, "label bottle bait/place").empty());
        // Next to it: no further away than the code is wide.
        for (const auto* label : {"K1", "WASHROOM12", "Y1"}) {
            const auto caption = items_of(sheets, std::string("label ") + label + "/caption");
            const auto code = items_of(sheets, std::string("label ") + label + "/code");
            REQUIRE_FALSE(caption.empty());
            REQUIRE(code.size() == 1);
            CHECK(words_of(caption) == "Scan: log, first aid");
            const auto& symbol = code.front()->bounds;
            const layout::Box near{symbol.x - symbol.width, symbol.y - symbol.width,
                                   3 * symbol.width, 3 * symbol.width};
            for (const auto* line : caption) CHECK(near.overlaps(line->bounds));
        }
    }
}

TEST_CASE("whom to call stands in a frame, the number larger than all words round it") {
    for (const auto* name : {"a4-2x4", "a4-3x4", "a4-2x2", "a4-round-80", "a4-2x7"}) {
        INFO(name);
        const auto sheets = placed(three_places(), name);
        for (const auto& label : sheets.labels) {
            INFO(label.name);
            const auto group = [&](const std::string& part) {
                return items_of(sheets, "label " + label.name + "/" + part);
            };
            const auto frames = group("frame"), numbers = group("number"), calls = group("call");
            REQUIRE(frames.size() == 1);
            REQUIRE(numbers.size() == 1);
            REQUIRE_FALSE(calls.empty());
            const auto& number = std::get<layout::Text>(numbers.front()->shape);
            CHECK(number.text == "13\u00A011\u00A026");
            CHECK(number.size >= 1.35 * label.report->type_points);
            CHECK(frames.front()->bounds.contains(numbers.front()->bounds, 0.01));
            for (const auto* line : calls)
                CHECK(frames.front()->bounds.contains(line->bounds, 0.01));
        }
    }
}

TEST_CASE("a small label for a lid says where, until when and whom to call, and has its code") {
    for (const auto* name : {"a4-round-50", "letter-round-51"}) {
        auto labels = three_places();
        labels.labels.resize(3);                         // vessels have no lid label
        labels.labels.erase(labels.labels.begin() + 1);  // two lines of place are too long for it
        const auto sheets = layout::place_labels(labels, compact_stock(name), installed_faces());
        for (const auto& label : sheets.labels) {
            INFO(name << " " << label.name << ", " << label.report->type_points << " pt");
            const auto group = [&](const std::string& part) {
                return items_of(sheets, "label " + label.name + "/" + part);
            };
            for (const char* part : {"signal word", "not food", "id", "frame", "place", "call",
                                     "number", "dates", "code", "caption", "band"})
                CHECK_FALSE(group(part).empty());
            CHECK(words_of(group("dates")).find("eplace by") != std::string::npos);
            CHECK(group("hazards").empty());
            CHECK(label.report->type_points >= 6);
            CHECK(label.report->statements_left_out.empty());  // they stand on the other label
        }
    }
}

TEST_CASE("strips come with a picture of how to wrap them, once a page, clear of the labels") {
    const auto sheets =
        placed(three_places(", body: { diameter: 54 mm, height: 50 mm }"), "a4-strip-40");
    for (std::size_t p = 0; p < sheets.paper.pages.size(); ++p) {
        const auto& page = sheets.paper.pages[p];
        layout::Box drawn;
        int items = 0;
        for (const auto& item : page.items) {
            if (page.groups[static_cast<std::size_t>(item.group)] != "how to wrap") continue;
            ++items;
            for (const auto& label : sheets.labels)
                if (label.page == static_cast<int>(p)) CHECK_FALSE(label.box.overlaps(item.bounds));
            CHECK(layout::Box{0, 0, page.size.width, page.size.height}.contains(item.bounds));
        }
        CHECK(items > 5);
        CHECK(items < 20);
    }
    const auto rectangles = placed(three_places(), "a4-plain-2x4");
    for (const auto& page : rectangles.paper.pages)
        CHECK(std::ranges::find(page.groups, "how to wrap") == page.groups.end());
}

TEST_CASE("light ink prints frames for bands, and nothing else changes") {
    const auto labels = three_places();
    for (const auto* name : {"a4-2x4", "a4-round-80", "a4-strip-40"}) {
        INFO(name);
        const auto full = placed(labels, name);
        layout::LabelOptions light;
        light.light_ink = true;
        const auto made = placed(labels, name, light);
        REQUIRE(made.paper.pages.size() == full.paper.pages.size());
        int bands = 0;
        for (std::size_t p = 0; p < made.paper.pages.size(); ++p) {
            const auto &before = full.paper.pages[p], &after = made.paper.pages[p];
            REQUIRE(after.items.size() == before.items.size());
            for (std::size_t i = 0; i < after.items.size(); ++i) {
                const auto& group = after.groups[static_cast<std::size_t>(after.items[i].group)];
                const auto* text = std::get_if<layout::Text>(&after.items[i].shape);
                if (text != nullptr) CHECK_FALSE(text->colour == layout::white);
                const bool band = group.ends_with("/band") && text == nullptr;
                if (!band) {
                    CHECK(after.items[i].shape.index() == before.items[i].shape.index());
                    continue;
                }
                ++bands;
                const auto* box = std::get_if<layout::Rectangle>(&after.items[i].shape);
                const auto* path = std::get_if<layout::Path>(&after.items[i].shape);
                CHECK((box != nullptr ? !box->filled : path != nullptr && !path->filled));
            }
        }
        CHECK(bands == static_cast<int>(made.labels.size()));
    }
}

// 16 CFR 1500.121(c)(1): of a cylinder 40 % of its circumference is seen at once.
TEST_CASE("a label larger than the lid or the wall it goes on is reported") {
    const auto container = [](const std::string& body, const std::string& stock) {
        return placed(three_places(", body: " + body), stock).labels.front().report->container;
    };
    CHECK_FALSE(placed(three_places(), "a4-2x4").labels.front().report->container);
    // 99.1 x 67.7 mm on a wall of which 0.4 x pi x 54 = 67.9 mm are seen, 50 mm high.
    const auto wall = container("{ diameter: 54 mm, height: 50 mm }", "a4-2x4");
    REQUIRE(wall);
    CHECK(wall->width == Approx(67.9).margin(0.05));
    CHECK(wall->height == Approx(50));
    CHECK(container("{ diameter: 90 mm, height: 60 mm }", "a4-2x4"));  // too low by 7.7 mm
    CHECK_FALSE(container("{ diameter: 90 mm, height: 70 mm }", "a4-2x4"));
    CHECK(container("{ lid: 79 mm }", "a4-round-80"));
    CHECK_FALSE(container("{ lid: 80 mm }", "a4-round-80"));
    // A rectangle lies on a lid with its corners.
    CHECK(container("{ lid: 118 mm }", "a4-2x4"));
    CHECK_FALSE(container("{ lid: 120 mm }", "a4-2x4"));
    // It may go on the lid where the wall is too low.
    CHECK_FALSE(container("{ diameter: 80 mm, height: 20 mm, lid: 80 mm }", "a4-round-80"));
    CHECK(container("{ diameter: 80 mm, height: 35 mm }", "a4-strip-40"));
    CHECK_FALSE(container("{ diameter: 80 mm, height: 40 mm }", "a4-strip-40"));
}

TEST_CASE("what does not fit is told with figures and the nearest stock that would do") {
    const auto labels = cups(1);
    try {
        layout::place_labels(labels, shipped_stock("a4-4x10"), installed_faces(), {},
                             shipped_stocks());
        FAIL("it fits");
    } catch (const layout::LayoutError& error) {
        CHECK(error.overflows().size() == labels.labels.size());
        const auto& first = error.overflows().front();
        CHECK(first.what.english() == "labels a4-4x10 (48.5 x 25.4 mm) are too small");
        CHECK(first.problem.english().starts_with("K1 does not fit; it needs about "));
        CHECK(first.available == Approx(25.4));
        CHECK(first.needed > first.available);
        // And it would do.
        const auto name = first.remedy.english().substr(4, first.remedy.english().find(' ', 4) - 4);
        CHECK(layout::fit_labels(labels, shipped_stock(name), installed_faces()).front() !=
              nullptr);
    }
}

// CLP Annex I, 1.2.1.4, Table 1.3 (reachonline.eu): over 3 L a label is at least 74 x 105 mm, up to
// 3 L 52 x 74 mm "if possible".
TEST_CASE("a label smaller than the rules ask for its container is reported") {
    const auto bucket = placed(cups(1, "en", "5 L"), "a4-2x4").labels.front().report;
    REQUIRE(bucket->rules_ask);
    CHECK(bucket->rules_ask->width == 105);
    CHECK(bucket->rules_ask->height == 74);
    CHECK(bucket->pictogram_mm >= 23);  // the same table
    CHECK_FALSE(placed(cups(1, "en", "3 L"), "a4-2x4").labels.front().report->rules_ask);
}

TEST_CASE("modules on a roll printer are whole dots, and at least four") {
    // qrcode.com, "Point for setting the module size".
    for (const auto* name : {"roll-76x51-203", "roll-76x51-300", "roll-100x62-203"}) {
        const auto& stock = shipped_stock(name).stock;
        const auto report = placed(cups(1), name).labels.front().report;
        const double dots = report->module_mm * *stock.dots_per_inch / 25.4;
        INFO(name << ": " << report->module_mm);
        CHECK(dots == Approx(std::round(dots)));
        CHECK(dots > 3.99);
    }
}

TEST_CASE("a label in Arabic is mirrored, and no pictogram in it") {
    struct Found {
        layout::Box code, id, label;
        std::vector<layout::Path> pictogram;
    };
    const auto of = [](const std::string& language) {
        const auto sheets = placed(cups(1, language), "a4-2x4");
        Found found{{}, {}, sheets.labels.front().box, {}};
        const auto& page = sheets.paper.pages.front();
        for (const auto& item : page.items) {
            if (item.group < 0) continue;
            const auto& group = page.groups[static_cast<std::size_t>(item.group)];
            if (group == "label K1/code") found.code = item.bounds;
            if (group == "label K1/id") found.id = item.bounds;
            if (group != "label K1/pictogram") continue;
            if (const auto* path = std::get_if<layout::Path>(&item.shape))
                found.pictogram.push_back(*path);
        }
        return found;
    };
    const Found arabic = of("ar"), english = of("en");
    const auto middle = [](const Found& one) { return one.label.x + one.label.width / 2; };
    CHECK(english.code.right() < middle(english));
    CHECK(english.id.x > middle(english));
    CHECK(arabic.code.x > middle(arabic));
    CHECK(arabic.id.right() < middle(arabic));
    // The picture itself stands as published: the same steps to the right, whatever its size.
    REQUIRE(arabic.pictogram.size() == english.pictogram.size());
    for (std::size_t i = 0; i < arabic.pictogram.size(); ++i) {
        const auto &one = arabic.pictogram[i].steps, &other = english.pictogram[i].steps;
        REQUIRE(one.size() == other.size());
        for (std::size_t k = 1; k < one.size(); ++k)
            CHECK((one[k].a.x - one[0].a.x) * (other[k].a.x - other[0].a.x) >= -1e-6);
    }
}
