#include "web/plot.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace gallipot::web {
namespace {

// In units of the drawing's own; on a phone one is about one pixel.
constexpr double width = 358;
constexpr double height = 132;
constexpr double left = 40;
constexpr double right = width - 8;
constexpr double top = 12;
constexpr double base = height - 30;

std::string number(double value) {
    return fmt::format("{:.1f}", value);
}

std::string day(log::LocalTime time, const text::Catalog& words) {
    return words.day(std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(time)));
}

Html text(double x, double y, const char* anchor, const std::string& content) {
    return element("text", {{"x", number(x)}, {"y", number(y)}, {"text-anchor", anchor}},
                   {content});
}

Html line(double x1, double y1, double x2, double y2, const char* kind) {
    return lone("line", {{"x1", number(x1)},
                         {"y1", number(y1)},
                         {"x2", number(x2)},
                         {"y2", number(y2)},
                         {"class", kind}});
}

}  // namespace

Html plot(const StationState& station_state, const text::Catalog& words) {
    const auto& counts = station_state.report().counts.totals;
    if (counts.size() < 2) return {};
    const log::LocalTime from = counts.front().time;
    const log::LocalTime to = counts.back().time;
    if (from == to) return {};
    double maximum = 1;
    for (const auto& count : counts) maximum = std::max(maximum, count.seen);
    const auto x = [&](log::LocalTime time) {
        return left + (right - left) * analysis::days_between(from, time) /
                          analysis::days_between(from, to);
    };
    const auto y = [&](double seen) { return base - (base - top) * seen / maximum; };

    std::string points;
    Html dots;
    for (const auto& count : counts) {
        points += number(x(count.time)) + "," + number(y(count.seen)) + " ";
        dots += lone("circle",
                     {{"cx", number(x(count.time))}, {"cy", number(y(count.seen))}, {"r", "4"}});
    }
    Html marks;
    for (const log::Entry& entry : station_state.visits) {
        const bool filled =
            entry.visit.did.has(visit::Did::refilled) || entry.visit.did.has(visit::Did::replaced);
        if (!filled || entry.visit.time < from || entry.visit.time > to) continue;
        const double at = x(entry.visit.time);
        marks += lone("path", {{"d", fmt::format("M{:.1f} {:.1f}l-5 9h10z", at, base + 1)}});
    }
    const std::string summary =
        words("web.plot.summary", {{"first", std::int64_t(std::llround(counts.front().seen))},
                                   {"last", std::int64_t(std::llround(counts.back().seen))},
                                   {"from", day(from, words)},
                                   {"to", day(to, words)}});
    const Html drawing = element(
        "svg",
        {{"class", "plot"},
         {"viewBox", fmt::format("0 0 {} {}", width, height)},
         {"role", "img"},
         {"aria-label", summary}},
        {line(left, y(maximum), right, y(maximum), "grid"), line(left, base, right, base, "axis"),
         text(left - 8, y(maximum) + 4, "end", words.number(maximum, text::Figures::whole)),
         text(left - 8, base + 4, "end", words.number(0, text::Figures::whole)),
         text(left, height - 4, "start", day(from, words)),
         text(right, height - 4, "end", day(to, words)), marks,
         lone("polyline", {{"points", points}}), dots});
    Html caption = summary;
    if (station_state.report().trend.falls && station_state.report().trend.half) {
        const auto& half = *station_state.report().trend.half;
        const auto days = [&](double value) { return words.amount(value); };
        if (half.low && half.high)
            caption += std::string(" ") + words("web.plot.half", {{"days", days(half.days)},
                                                                  {"low", days(*half.low)},
                                                                  {"high", days(*half.high)}});
    }
    if (!marks.empty()) caption += std::string(" ") + words("web.plot.marks");
    return element("figure", {drawing, element("figcaption", {caption})});
}

}  // namespace gallipot::web
