#include <cmath>
#include <fmt/format.h>
#include <map>

#include "base/strings/ascii.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

using yaml::Kind;
using yaml::Node;

/// The area inside, by the shoelace formula; what crosses itself may have none.
double inside(const std::vector<Point>& outline) {
    double twice = 0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Point& a = outline[i];
        const Point& b = outline[(i + 1) % outline.size()];
        twice += units::in_m(a.x) * units::in_m(b.y) - units::in_m(b.x) * units::in_m(a.y);
    }
    return std::abs(twice) / 2;
}

std::vector<Point> read_outline(const Node& node, const Key& key, ReadContext& context) {
    if (node.kind != Kind::sequence) {
        context.out.error("wrong-type", node.place, "an outline is a list of points",
                          "write a point for each corner: [[x, y], [x, y], [x, y]], in metres");
        return {};
    }
    const auto count = static_cast<double>(node.items.size());
    if (count < key.minimum || count > key.maximum) {
        context.out.error(
            count < key.minimum ? "too-few" : "too-many", node.place,
            diag::say("a room has {} to {} corners, not {}", key.minimum, key.maximum, count),
            count < key.minimum ? "add the other corners: [x, y] in metres for each"
                                : "leave corners out");
        return {};
    }
    std::vector<Point> outline;
    for (const Node& item : node.items) {
        const auto point = read_point(item, key, context);
        if (!point) return {};
        outline.push_back(**point);
    }
    constexpr double smallest = 0.01;  // m2
    if (inside(outline) < smallest) {
        context.out.error("flat-room", node.place, "these corners enclose no area",
                          "write the corners in metres, in order around the room");
    }
    return outline;
}

Room read_room(const Node& node, ReadContext& context) {
    const Fields fields(node, "floor_plan.rooms.*", "the room", context);
    Room room;
    keep(room.name, fields.local_text("name"));
    if (const auto floor = fields.local_text("floor")) room.floor = **floor;
    if (const Node* outline = fields.find("outline")) {
        room.outline = read_outline(*outline, fields.rule("outline"), context);
    }
    return room;
}

}  // namespace

void read_floor_plan(const Fields& top, Job& job, ReadContext& context) {
    const Node* node = top.find("floor_plan");
    if (node == nullptr) return;
    const Fields fields(*node, "floor_plan", "floor_plan", context);
    FloorPlan plan;
    plan.start = fields.point("start");
    std::map<std::pair<std::string, std::string>, int> lines;
    for (const Node& item : fields.list("rooms")) {
        Room room = read_room(item, context);
        const auto [first, is_new] = lines.emplace(
            std::pair(strings::to_lower(room.floor.main()), strings::to_lower(room.name->main())),
            room.name.place.line);
        if (!is_new && was_read(room.name)) {
            context.out.error("duplicate-name", room.name.place,
                              diag::say("there is a room '{}' already, on line {}",
                                        room.name->main(), first->second),
                              "give each room on a floor a name of its own");
        }
        plan.rooms.push_back(std::move(room));
    }
    job.floor_plan = std::move(plan);
}

}  // namespace gallipot::job
