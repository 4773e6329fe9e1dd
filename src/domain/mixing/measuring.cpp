#include "domain/mixing/measuring.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "domain/mixing/volume_search.hpp"

namespace gallipot::mixing {

using job::Measure;
using reference::State;
using units::Mass;
using units::Volume;

namespace {

constexpr double slack = 1e-12;
/// What a scale's capacity leaves for the load once the bowl stands on it.
constexpr double load_share = 0.9;

/// Which of two ways is the better: see Tools::measure.
bool better(const Measuring& a, const Measuring& b) {
    if (a.steps.empty() != b.steps.empty()) return b.steps.empty();
    if (a.within_tolerance != b.within_tolerance) return a.within_tolerance;
    const double off_a = std::abs(a.ratio - 1), off_b = std::abs(b.ratio - 1);
    const bool nearer = off_a < off_b - slack, as_near = off_a <= off_b + slack;
    if (a.within_tolerance) {
        return a.actions < b.actions || (a.actions == b.actions && nearer);
    }
    return nearer || (as_near && a.actions < b.actions);
}

/// Weighings that fit the window, in kg; none when no multiple of the resolution does.
std::optional<Measuring> weigh(const Tools::Scale& scale, const Window& window, bool within) {
    const double step = scale.resolution;
    const double all = std::floor(scale.capacity / step + slack);
    const double maximum_a_time =
        std::max(std::floor(scale.capacity * load_share / step + slack), std::min(all, 1.0));
    double low = std::max(1.0, std::ceil(window.low / step - slack));
    double high = std::floor(window.high / step + slack);
    if (low > high || maximum_a_time < 1) return std::nullopt;
    const double goal = std::round(window.goal / step);
    double times = 1;
    if (within) {
        times = std::ceil(low / maximum_a_time);
        high = std::min(high, times * maximum_a_time);
    }
    const double multiples = std::clamp(goal, low, high);
    times = std::ceil(multiples / maximum_a_time);
    if (times > 1e6) return std::nullopt;
    Measuring out{.ratio = multiples * step / window.goal, .actions = int(times), .weighed = true};
    // Full loads first, then what is left.
    const double last = multiples - (times - 1) * maximum_a_time;
    if (times > 1) {
        const double full = last == maximum_a_time ? times : times - 1;
        out.steps.push_back({scale.measure, int(full), {}, Mass::si(maximum_a_time * step)});
        if (full == times) return out;
    }
    out.steps.push_back({scale.measure, 1, {}, Mass::si(last * step)});
    return out;
}

Measuring from_counts(const Counts& counts, std::span<const Tools::Level> levels,
                      std::span<const Tools::Marked> marked, double goal) {
    Measuring out{.ratio = counts.volume / goal, .actions = counts.actions};
    for (std::size_t i = 0; i < levels.size(); ++i) {
        if (counts.levels[i] == 0) continue;
        out.steps.push_back(
            {levels[i].measure, counts.levels[i], Volume::si(levels[i].volume), {}});
    }
    for (std::size_t i = 0; i < marked.size(); ++i) {
        if (counts.marks[i] == 0) continue;
        out.steps.push_back(
            {marked[i].measure, 1, Volume::si(marked[i].mark * counts.marks[i]), {}});
    }
    return out;
}

void sort_and_merge(std::vector<Tools::Level>& levels) {
    std::ranges::stable_sort(levels, std::ranges::greater{}, &Tools::Level::volume);
    const auto same = [](const auto& a, const auto& b) {
        return b.volume >= a.volume * (1 - slack);
    };
    levels.erase(std::unique(levels.begin(), levels.end(), same), levels.end());
}

}  // namespace

Tools::Tools(std::span<const Measure> measures) : measures_(measures.begin(), measures.end()) {
    for (std::size_t i = 0; i < measures.size(); ++i) {
        const Measure& it = measures[i];
        if (it.kind == Measure::Kind::scale) {
            if (it.resolution > Mass{})
                scales_.push_back({it.resolution.si(), it.capacity.si(), i});
            continue;
        }
        if (it.volume <= Volume{}) continue;
        if (it.kind == Measure::Kind::scoop) {
            scoops_.push_back({it.volume.si(), i});
            tools_.push_back(scoops_.back());
            continue;
        }
        const double mark = it.marks > Volume{} ? it.marks.si() : it.volume.si();
        const int top = int(std::min(std::floor(it.volume.si() / mark + slack), 1e6));
        if (top < 1) continue;
        tools_.push_back({top * mark, i});
        if (top > 1) marked_.push_back({mark, top - 1, i});
    }
    sort_and_merge(scoops_);
    sort_and_merge(tools_);
    std::ranges::stable_sort(marked_, std::ranges::greater{}, &Marked::mark);
}

Measuring Tools::measure(const Wanted& wanted) const {
    const bool liquid = wanted.state == State::liquid;
    const std::span<const Level> levels = liquid ? tools_ : scoops_;
    const std::span<const Marked> marked =
        liquid ? std::span<const Marked>(marked_) : std::span<const Marked>();
    const double mass = wanted.mass.si(), volume = (wanted.mass / wanted.density).si();
    const double maximum =
        wanted.at_most ? wanted.at_most->si() / mass : std::numeric_limits<double>::infinity();
    const double low = wanted.round_up ? 1 : 1 - wanted.tolerance;
    const double high = std::min(1 + wanted.tolerance, maximum);
    // What is exactly right but for the last bits is exactly right.
    const auto cleaned = [](Measuring way) {
        if (std::abs(way.ratio - 1) < slack) way.ratio = 1;
        return way;
    };

    Measuring best{.ratio = 1, .actions = 0, .within_tolerance = false};
    const auto consider = [&](std::optional<Measuring> way, bool within) {
        if (!way) return;
        way->within_tolerance = within;
        if (better(*way, best)) best = std::move(*way);
    };
    VolumeSearch search(levels, marked);
    const auto counted = [&](const std::optional<Counts>& counts) -> std::optional<Measuring> {
        if (!counts) return std::nullopt;
        return from_counts(*counts, levels, marked, volume);
    };
    if (low <= high) {
        for (const Scale& scale : scales_) {
            consider(weigh(scale, {mass, low * mass, high * mass}, true), true);
        }
        consider(counted(search.fewest({volume, low * volume, high * volume})), true);
    }
    if (!best.steps.empty()) return cleaned(std::move(best));
    for (const Scale& scale : scales_)
        consider(weigh(scale, {mass, 0, maximum * mass}, false), false);
    consider(counted(search.nearest(volume, maximum * volume)), false);
    return cleaned(std::move(best));
}

Mass Tools::reading_error(const Measuring& way, units::Density density) const {
    Mass error;
    for (const Step& step : way.steps) {
        const Measure& tool = measures_[step.measure];
        error += (tool.kind == Measure::Kind::scale ? tool.resolution : tool.marks * density) *
                 (step.times / 2.0);
    }
    return error;
}

}  // namespace gallipot::mixing
