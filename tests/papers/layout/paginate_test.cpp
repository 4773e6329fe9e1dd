#include "papers/layout/paginate.hpp"

#include <random>
#include <string>

#include "catch_all.hpp"

using namespace gallipot::layout;

namespace {

Strip strip(double height, Keep keep = Keep::free, double before = 0) {
    Strip made;
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

std::vector<std::size_t> counts_of(const Strips& strips, double first, double other) {
    std::vector<Misfit> misfits;
    const auto pages = paginate(strips, first, other, misfits);
    CHECK(misfits.empty());
    return counts(pages);
}

}  // namespace

TEST_CASE("strips fill a page to its foot, then the next") {
    CHECK(counts_of(Strips(7, strip(10)), 30, 30) == std::vector<std::size_t>{3, 3, 1});
    CHECK(counts_of(Strips(7, strip(10)), 40, 20) == std::vector<std::size_t>{4, 2, 1});
}

TEST_CASE("the space before a strip falls away at the head of a page") {
    CHECK(counts_of(Strips(4, strip(10, Keep::free, 10)), 30, 30) ==
          std::vector<std::size_t>{2, 2});
}

TEST_CASE("an empty sheet still has its page") {
    CHECK(counts_of({}, 30, 30) == std::vector<std::size_t>{0});
}

TEST_CASE("a heading goes to the next page with what it heads") {
    Strips strips(2, strip(10));
    strips.push_back(strip(5, Keep::always));
    strips.push_back(strip(10));
    CHECK(counts_of(strips, 30, 30) == std::vector<std::size_t>{2, 2});
}

TEST_CASE("a group stays together when a page can hold it, and splits when none can") {
    Strips strips{strip(10), strip(10, Keep::if_possible), strip(10, Keep::if_possible), strip(10)};
    CHECK(counts_of(strips, 30, 30) == std::vector<std::size_t>{1, 3});
    strips.insert(strips.begin() + 2, strip(10, Keep::if_possible));
    CHECK(counts_of(strips, 30, 30) == std::vector<std::size_t>{3, 2});
}

TEST_CASE("a table's headings are repeated where it goes on, and take their room") {
    Strips strips{strip(5, Keep::always)};
    const auto heading = std::make_shared<const Strip>(strips.front());
    for (int i = 0; i < 5; ++i) {
        strips.push_back(strip(10));
        strips.back().heading = heading;
    }
    std::vector<Misfit> misfits;
    const auto pages = paginate(strips, 30, 30, misfits);
    CHECK(counts(pages) == std::vector<std::size_t>{3, 3, 2});
    CHECK(pages[1][0].strip == heading.get());
    CHECK(pages[1][1].top == 5);
    CHECK(pages[2][0].strip == heading.get());
}

TEST_CASE("a strip higher than a page is reported with the figures") {
    std::vector<Misfit> misfits;
    paginate({strip(10), strip(45), strip(10)}, 30, 30, misfits);
    REQUIRE(misfits.size() == 1);
    CHECK(misfits[0].problem == "it is 45.0 mm high and a page has 30.0 mm, 15.0 mm less");
}

TEST_CASE("random strips each come once, in order, within their page") {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> height(1, 25);
    for (int round = 0; round < 500; ++round) {
        Strips strips(std::uniform_int_distribution<std::size_t>(0, 60)(random));
        for (Strip& made : strips) {
            made = strip(height(random),
                         static_cast<Keep>(std::uniform_int_distribution<int>(0, 5)(random) / 2),
                         height(random) / 5);
        }
        std::vector<Misfit> misfits;
        const auto pages = paginate(strips, 60, 50, misfits);
        CHECK(misfits.empty());
        std::size_t next = 0;
        for (std::size_t p = 0; p < pages.size(); ++p) {
            double bottom = 0;
            for (const PlacedStrip& placed : pages[p]) {
                REQUIRE(next < strips.size());
                CHECK(placed.strip == &strips[next++]);
                CHECK(placed.top >= bottom - 1e-9);
                bottom = placed.top + placed.strip->height;
            }
            CHECK(bottom <= (p == 0 ? 60 : 50) + 1e-6);
        }
        CHECK(next == strips.size());
    }
}
