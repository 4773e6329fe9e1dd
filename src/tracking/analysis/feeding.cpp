#include "tracking/analysis/feeding.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "tracking/analysis/container_state.hpp"
#include "tracking/analysis/quantile.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

using visit::Did;
using visit::State;

constexpr double full = 100;
constexpr double confidence = 0.95;
/// So many days after a known level, so much less.
struct Drop {
    double days = 0, percent = 0;
};

/// Between two fillings.
struct Stretch {
    LocalTime from{};
    double level = full;
    std::vector<Drop> drops;
};

/// Follows one container (or all, seen as one) through its visits.
class Track {
  public:
    Track(int container, std::optional<LocalTime> placed) : container_(container) {
        if (placed) put_out(*placed, 1);
    }

    void see(const Observation& o) {
        if (o.level_read()) read(o);
        const bool replaced = o.did.has(Did::replaced);
        if (o.did.has(Did::removed)) {
            if (standing_) taken_back_ += left_ / full;
            standing_ = missing_ = false;
        } else if (replaced) {
            if (standing_ && o.level_read()) taken_back_ += left_ / full;
            put_out(o.time, 1);
        } else if (o.did.has(Did::refilled)) {
            at_most_ = at_most_ || !o.level_read();
            put_out(o.time, o.level_read() ? (full - left_) / full : 1);
            filled_.reset();
        } else if (o.state.has(State::missing)) {
            missing_ = missing_ || standing_;
            standing_ = false;
        } else if (o.did.has(Did::placed) && missing_) {
            standing_ = true;  // found again, with what was in it
            missing_ = false;
        } else if (o.did.has(Did::placed) && !standing_) {
            put_out(o.time, 1);
        }
    }

    [[nodiscard]] Level level() const {
        Level result;
        result.container = container_;
        if (!standing_) return result;
        result.left_percent = left_;
        result.as_read = left_at_;
        result.filled = filled_;
        const auto rate = rate_of(recent_drops());
        if (!rate) return result;
        result.percent_per_day = rate->first;
        result.rate = rate->second;
        if (rate->first > 0 && left_ > 0) {
            Forecast empty{days_after(left_at_, left_ / rate->first),
                           days_after(left_at_, left_ / rate->second.high),
                           {}};
            if (rate->second.low > 0) empty.high = days_after(left_at_, left_ / rate->second.low);
            result.empty = empty;
        }
        return result;
    }

    [[nodiscard]] const LevelPath& path() const { return path_; }

    /// Counted in this container.
    [[nodiscard]] Used used() const {
        return {put_out_, put_out_ - taken_back_ - (standing_ ? left_ / full : 0), at_most_};
    }

  private:
    void put_out(LocalTime time, double containers) {
        put_out_ += containers;
        if (standing_ && path_.back().first < time) path_.emplace_back(time, left_);
        start(time, full);
        filled_ = time;
    }

    void start(LocalTime time, double level) {
        stretches_.push_back({time, level, {}});
        path_.emplace_back(time, level);
        left_ = level;
        left_at_ = time;
        standing_ = true;
        missing_ = false;
        filled_.reset();
    }

    void read(const Observation& o) {
        const double level = o.level_percent;
        if (!standing_) {
            // Unless it was found again nobody noted when it was set out: it was filled once, some
            // time before.
            if (!missing_) put_out_ += 1;
            start(o.time, level);
        } else if (o.state.has(State::wet) || o.state.has(State::spilt)) {
            start(o.time, level);
        } else if (level > left_ + rules::risen) {
            put_out_ += (level - left_) / full;
            start(o.time, level);
        } else {
            Stretch& stretch = stretches_.back();
            stretch.drops.push_back({days_between(stretch.from, o.time), stretch.level - level});
            path_.emplace_back(o.time, level);
            left_ = level;
            left_at_ = o.time;
        }
    }

    /// Of the last two stretches in which any was read: the pests come and go, but a container just
    /// filled tells nothing by itself yet.
    [[nodiscard]] std::vector<Drop> recent_drops() const {
        std::vector<Drop> drops;
        int stretches = 0;
        for (auto stretch = stretches_.rbegin(); stretch != stretches_.rend() && stretches < 2;
             ++stretch) {
            if (stretch->drops.empty()) continue;
            drops.insert(drops.end(), stretch->drops.begin(), stretch->drops.end());
            ++stretches;
        }
        return drops;
    }

    /// Percent a day by least squares through the known level each stretch began with, and its
    /// interval: from how well a level is read, or from the scatter when that is more.
    static std::optional<std::pair<double, Interval>> rate_of(const std::vector<Drop>& drops) {
        double squares = 0, products = 0, residual = 0;
        for (const Drop& drop : drops) {
            squares += drop.days * drop.days;
            products += drop.days * drop.percent;
        }
        if (squares == 0) return std::nullopt;
        const double rate = products / squares;
        for (const Drop& drop : drops) residual += std::pow(drop.percent - rate * drop.days, 2);
        double reach =
            t_quantile(confidence, std::numeric_limits<double>::infinity()) * rules::reading_error;
        if (drops.size() > 1) {
            const auto df = static_cast<double>(drops.size() - 1);
            const double scatter = std::sqrt(residual / df);
            if (scatter > rules::reading_error) reach = t_quantile(confidence, df) * scatter;
        }
        reach /= std::sqrt(squares);
        return std::pair{rate, Interval{rate - reach, rate + reach}};
    }

    int container_;
    std::vector<Stretch> stretches_;
    LevelPath path_;
    bool standing_ = false;
    bool missing_ = false;  ///< it stood there until it was
    double left_ = full;
    LocalTime left_at_{};
    std::optional<LocalTime> filled_;
    double put_out_ = 0, taken_back_ = 0;
    bool at_most_ = false;
};

/// One track for the station as a whole, or one a container where any was looked at by itself.
std::vector<Track> follow(const Site& site, std::span<const Observation> history) {
    const bool one_by_one =
        site.containers > 1 && std::ranges::any_of(history, [](const Observation& o) {
            return o.container > 0 &&
                   (o.level_read() || !o.did.empty() || o.state.has(State::missing) ||
                    o.state.has(State::wet) || o.state.has(State::spilt));
        });
    std::vector<Track> tracks;
    if (!one_by_one) {
        tracks.emplace_back(0, site.placed);
        for (const Observation& o : history)
            if (o.container == 0 || site.containers < 2) tracks.front().see(o);
        return tracks;
    }
    for (int number = 1; number <= site.containers; ++number) {
        tracks.emplace_back(number, site.placed);
        ContainerFold container(site, number);
        for (const Observation& o : history)
            if (container.see(o)) tracks.back().see(o);
    }
    return tracks;
}

}  // namespace

const Level* Feeding::of(int container) const {
    for (const Level& level : levels)
        if (level.container == container || level.container == 0) return &level;
    return nullptr;
}

const Level* Feeding::first_empty() const {
    const Level* first = nullptr;
    for (const Level& level : levels)
        if (level.empty && (first == nullptr || level.empty->at < first->empty->at)) first = &level;
    return first;
}

Feeding feeding_of(const Site& site, std::span<const Observation> history) {
    const std::vector<Track> tracks = follow(site, history);
    const double each = tracks.size() > 1 ? 1 : site.containers;
    Feeding result;
    for (const Track& track : tracks) {
        result.levels.push_back(track.level());
        const Used used = track.used();
        result.used.put_out += each * used.put_out;
        result.used.gone += each * used.gone;
        result.used.at_most = result.used.at_most || used.at_most;
    }
    return result;
}

std::vector<LevelPath> level_paths(const Site& site, std::span<const Observation> history) {
    std::vector<LevelPath> paths;
    for (const Track& track : follow(site, history)) paths.push_back(track.path());
    return paths;
}

}  // namespace gallipot::analysis
