#include "papers/layout/paginate.hpp"

#include <random>
#include <string>

#include "catch_all.hpp"

using namespace gallipot::layout;

namespace {

LineBox line_box(double height, Keep keep = Keep::free, double before = 0) {
    LineBox made;
    made.name = "strip";
    made.height = height;
    made.keep = keep;
    made.before = before;
    return made;
}

/// How many strips stand on each page.
std::vector<std::size_t> counts(const std::vector<PageOfStrips>& pages) {
    std::vector<std::size_t> counts;
    for (const PageOfStrips& page : pages) counts.push_back(page.size());
    return counts;
}

std::vector<std::size_t> counts_of(const LineBoxes& line_boxes, double first, double other) {
    std::vector<Overflow> overflows;
    const auto pages = paginate(line_boxes, first, other, overflows);
    CHECK(overflows.empty());
    return counts(pages);
}

}  // namespace

TEST_CASE("strips fill a page to its foot, then the next") {
    CHECK(counts_of(LineBoxes(7, line_box(10)), 30, 30) == std::vector<std::size_t>{3, 3, 1});
    CHECK(counts_of(LineBoxes(7, line_box(10)), 40, 20) == std::vector<std::size_t>{4, 2, 1});
}

TEST_CASE("the space before a strip falls away at the head of a page") {
    CHECK(counts_of(LineBoxes(4, line_box(10, Keep::free, 10)), 30, 30) ==
          std::vector<std::size_t>{2, 2});
}

TEST_CASE("an empty sheet still has its page") {
    CHECK(counts_of({}, 30, 30) == std::vector<std::size_t>{0});
}

TEST_CASE("a heading goes to the next page with what it heads") {
    LineBoxes line_boxes(2, line_box(10));
    line_boxes.push_back(line_box(5, Keep::always));
    line_boxes.push_back(line_box(10));
    CHECK(counts_of(line_boxes, 30, 30) == std::vector<std::size_t>{2, 2});
}

TEST_CASE("a group stays together when a page can hold it, and splits when none can") {
    LineBoxes line_boxes{line_box(10), line_box(10, Keep::if_possible),
                         line_box(10, Keep::if_possible), line_box(10)};
    CHECK(counts_of(line_boxes, 30, 30) == std::vector<std::size_t>{1, 3});
    line_boxes.insert(line_boxes.begin() + 2, line_box(10, Keep::if_possible));
    CHECK(counts_of(line_boxes, 30, 30) == std::vector<std::size_t>{3, 2});
}

TEST_CASE("a table's headings are repeated where it goes on, and take their room") {
    LineBoxes line_boxes{line_box(5, Keep::always)};
    const auto heading = std::make_shared<const LineBox>(line_boxes.front());
    for (int i = 0; i < 5; ++i) {
        line_boxes.push_back(line_box(10));
        line_boxes.back().heading = heading;
    }
    std::vector<Overflow> overflows;
    const auto pages = paginate(line_boxes, 30, 30, overflows);
    CHECK(counts(pages) == std::vector<std::size_t>{3, 3, 2});
    CHECK(pages[1][0].line_box == heading.get());
    CHECK(pages[1][1].top == 5);
    CHECK(pages[2][0].line_box == heading.get());
}

TEST_CASE("a strip higher than a page is reported with the figures") {
    std::vector<Overflow> overflows;
    paginate({line_box(10), line_box(45), line_box(10)}, 30, 30, overflows);
    REQUIRE(overflows.size() == 1);
    CHECK(overflows[0].problem.english() ==
          "it is 45.0 mm high and a page has 30.0 mm, 15.0 mm less");
}

TEST_CASE("random strips each come once, in order, within their page") {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> height(1, 25);
    for (int round = 0; round < 500; ++round) {
        LineBoxes line_boxes(std::uniform_int_distribution<std::size_t>(0, 60)(random));
        for (LineBox& made : line_boxes) {
            made = line_box(height(random),
                            static_cast<Keep>(std::uniform_int_distribution<int>(0, 5)(random) / 2),
                            height(random) / 5);
        }
        std::vector<Overflow> overflows;
        const auto pages = paginate(line_boxes, 60, 50, overflows);
        CHECK(overflows.empty());
        std::size_t next = 0;
        for (std::size_t p = 0; p < pages.size(); ++p) {
            double bottom = 0;
            for (const PlacedStrip& placed : pages[p]) {
                REQUIRE(next < line_boxes.size());
                CHECK(placed.line_box == &line_boxes[next++]);
                CHECK(placed.top >= bottom - 1e-9);
                bottom = placed.top + placed.line_box->height;
            }
            CHECK(bottom <= (p == 0 ? 60 : 50) + 1e-6);
        }
        CHECK(next == line_boxes.size());
    }
}
