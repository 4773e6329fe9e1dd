#include "papers/layout/name_places.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace gallipot::layout {

namespace {

constexpr double gap = 0.5;         // mm, between a name and what is above or below it
constexpr double gap_beside = 1.0;  // mm: two names in a line would be read as one

Box grown(const Box& box, double by) {
    return {box.x - by, box.y - by, box.width + 2 * by, box.height + 2 * by};
}

/// What must be free for a name.
Box with_gaps(const Box& name) {
    return {name.x - gap_beside, name.y - gap, name.width + 2 * gap_beside, name.height + 2 * gap};
}

/// Whether a line passes through a box, by clipping it (Liang and Barsky 1984).
bool crosses(const Segment& line, const Box& box) {
    double enter = 0, leave = 1;
    const auto clip = [&](double by, double room) {
        if (by == 0) return room > 0;
        if (by < 0)
            enter = std::max(enter, room / by);
        else
            leave = std::min(leave, room / by);
        return enter < leave;
    };
    const double dx = line.to.x - line.from.x, dy = line.to.y - line.from.y;
    return clip(-dx, line.from.x - box.x) && clip(dx, box.right() - line.from.x) &&
           clip(-dy, line.from.y - box.y) && clip(dy, box.bottom() - line.from.y);
}

/// On which side of a line a point lies: the sign says it.
double side(const Segment& line, Point p) {
    return (line.to.x - line.from.x) * (p.y - line.from.y) -
           (line.to.y - line.from.y) * (p.x - line.from.x);
}

bool crosses(const Segment& a, const Segment& b) {
    return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}

/// From the edge of a mark to the nearest point of a name.
Segment leader_to(const Box& name, Point at, double across) {
    const Box box = grown(name, gap / 2);
    const Point to{std::clamp(at.x, box.x, box.right()), std::clamp(at.y, box.y, box.bottom())};
    const double share = across / 2 / std::hypot(to.x - at.x, to.y - at.y);
    return {{at.x + (to.x - at.x) * share, at.y + (to.y - at.y) * share}, to};
}

/// Where a name may stand round its mark: 1 to the right or down, -1 to the left or up.
struct Direction {
    double right, down;
};
constexpr Direction directions[] = {
    {1, 0},    {-1, 0},    {0, -1},  {0, 1},    {1, -1},   {-1, -1},   {1, 1},   {-1, 1},
    {1, -0.5}, {-1, -0.5}, {1, 0.5}, {-1, 0.5}, {0.5, -1}, {-0.5, -1}, {0.5, 1}, {-0.5, 1}};

Box placed(Point at, double away, Direction to, Size name) {
    return {at.x + to.right * (away + name.width / 2) - name.width / 2,
            at.y + to.down * (away + name.height / 2) - name.height / 2, name.width, name.height};
}

Box bounds(const std::vector<Point>& outline) {
    const auto [left, right] = std::ranges::minmax(outline, {}, &Point::x);
    const auto [top, bottom] = std::ranges::minmax(outline, {}, &Point::y);
    return {left.x, top.y, right.x - left.x, bottom.y - top.y};
}

}  // namespace

bool inside(const std::vector<Point>& outline, Point point) {
    bool in = false;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
        const Point& a = outline[i];
        const Point& b = outline[j];
        if ((a.y > point.y) == (b.y > point.y)) continue;
        if (point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x)) in = !in;
    }
    return in;
}

bool NamePlaces::free(const Box& box, Walls walls) const {
    const Box wide = with_gaps(box), near = grown(box, gap);
    const auto crossed = [&](const Segment& line) { return crosses(line, near); };
    return frame_.contains(wide) &&
           std::ranges::none_of(taken_, [&](const Box& other) { return wide.overlaps(other); }) &&
           std::ranges::none_of(leaders_, crossed) &&
           (walls == Walls::under || std::ranges::none_of(walls_, crossed));
}

bool NamePlaces::free(const Segment& leader, Point mark) const {
    return std::ranges::none_of(taken_,
                                [&](const Box& box) {
                                    const bool own = box.contains({mark.x, mark.y, 0, 0});
                                    return !own && crosses(leader, box);
                                }) &&
           std::ranges::none_of(leaders_,
                                [&](const Segment& other) { return crosses(leader, other); });
}

std::optional<NamePlace> NamePlaces::at_distance(Point at, double across, double distance,
                                                 Size name, Walls walls) const {
    for (const Direction& to : directions) {
        const Box box = placed(at, across / 2 + gap + 0.4 + distance, to, name);
        if (!free(box, walls)) continue;
        if (distance == 0) return NamePlace{box, std::nullopt};
        const Segment leader = leader_to(box, at, across);
        if (free(leader, at)) return NamePlace{box, leader};
    }
    return std::nullopt;
}

NamePlace NamePlaces::take(const NamePlace& place) {
    taken_.push_back(place.box);
    if (place.leader) leaders_.push_back(*place.leader);
    return place;
}

std::optional<NamePlace> NamePlaces::near(Point at, double across, Size name) {
    struct Try {
        double distance;
        Walls walls;
    };
    // Rather on a wall than far away.
    for (const Try& one :
         {Try{0, Walls::clear}, Try{2, Walls::clear}, Try{3.5, Walls::clear}, Try{5, Walls::clear},
          Try{7, Walls::clear}, Try{9, Walls::clear}, Try{0, Walls::under}, Try{2, Walls::under},
          Try{5, Walls::under}, Try{9, Walls::under}, Try{14, Walls::under}, Try{20, Walls::under},
          Try{28, Walls::under}, Try{38, Walls::under}})
        if (const auto place = at_distance(at, across, one.distance, name, one.walls))
            return take(*place);
    return std::nullopt;
}

double NamePlaces::badness(const std::optional<NamePlace>& place) const {
    constexpr double without = 1000, on_wall = 20, with_line = 3;
    if (!place) return without;
    double bad = 0;
    const Box near = grown(place->box, gap);
    if (std::ranges::any_of(walls_, [&](const Segment& wall) { return crosses(wall, near); }))
        bad += on_wall;
    if (const auto& line = place->leader)
        bad += with_line + std::hypot(line->to.x - line->from.x, line->to.y - line->from.y);
    return bad;
}

namespace {

/// Orders to place names in, each a list of indices: as they come, from left to right, from above,
/// and every second one of these first, for rows so close that the names must stand in two lines.
std::vector<std::vector<std::size_t>> orders(const std::vector<NamePlaces::Named>& all) {
    std::vector<std::size_t> given(all.size());
    std::iota(given.begin(), given.end(), std::size_t{0});
    std::vector<std::size_t> across = given, down = given;
    std::ranges::stable_sort(across, {}, [&](std::size_t i) { return all[i].at.x; });
    std::ranges::stable_sort(down, {}, [&](std::size_t i) {
        return std::pair{std::round(all[i].at.y), all[i].at.x};
    });
    std::vector<std::vector<std::size_t>> made{given, across, down};
    for (int i = 0; i < 3; ++i) {
        std::vector<std::size_t> first, second;
        for (std::size_t n = 0; n < all.size(); ++n)
            (n % 2 == 0 ? first : second).push_back(made[static_cast<std::size_t>(i)][n]);
        first.insert(first.end(), second.begin(), second.end());
        made.push_back(std::move(first));
    }
    for (int i = 0; i < 6; ++i) {
        made.push_back(made[static_cast<std::size_t>(i)]);
        std::ranges::reverse(made.back());
    }
    return made;
}

}  // namespace

std::vector<std::optional<NamePlace>> NamePlaces::near(const std::vector<Named>& all) {
    // Of more it takes too long.
    constexpr std::size_t most = 40;
    const auto tries = orders(all);
    std::vector<std::optional<NamePlace>> best;
    NamePlaces kept = *this;
    double least = 0;
    for (std::size_t i = 0; i < (all.size() > most ? 1 : tries.size()); ++i) {
        NamePlaces trial = *this;
        std::vector<std::optional<NamePlace>> places(all.size());
        double bad = 0;
        for (const std::size_t n : tries[i]) {
            places[n] = trial.near(all[n].at, all[n].across, all[n].name);
            bad += badness(places[n]);
        }
        if (!best.empty() && bad >= least) continue;
        best = std::move(places);
        kept = std::move(trial);
        least = bad;
        if (bad == 0) break;
    }
    *this = std::move(kept);
    return best;
}

std::optional<NamePlace> NamePlaces::within(const std::vector<Point>& outline, Size name) {
    constexpr int steps = 20;  // 21 by 21 places in the room
    const Box room = bounds(outline);
    const double wide = room.width - name.width, high = room.height - name.height;
    if (wide < 0 || high < 0) return std::nullopt;
    std::optional<Box> best;
    double best_away = 0;
    for (int row = 0; row <= steps; ++row) {
        for (int column = 0; column <= steps; ++column) {
            const double right = wide * (static_cast<double>(column) / steps - 0.5);
            const double down = high * (static_cast<double>(row) / steps - 0.5);
            const double away = std::hypot(right, down);
            if (best && away >= best_away) continue;
            const Box box{room.x + wide / 2 + right, room.y + high / 2 + down, name.width,
                          name.height};
            const Point middle{box.x + box.width / 2, box.y + box.height / 2};
            if (!inside(outline, middle) || !free(box, Walls::clear)) continue;
            best = box;
            best_away = away;
        }
    }
    if (!best) return std::nullopt;
    return take({*best, std::nullopt});
}

}  // namespace gallipot::layout
