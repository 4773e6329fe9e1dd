#include "web/floor_map.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace gallipot::web {
namespace {

constexpr double width = 358;  // of the drawing; on a phone one is about one pixel
constexpr double margin = 24;
constexpr double tallest = 420;

/// From metres on the floor, y upwards, to the drawing, y downwards.
class Scale {
  public:
    void hold(const job::Point& point) {
        low_x_ = std::min(low_x_, point.x.si());
        high_x_ = std::max(high_x_, point.x.si());
        low_y_ = std::min(low_y_, point.y.si());
        high_y_ = std::max(high_y_, point.y.si());
    }
    [[nodiscard]] double x(const job::Point& point) const {
        return margin + (point.x.si() - low_x_) * factor();
    }
    [[nodiscard]] double y(const job::Point& point) const {
        return margin + (high_y_ - point.y.si()) * factor();
    }
    [[nodiscard]] double height() const { return 2 * margin + (high_y_ - low_y_) * factor(); }

  private:
    [[nodiscard]] double factor() const {
        const double across = std::max(high_x_ - low_x_, 0.1);
        const double up = std::max(high_y_ - low_y_, 0.1);
        return std::min((width - 2 * margin) / across, (tallest - 2 * margin) / up);
    }
    double low_x_ = 1e9, high_x_ = -1e9, low_y_ = 1e9, high_y_ = -1e9;
};

std::string number(double value) {
    return fmt::format("{:.1f}", value);
}

Html room(const job::Room& room, const Scale& scale) {
    std::string points;
    for (const job::Point& point : room.outline)
        points += number(scale.x(point)) + "," + number(scale.y(point)) + " ";
    return lone("polygon", {{"points", points}, {"class", "room"}});
}

Html mark(const plan::Station& station, const job::Point& at, const Scale& scale) {
    constexpr double radius = 15;
    return element(
        "a", {{"href", "#stop-" + station.id}},
        {lone("circle",
              {{"cx", number(scale.x(at))}, {"cy", number(scale.y(at))}, {"r", number(radius)}}),
         element("text",
                 {{"x", number(scale.x(at))},
                  {"y", number(scale.y(at) + 4)},
                  {"text-anchor", "middle"}},
                 {station.id})});
}

}  // namespace

Html floor_map(const Page& page, const std::string& floor,
               const std::vector<std::size_t>& stations) {
    const job::Job& job = page.context.job;
    if (!job.floor_plan) return {};
    Scale scale;
    Html rooms;
    for (const job::Room& one : job.floor_plan->rooms)
        if (one.floor.main() == floor)
            for (const job::Point& point : one.outline) scale.hold(point);
    Html marks;
    for (const std::size_t index : stations)
        if (const auto& at = job.station_at(index).at) scale.hold(**at);
    for (const job::Room& one : job.floor_plan->rooms)
        if (one.floor.main() == floor) rooms += room(one, scale);
    for (const std::size_t index : stations)
        if (const auto& at = job.station_at(index).at)
            marks += mark(page.context.plan.station_at(index), **at, scale);
    if (marks.empty() || rooms.empty()) return {};
    return element("svg",
                   {{"class", "map"},
                    {"viewBox", fmt::format("0 0 {} {:.0f}", width, scale.height())},
                    {"role", "group"},
                    {"aria-label", page.words("web.round.map")}},
                   {rooms, marks});
}

}  // namespace gallipot::web
