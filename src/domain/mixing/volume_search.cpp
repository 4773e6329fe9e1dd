#include "domain/mixing/volume_search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gallipot::mixing {

namespace {

/// Sums of spoon sizes carry rounding errors; an error this small is none.
constexpr double slack = 1e-12;
constexpr long step_limit = 1'000'000;

/// How many whole times, and at least how many times; both forgive the rounding error.
double whole_times(double volume, double tool) {
    return std::floor(volume / tool + slack);
}
double at_least_times(double volume, double tool) {
    return std::ceil(volume / tool - slack);
}

}  // namespace

VolumeSearch::VolumeSearch(std::span<const Tools::Level> levels,
                           std::span<const Tools::Marked> marked)
    : levels_(levels), marked_(marked), marks_reach_(marked.size() + 1, 0.0) {
    for (std::size_t i = marked_.size(); i-- > 0;) {
        const double top = marked_[i].mark * marked_[i].maximum;
        marks_reach_[i] = marks_reach_[i + 1] + top;
        largest_mark_ = std::max(largest_mark_, top);
    }
}

void VolumeSearch::begin(const Window& window) {
    window_ = window;
    now_ = {std::vector<int>(levels_.size()), std::vector<int>(marked_.size()), 0, 0};
    best_.reset();
    steps_left_ = step_limit;
}

std::optional<Counts> VolumeSearch::fewest(const Window& window) {
    fewest_first_ = true;
    begin(window);
    if (!hopeless(0)) descend(0);
    return best_;
}

std::optional<Counts> VolumeSearch::nearest(double goal, double maximum) {
    fewest_first_ = false;
    // Every sum found narrows the window to what is nearer.
    begin({goal, 0, std::min(maximum, 2 * goal)});
    descend(0);
    if (best_) return best_;
    // Nothing at or below twice the goal: the smallest single action is the nearest.
    begin({goal, 0, maximum});
    const double minimum = [&] {
        double smallest = std::numeric_limits<double>::infinity();
        for (const auto& tool : levels_) smallest = std::min(smallest, tool.volume);
        for (const auto& tool : marked_) {
            if (tool.maximum > 0) smallest = std::min(smallest, tool.mark);
        }
        return smallest;
    }();
    window_.high = std::min(maximum, minimum * (1 + slack));
    descend(0);
    return best_;
}

/// The most that one action from this level tool on can add.
double VolumeSearch::largest_from(std::size_t tool) const {
    return std::max(tool < levels_.size() ? levels_[tool].volume : 0.0, largest_mark_);
}

/// The least number of further actions already makes it worse than the best.
bool VolumeSearch::hopeless(std::size_t next_tool) const {
    const double missing = window_.low - now_.volume;
    if (missing <= slack * window_.goal) return false;
    const double largest = largest_from(next_tool);
    if (largest <= 0) return true;
    if (!fewest_first_ || !best_) return false;
    return now_.actions + at_least_times(missing, largest) > best_->actions;
}

void VolumeSearch::offer() {
    const double give = slack * window_.goal;
    if (now_.actions == 0 || now_.volume < window_.low - give ||
        now_.volume > window_.high + give) {
        return;
    }
    if (best_) {
        const double mine = std::abs(now_.volume - window_.goal);
        const double theirs = std::abs(best_->volume - window_.goal);
        const bool nearer = mine < theirs - give, as_near = mine <= theirs + give;
        const bool fewer = now_.actions < best_->actions, as_few = now_.actions == best_->actions;
        if (fewest_first_ ? !(fewer || (as_few && nearer)) : !(nearer || (as_near && fewer)))
            return;
    }
    best_ = now_;
    if (!fewest_first_) {
        const double off = std::abs(now_.volume - window_.goal);
        window_.low = std::max(window_.low, window_.goal - off);
        window_.high = std::min(window_.high, window_.goal + off);
    }
}

void VolumeSearch::descend(std::size_t tool) {
    if (spent()) return;
    // Past the low edge more actions cannot be fewer, past the goal they cannot be nearer.
    const double enough = fewest_first_ ? window_.low : window_.goal;
    if (now_.actions > 0 && now_.volume >= enough - slack * window_.goal) {
        offer();
        return;
    }
    if (tool == levels_.size()) {
        offer();
        close_with_marks(0);
        return;
    }
    const double volume = levels_[tool].volume;
    double maximum = whole_times(window_.high - now_.volume, volume);
    if (fewest_first_ && best_) maximum = std::min(maximum, double(best_->actions - now_.actions));
    const Counts before = {{}, {}, now_.volume, now_.actions};
    for (int times = int(std::min(maximum, 1e6)); times >= 0; --times) {
        now_.levels[tool] = times;
        now_.volume = before.volume + times * volume;
        now_.actions = before.actions + times;
        if (!hopeless(tool + 1)) {
            descend(tool + 1);
        } else if (largest_from(tool + 1) <= volume) {
            break;  // fewer of this tool needs more of the smaller ones
        }
    }
    now_.levels[tool] = 0;
    now_.volume = before.volume;
    now_.actions = before.actions;
}

void VolumeSearch::close_with_marks(std::size_t tool) {
    if (tool == marked_.size()) return;
    close_with_marks(tool + 1);
    const double mark = marked_[tool].mark;
    const int top = marked_[tool].maximum;
    if (fewest_first_ && best_ && now_.actions + 1 > best_->actions) return;
    const double before = now_.volume;
    const auto use = [&](double times, bool go_on) {
        now_.marks[tool] = int(times);
        now_.volume = before + times * mark;
        ++now_.actions;
        offer();
        if (go_on) close_with_marks(tool + 1);
        --now_.actions;
        now_.marks[tool] = 0;
        now_.volume = before;
    };
    const double high = std::min(double(top), whole_times(window_.high - before, mark));
    if (high < 1) return;
    // The best mark if nothing else follows: at the goal, kept inside the window.
    const double at_goal = std::floor((window_.goal - before) / mark + 0.5);
    const double low = std::max(1.0, at_least_times(window_.low - before, mark));
    if (low <= high) use(std::clamp(at_goal, low, high), false);
    const double reach = marks_reach_[tool + 1];
    if (reach <= 0) return;
    const double lowest = std::max(1.0, at_least_times(window_.low - before - reach, mark));
    for (double times = lowest; times <= high; ++times) {
        if (spent()) return;
        use(times, true);
    }
}

}  // namespace gallipot::mixing
