#include "domain/mixing/volume_search.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <random>

#include "catch_all.hpp"

using namespace gallipot::mixing;

namespace {

constexpr double mL = 1e-6;

/// Jugs as Tools lists them: each a level tool when full, and to be filled to its lower marks.
struct Jugs {
    std::vector<Tools::Level> levels;
    std::vector<Tools::Marked> marked;
    void add(double mark, int marks) {
        const std::size_t number = levels.size();
        levels.push_back({mark * marks, number});
        if (marks > 1) marked.push_back({mark, marks - 1, number});
    }
    void sort() {
        std::ranges::sort(levels, std::ranges::greater{}, &Tools::Level::volume);
        std::ranges::sort(marked, std::ranges::greater{}, &Tools::Marked::mark);
    }
};

struct Found {
    double off = 0;
    int actions = 0;
};

/// Every choice, nothing clever: each jug filled up to three times and once to each lower mark.
std::optional<Found> every_choice(const Jugs& jugs, const Window& window, bool fewest) {
    std::optional<Found> best;
    const std::function<void(std::size_t, double, int)> go = [&](std::size_t at, double sum,
                                                                 int used) {
        if (sum > window.high * (1 + 1e-9)) return;
        if (at == jugs.levels.size() + jugs.marked.size()) {
            if (used == 0 || sum < window.low * (1 - 1e-9)) return;
            const Found it{std::abs(sum - window.goal), used};
            const double same = 1e-9 * window.goal;
            const bool nearer = best && it.off < best->off - same;
            const bool as_near = best && it.off <= best->off + same;
            const bool better =
                !best ||
                (fewest ? it.actions < best->actions || (it.actions == best->actions && nearer)
                        : nearer || (as_near && it.actions < best->actions));
            if (better) best = it;
        } else if (at < jugs.levels.size()) {
            for (int times = 0; times <= 3; ++times)
                go(at + 1, sum + times * jugs.levels[at].volume, used + times);
        } else {
            const auto& tool = jugs.marked[at - jugs.levels.size()];
            for (int mark = 0; mark <= tool.maximum; ++mark)
                go(at + 1, sum + mark * tool.mark, used + (mark > 0 ? 1 : 0));
        }
    };
    go(0, 0, 0);
    return best;
}

/// What it says it is: the counts add up to the volume and the actions, all of them possible.
void check_sum(const Jugs& jugs, const Counts& counts) {
    double sum = 0;
    int actions = 0;
    for (std::size_t i = 0; i < jugs.levels.size(); ++i) {
        CHECK(counts.levels[i] >= 0);
        sum += counts.levels[i] * jugs.levels[i].volume;
        actions += counts.levels[i];
    }
    for (std::size_t i = 0; i < jugs.marked.size(); ++i) {
        CHECK(counts.marks[i] >= 0);
        CHECK(counts.marks[i] <= jugs.marked[i].maximum);
        sum += counts.marks[i] * jugs.marked[i].mark;
        actions += counts.marks[i] > 0 ? 1 : 0;
    }
    CHECK(counts.volume == Approx(sum));
    CHECK(counts.actions == actions);
}

}  // namespace

TEST_CASE("several jugs, each filled to a mark, give the best of every choice") {
    std::mt19937 random(20270311);
    const auto pick = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    int several = 0, none = 0;
    for (int round = 0; round < 4000; ++round) {
        Jugs jugs;
        const double marks[] = {1, 2.5, 5, 7, 20, 25, 30, 50, 100};
        for (int i = pick(1, 3); i > 0; --i) jugs.add(marks[pick(0, 8)] * mL, pick(1, 6));
        jugs.sort();
        // No choice is of more than three fillings of one jug.
        const double goal =
            jugs.levels.back().volume * std::uniform_real_distribution<double>(0.05, 3)(random);
        const double tolerance = pick(0, 2) == 0 ? 0.002 : 0.05;
        const double maximum = pick(0, 1) == 0 ? goal * (1 + 0.01 * pick(-5, 4)) : 1;
        VolumeSearch search(jugs.levels, jugs.marked);
        INFO("round " << round << ", goal " << goal / mL << " mL");

        // One search answers as often as it is asked, in any order.
        const auto nearest = search.nearest(goal, maximum);
        const auto best = every_choice(jugs, {goal, 0, std::min(maximum, 100 * goal)}, false);
        REQUIRE(nearest.has_value() == best.has_value());
        if (nearest) {
            check_sum(jugs, *nearest);
            CHECK(nearest->volume <= maximum * (1 + 1e-9));
            CHECK(std::abs(nearest->volume - goal) == Approx(best->off).margin(1e-9 * goal));
            CHECK(nearest->actions == best->actions);
        }
        const Window window{goal, (1 - tolerance) * goal,
                            std::min((1 + tolerance) * goal, maximum)};
        const auto fewest = search.fewest(window);
        const auto few = every_choice(jugs, window, true);
        REQUIRE(fewest.has_value() == few.has_value());
        if (fewest) {
            check_sum(jugs, *fewest);
            CHECK(fewest->actions == few->actions);
            CHECK(std::abs(fewest->volume - goal) == Approx(few->off).margin(1e-9 * goal));
            several += std::ranges::count_if(fewest->marks, [](int mark) { return mark > 0; }) > 1;
        }
        none += !fewest;
    }
    CHECK(several > 100);
    CHECK(none > 100);
}
