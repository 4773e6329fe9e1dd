#include "domain/plan/rounds.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <optional>
#include <utility>

namespace gallipot::plan {

namespace {

namespace ch = std::chrono;

struct Visit {
    LocalTime due, before;  ///< it is made from the one on, before the other
    std::size_t station = 0;
    std::size_t place = 0;  ///< in the walk
};
using Visits = std::vector<Visit>;

/// Begin and end of a round among the visits in order of time.
struct Block {
    std::size_t begin = 0, end = 0;
};

LocalTime window_end(LocalTime first, units::Duration within) {
    constexpr ch::minutes a_minute(1);
    if (units::in_days(within) >= 1) return ch::floor<ch::days>(first) + round_days(within);
    return first + ch::minutes(std::llround(within.si() / 60)) + a_minute;
}

/// As few blocks as will do, each as long as none of its visits would come too late.
std::vector<Block> divide(const Visits& visits) {
    std::vector<Block> blocks;
    LocalTime before{};
    for (std::size_t i = 0; i < visits.size(); ++i) {
        if (blocks.empty() || visits[i].due >= before) {
            blocks.push_back({i, i});
            before = visits[i].before;
        }
        before = std::min(before, visits[i].before);
        blocks.back().end = i + 1;
    }
    return blocks;
}

/// Where to end a block whose last visits may also be made at `next`: where all together wait
/// least.
std::size_t best_end(const Visits& visits, Block block, LocalTime next) {
    const LocalTime zero = visits[block.begin].due;
    // The time from `zero` to each visit's walk, over all visits.
    const auto waiting = [&](std::size_t end) {
        const auto kept = static_cast<std::int64_t>(end - block.begin);
        const auto moved = static_cast<std::int64_t>(block.end - end);
        return kept * (visits[end - 1].due - zero).count() + moved * (next - zero).count();
    };
    std::size_t best = block.end;
    for (std::size_t end = block.end - 1; end > block.begin; --end) {
        if (visits[end].before <= next) break;
        if (waiting(end) < waiting(best)) best = end;
    }
    return best;
}

void move_to_nearer(const Visits& visits, std::vector<Block>& blocks) {
    for (std::size_t i = blocks.size(); i-- > 1;) {
        Block& block = blocks[i - 1];
        Block& next = blocks[i];
        block.end = best_end(visits, block, visits[next.end - 1].due);
        next.begin = block.end;
    }
}

void sort(Visits& visits) {
    std::ranges::sort(visits, [](const Visit& a, const Visit& b) {
        return std::pair(a.due, a.place) < std::pair(b.due, b.place);
    });
}

std::vector<Due> in_walking_order(Visits::const_iterator begin, Visits::const_iterator end) {
    Visits stops(begin, end);
    std::ranges::sort(stops, {}, &Visit::place);
    std::vector<Due> all;
    all.reserve(stops.size());
    for (const Visit& visit : stops) all.push_back({visit.station, visit.due});
    return all;
}

/// How long a visit may wait that comes so long after what was before it. One that is to come after
/// hours shows nothing if it comes the next evening. Common practice, no source.
std::optional<ch::minutes> longest_wait(ch::minutes interval) {
    constexpr ch::minutes at_least = ch::hours(2);
    if (interval >= ch::days(1)) return std::nullopt;
    return std::max(interval, at_least);
}

/// All visits to one station.
void add_visits(const Plan& plan, std::size_t place, Visits& visits) {
    const std::size_t number = plan.walk[place];
    const Station& station = plan.stations.at(number);
    std::optional<LocalTime> last = station.placed;
    for (std::size_t i = 0; i < station.visits.size(); ++i) {
        const LocalTime due = station.visits[i];
        LocalTime before = window_end(due, plan.round_within);
        if (i + 1 < station.visits.size()) before = std::min(before, station.visits[i + 1]);
        if (station.replace_by) {
            const LocalTime replaced = ch::local_days(*station.replace_by) + ch::days(1);
            if (due < replaced) before = std::min(before, replaced);
        }
        if (const auto wait = last ? longest_wait(due - *last) : std::nullopt)
            before = std::min(before, due + *wait + ch::minutes(1));
        last = due;
        visits.push_back({due, before, number, place});
    }
}

}  // namespace

std::chrono::days round_days(units::Duration within) {
    return std::max(ch::days(1), ch::days(static_cast<int>(units::in_days(within) + 1e-9)));
}

std::vector<Round> rounds(const Plan& plan) {
    Visits visits;
    for (std::size_t place = 0; place < plan.walk.size(); ++place) add_visits(plan, place, visits);
    sort(visits);
    std::vector<Block> blocks = divide(visits);
    move_to_nearer(visits, blocks);
    std::vector<Round> all;
    all.reserve(blocks.size());
    const auto at = [&](std::size_t i) { return visits.cbegin() + static_cast<std::ptrdiff_t>(i); };
    for (const auto& [begin, end] : blocks)
        all.push_back({visits[end - 1].due, in_walking_order(at(begin), at(end))});
    return all;
}

std::vector<Round> placing_rounds(const Plan& plan) {
    Visits placings;
    for (std::size_t place = 0; place < plan.walk.size(); ++place) {
        const std::size_t number = plan.walk[place];
        if (const auto& placed = plan.stations.at(number).placed)
            placings.push_back({*placed, window_end(*placed, plan.round_within), number, place});
    }
    sort(placings);
    std::vector<Round> all;
    const auto at = [&](std::size_t i) {
        return placings.cbegin() + static_cast<std::ptrdiff_t>(i);
    };
    for (const auto& [begin, end] : divide(placings))
        all.push_back({placings[begin].due, in_walking_order(at(begin), at(end))});
    return all;
}

}  // namespace gallipot::plan
