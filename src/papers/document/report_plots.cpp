#include "papers/document/report_plots.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "domain/plan/rooms.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/station_history.hpp"
#include "papers/document/verdict_words.hpp"

namespace gallipot::document {

namespace {

using analysis::LocalTime;
using analysis::Observation;

constexpr double full = 100;
constexpr double counts_share = 3, level_share = 1;

/// The smallest of 1, 2 and 5 times a power of ten that divides `range` into at most `parts`.
double nice_step(double range, int parts) {
    const double raw = range / parts;
    const double power = std::pow(10, std::floor(std::log10(raw)));
    for (const double factor : {1.0, 2.0, 5.0})
        if (factor * power >= raw * (1 - 1e-9)) return factor * power;
    return 10 * power;
}

/// Days between the dates of the axis: weeks where they serve, at most `parts` steps.
double day_step(double range, int parts) {
    constexpr std::array steps{1.0, 2.0, 4.0, 7.0, 14.0, 28.0, 56.0, 91.0, 182.0, 365.0};
    for (const double step : steps)
        if (range / step <= parts) return step;
    return nice_step(range, parts);
}

using Means = std::map<analysis::Day, double>;
/// By pest, and by the unit that they are counted in.
using ControlMeans = std::map<std::pair<std::string, analysis::ExposureUnit>, Means>;

/// Of the control stations that a pest is compared with, their mean on each day that any was
/// counted: in one minute or trap night.
Means control_means(const PlotSource& source, const std::string& pest,
                    analysis::ExposureUnit unit) {
    std::map<analysis::Day, std::pair<double, int>> sums;
    for (std::size_t i = 0; i < source.sites.size(); ++i) {
        const analysis::Counts& counts = source.report.stations[i].counts;
        if (!source.sites[i].compares_with(pest) || counts.unit != unit) continue;
        for (const analysis::Total& total : counts.totals) {
            auto& [sum, number] = sums[analysis::day_of(total.time)];
            sum += total.seen / counts.exposure;
            ++number;
        }
    }
    Means means;
    for (const auto& [day, sum] : sums) means[day] = sum.first / sum.second;
    return means;
}

/// A straight line fits what fell, or rose; not what fell and came back.
bool has_line(const analysis::Trend& trend) {
    return trend.decline.fitted == analysis::Fitted::yes && trend.decline.degrees_of_freedom > 0 &&
           !trend.rebounds;
}

bool troubled(const Observation& o) {
    return !o.state.empty();
}
bool filled(const Observation& o) {
    return o.did.has(visit::Did::refilled) || o.did.has(visit::Did::replaced);
}

/// Something else was done there.
bool set_right(const Observation& o) {
    using visit::Did;
    return o.did.has(Did::moved) || o.did.has(Did::cleared) || o.did.has(Did::placed);
}

/// Draws one station.
class StationPlot {
  public:
    /// `dates`: steps between dates on its axis, at most.
    StationPlot(const PlotSource& source, std::size_t index, const Means& controls, int dates)
        : source_(source),
          dates_(dates),
          site_(source.sites[index]),
          report_(source.report.stations[index]),
          history_(source.histories.until(index, source.report.as_of)),
          controls_(controls) {
        if (!site_.control && !site_.sprayed) paths_ = analysis::level_paths(site_, history_);
        start_ = site_.placed       ? *site_.placed
                 : history_.empty() ? LocalTime(source.report.as_of)
                                    : history_.front().time;
    }

    [[nodiscard]] bool anything() const {
        return !report_.counts.empty() || std::ranges::any_of(history_, [](const Observation& o) {
            return o.level_read() || filled(o) || troubled(o);
        });
    }

    [[nodiscard]] Plot make(StyledText title) {
        plot_.title = std::move(title);
        set_days();
        plot_.panels.push_back(counts_panel());
        if (!paths_.empty()) plot_.panels.push_back(level_panel());
        plot_.alternative = in_words();
        return std::move(plot_);
    }

  private:
    /// What was counted and when, for who does not see it.
    [[nodiscard]] std::string in_words() const {
        const text::Catalog& words = source_.words;
        std::vector<std::string> counts;
        for (const analysis::Total& total : report_.counts.totals)
            counts.push_back(words(
                "alt.plot_count",
                {{"seen", count_text(total.seen, words)},
                 {"day", words.day(std::chrono::year_month_day(analysis::day_of(total.time)))}}));
        if (counts.empty()) return words("alt.plot_levels");
        return words("alt.plot", {{"counts", words.list(counts)}});
    }

    [[nodiscard]] double day(LocalTime time) const { return analysis::days_between(start_, time); }

    void set_days() {
        double low = 0;
        double high = day(source_.report.as_of + std::chrono::hours(12));
        for (const Observation& o : history_) {
            low = std::min(low, day(o.time));
            high = std::max(high, day(o.time));
        }
        high = std::max(high, 1.0);
        // The foreseen end of the bait is drawn while it does not squeeze the rest.
        if (const analysis::Level* level = report_.feeding.first_empty()) {
            const double empty = day(level->empty->at);
            if (empty > high && empty <= low + 1.5 * (high - low)) high = empty;
        }
        const double step = day_step(high - low, dates_);
        plot_.low = low;
        plot_.high = high;
        for (double at = std::ceil(low / step - 1e-9) * step; at <= high + 1e-9; at += step) {
            const auto day = analysis::day_of(analysis::days_after(start_, at));
            plot_.ticks.push_back({at, near_day(day, source_.report.as_of, source_.words)});
        }
    }

    Plot::Panel counts_panel() {
        Plot::Panel panel;
        panel.share = counts_share;
        Plot::Marks seen{Mark::disc, {}};
        for (const analysis::Total& total : report_.counts.totals)
            seen.points.push_back({day(total.time), total.seen});
        Plot::Curve control{{}, Stroke::dashed};
        Plot::Marks control_seen{Mark::ring, {}};
        if (!report_.control) {
            for (const auto& [on, mean] : controls_) {
                const double x = day(on + std::chrono::hours(12));
                if (x < plot_.low || x > plot_.high) continue;
                control.points.push_back({x, mean * report_.counts.exposure});
            }
            control_seen.points = control.points;
        }
        double highest = 0;
        for (const auto& p : seen.points) highest = std::max(highest, p.y);
        for (const auto& p : control.points) highest = std::max(highest, p.y);
        const Plot::Curve line = fitted();
        for (const auto& p : line.points) highest = std::max(highest, p.y);

        // The highest mark keeps clear of the frame.
        constexpr double headroom = 1.08;
        const double step = highest > 0 ? std::max(nice_step(highest, 3), 1.0) : 1;
        panel.high = std::max(std::ceil(highest * headroom / step - 1e-9) * step, step);
        for (double at = 0; at <= panel.high + 1e-9; at += step)
            panel.ticks.push_back({at, source_.words.number(at, text::Figures::whole)});
        if (const Plot::Band band = fitted_band(panel.high); !band.low.empty())
            panel.bands.push_back(band);
        if (!line.points.empty()) panel.curves.push_back(line);
        if (!control.points.empty()) {
            panel.curves.push_back(control);
            panel.marks.push_back(control_seen);
        }
        panel.marks.push_back(seen);
        return panel;
    }

    /// Days at which the fitted line is drawn: between first and last count, never beyond.
    [[nodiscard]] std::vector<double> fitted_days() const {
        constexpr int pieces = 40;
        const auto& totals = report_.counts.totals;
        if (!has_line(report_.trend)) return {};
        std::vector<double> days;
        const double first = report_.trend.drawn ? analysis::days_between(report_.counts.start,
                                                                          report_.trend.drawn->time)
                                                 : 0;
        const double last = analysis::days_between(report_.counts.start, totals.back().time);
        for (int i = 0; i <= pieces; ++i) days.push_back(first + (last - first) * i / pieces);
        return days;
    }

    [[nodiscard]] double fitted_x(double since_first_count) const {
        return since_first_count + day(report_.counts.start);
    }

    [[nodiscard]] Plot::Curve fitted() const {
        Plot::Curve curve{{}, Stroke::solid};
        for (const double at : fitted_days()) {
            double sum = 0;
            for (std::size_t g = 0; g < report_.counts.groups.size(); ++g)
                if (report_.trend.decline.total[g] > 0)
                    sum += report_.trend.decline.expected(g, at);
            curve.points.push_back({fitted_x(at), sum});
        }
        return curve;
    }

    /// Only of one series: the containers' lines share their slope, so their bands cannot be added.
    [[nodiscard]] Plot::Band fitted_band(double highest) const {
        Plot::Band band;
        if (report_.counts.groups.size() != 1) return band;
        for (const double at : fitted_days()) {
            const auto range =
                report_.trend.decline.expected_interval(0, at, report_.trend.dispersion);
            band.low.push_back({fitted_x(at), std::min(range.low, highest)});
            band.high.push_back({fitted_x(at), std::min(range.high, highest)});
        }
        return band;
    }

    Plot::Panel level_panel() {
        Plot::Panel panel;
        panel.share = level_share;
        panel.high = full;
        for (const double at : {0.0, full})
            panel.ticks.push_back({at, source_.words.percent(at / full)});
        for (std::size_t i = 0; i < paths_.size(); ++i) {
            Plot::Curve curve{{}, Stroke::solid};
            for (const auto& [time, percent] : paths_[i])
                curve.points.push_back({std::clamp(day(time), plot_.low, plot_.high), percent});
            panel.curves.push_back(std::move(curve));
            add_foreseen(panel, report_.feeding.levels[i]);
        }
        Plot::Marks fillings{Mark::triangle, {}}, troubles{Mark::cross, {}},
            others{Mark::square, {}};
        constexpr double near_top = 90, near_bottom = 15;
        for (const Observation& o : history_) {
            if (filled(o)) fillings.points.push_back({day(o.time), near_top});
            if (troubled(o)) troubles.points.push_back({day(o.time), near_bottom});
            if (set_right(o)) others.points.push_back({day(o.time), near_bottom});
        }
        panel.marks = {std::move(fillings), std::move(troubles), std::move(others)};
        return panel;
    }

    void add_foreseen(Plot::Panel& panel, const analysis::Level& level) const {
        if (!level.empty) return;
        const double from = day(level.as_read), to = day(level.empty->at);
        const double end = std::min(to, plot_.high);
        if (end <= from) return;
        const double left = *level.left_percent;
        panel.curves.push_back(
            {{{from, left}, {end, left * (to - end) / (to - from)}}, Stroke::dashed});
    }

    const PlotSource& source_;
    int dates_;
    const analysis::Site& site_;
    const analysis::StationReport& report_;
    std::span<const Observation> history_;
    const Means& controls_;
    std::vector<analysis::LevelPath> paths_;
    LocalTime start_{};
    Plot plot_;
};

}  // namespace

Plots report_plots(const PlotSource& source, std::size_t most) {
    ControlMeans controls;
    const auto of = [&](std::size_t i) {
        return std::pair(source.sites[i].pest, source.report.stations[i].counts.unit);
    };
    for (std::size_t i = 0; i < source.sites.size(); ++i)
        if (!controls.contains(of(i)))
            controls[of(i)] = control_means(source, of(i).first, of(i).second);
    std::map<std::string, std::size_t> index;
    for (std::size_t i = 0; i < source.job.stations.size(); ++i)
        index[*source.job.stations[i].id] = i;

    Plots all;
    const bool few = source.sites.size() <= most;
    std::vector<std::size_t> drawn = analysis::worst_first(source.report);
    if (drawn.size() > most) drawn.resize(most);
    if (!few) all.across = 3;
    constexpr int dates_of_two = 4, dates_of_three = 2;
    const auto add = [&](std::size_t i) {
        if (!few && std::ranges::find(drawn, i) == drawn.end()) return;
        StationPlot plot(source, i, controls.at(of(i)), few ? dates_of_two : dates_of_three);
        if (!plot.anything()) return;
        const std::string where = where_in_report(source.job, i, source.words);
        all.plots.push_back(
            plot.make(regular(source.sites[i].id + (where.empty() ? "" : " ") + where)));
    };
    for (const job::Station* station : plan::by_room(source.job)) add(index.at(*station->id));
    // What was taken up comes last.
    for (std::size_t i = source.job.stations.size(); i < source.sites.size(); ++i) add(i);
    return all;
}

PlotKey report_plot_key(const PlotSource& source) {
    bool seen = false, fit = false, control = false, level = false, foreseen = false,
         filling = false, trouble = false, other = false;
    for (std::size_t i = 0; i < source.sites.size(); ++i) {
        const analysis::StationReport& station = source.report.stations[i];
        const bool container = !station.control && !source.sites[i].sprayed;
        seen |= !station.counts.empty();
        control |= station.control && !station.counts.empty();
        fit |= has_line(station.trend);
        foreseen |= station.feeding.first_empty() != nullptr;
        for (const Observation& o : source.histories.until(i, source.report.as_of)) {
            level |= container && o.level_read();
            filling |= container && filled(o);
            trouble |= container && troubled(o);
            other |= container && set_right(o);
        }
    }
    PlotKey key;
    const auto add = [&](bool wanted, std::variant<Mark, Stroke> sign, const char* text,
                         bool band = false) {
        if (wanted) key.entries.push_back({sign, source.words.rich(text), band});
    };
    add(seen, Mark::disc, "report.plots.seen");
    add(fit, Stroke::solid, "report.plots.fitted", true);
    add(control, Mark::ring, "report.plots.control");
    add(level, Stroke::solid, "report.plots.level");
    add(foreseen, Stroke::dashed, "report.plots.foreseen");
    add(filling, Mark::triangle, "report.plots.filled");
    add(trouble, Mark::cross, "report.plots.trouble");
    add(other, Mark::square, "report.plots.moved");
    return key;
}

}  // namespace gallipot::document
