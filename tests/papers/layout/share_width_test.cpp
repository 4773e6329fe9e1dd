#include "papers/layout/share_width.hpp"

#include <numeric>
#include <random>

#include "catch_all.hpp"

using gallipot::layout::ColumnNeed;
using gallipot::layout::share_width;

namespace {

double sum(const std::vector<double>& widths) {
    return std::accumulate(widths.begin(), widths.end(), 0.0);
}

}  // namespace

TEST_CASE("when all fits, the spare width goes to the weighted columns") {
    const auto widths = share_width({{5, 10, 0}, {5, 20, 1}, {5, 30, 3}}, 100);
    REQUIRE(widths);
    CHECK((*widths)[0] == Approx(10));
    CHECK((*widths)[1] == Approx(30));
    CHECK((*widths)[2] == Approx(60));
}

TEST_CASE("without weights, columns are as wide as their widest cell and the spare is left") {
    const auto widths = share_width({{5, 10, 0}, {5, 20, 0}}, 100);
    REQUIRE(widths);
    CHECK(*widths == std::vector<double>{10, 20});
}

TEST_CASE("when not all fits, only the weighted columns wrap") {
    const auto widths = share_width({{5, 20, 0}, {5, 80, 1}, {5, 80, 1}}, 100);
    REQUIRE(widths);
    CHECK((*widths)[0] == Approx(20));
    CHECK((*widths)[1] == Approx(40));
    CHECK((*widths)[2] == Approx(40));
}

TEST_CASE("no weighted column takes more than it can use while another wraps") {
    const auto widths = share_width({{5, 15, 1}, {5, 200, 1}}, 100);
    REQUIRE(widths);
    CHECK((*widths)[0] == Approx(15));
    CHECK((*widths)[1] == Approx(85));
}

TEST_CASE("when the weighted columns cannot give enough, all of them wrap") {
    const auto widths = share_width({{10, 70, 0}, {20, 80, 1}}, 60);
    REQUIRE(widths);
    CHECK((*widths)[0] == Approx(25));
    CHECK((*widths)[1] == Approx(35));
}

TEST_CASE("when not even the widest words fit side by side there is no answer") {
    CHECK_FALSE(share_width({{30, 40, 0}, {31, 40, 1}}, 60));
    CHECK(share_width({{30, 40, 0}, {30, 40, 1}}, 60));
}

TEST_CASE("random columns get at least their widest word and together never too much") {
    std::mt19937 random(17);
    std::uniform_real_distribution<double> mm(1, 60);
    for (int round = 0; round < 2000; ++round) {
        std::vector<ColumnNeed> needs(std::uniform_int_distribution<std::size_t>(1, 7)(random));
        double minimum = 0;
        for (ColumnNeed& need : needs) {
            need.minimum = mm(random);
            need.natural = need.minimum + mm(random);
            need.weight = std::uniform_int_distribution<int>(0, 3)(random);
            minimum += need.minimum;
        }
        const double available = 40 + 4 * mm(random);
        const auto widths = share_width(needs, available);
        CHECK(widths.has_value() == (minimum <= available + 1e-6));
        if (!widths) continue;
        CHECK(sum(*widths) <= available + 1e-6);
        for (std::size_t i = 0; i < needs.size(); ++i)
            CHECK((*widths)[i] >= needs[i].minimum - 1e-9);
    }
}
