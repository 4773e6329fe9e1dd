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
        return error.overflows().front().problem;
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

TEST_CASE("two languages stand on a label where both fit, else the main one and by how much") {
    const auto both = cups(1, "en, es");
    const auto large = placed(both, "a4-2x4");
    const auto small = placed(both, "a4-2x7");
    CHECK_FALSE(large.labels.front().report->languages_lack);
    REQUIRE(small.labels.front().report->languages_lack);
    const auto shortfall = *small.labels.front().report->languages_lack;
    CHECK(std::max(shortfall.width, shortfall.height) > 0);
    const auto says = [](const layout::LabelSheets& sheets, const std::string& what) {
        const auto& page = sheets.paper.pages.front();
        return std::any_of(page.items.begin(), page.items.end(), [&](const auto& item) {
            const auto* text = std::get_if<layout::Text>(&item.shape);
            return text != nullptr && text->text == what;
        });
    };
    CHECK(says(large, "DANGER"));
    CHECK(says(large, "PELIGRO"));
    CHECK(says(small, "DANGER"));
    CHECK_FALSE(says(small, "PELIGRO"));
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
        CHECK(first.what == "label K1 on a4-4x10");
        CHECK(first.problem.find("at the least sizes permitted (") == 0);
        CHECK(first.available == Approx(25.4));
        CHECK(first.needed > first.available);
        // And it would do.
        const auto name = first.remedy.substr(4, first.remedy.find(' ', 4) - 4);
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
