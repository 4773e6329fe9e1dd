#include "papers/document/floor_drawing.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "domain/plan/rooms.hpp"
#include "domain/plan/walk.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

FloorDrawing::Point point(job::Point p) {
    return {units::in_m(p.x), units::in_m(p.y)};
}

Mark mark_of(const job::Station& station) {
    if (station.control) return Mark::ring;
    return station.sprayed() ? Mark::square : Mark::disc;
}

/// Whether the walk begins on this floor: in one of its rooms, or outdoors on the first floor.
bool begins_on(const job::Job& job, const std::string& floor) {
    if (!job.floor_plan || !job.floor_plan->start) return false;
    bool in_any = false;
    for (const job::Room& room : job.floor_plan->rooms) {
        if (!plan::inside(room.outline, **job.floor_plan->start)) continue;
        if (room.floor.main() == floor) return true;
        in_any = true;
    }
    return !in_any && plan::floors(job).front() == floor;
}

/// Round scales, each with a bar of 40 or 50 mm.
std::vector<FloorDrawing::Scale> scales(const Catalog& words) {
    const bool us = words.shows_in().sizes == units::UnitSystem::us;
    std::vector<FloorDrawing::Scale> all;
    for (int power = 10; power <= 100'000; power *= 10) {
        for (const int first : {1, 2, 5}) {
            const int one_to = first * power;
            // 1:10 has a bar of half a metre, 1:20 one of 1 m, 1:50 one of 2 m, and so on.
            const double bar = power * (first == 1 ? 0.05 : first == 2 ? 0.1 : 0.2);
            all.push_back({static_cast<double>(one_to),
                           words.rich("placement.scale", {{"n", std::to_string(one_to)}}), bar,
                           us ? regular(words.usual(units::m(bar)))
                              : words.rich("placement.bar", {{"n", words.amount(bar)}})});
        }
    }
    return all;
}

}  // namespace

std::string in_words(const FloorDrawing& drawing, const Catalog& words) {
    std::vector<std::string> rooms, spots;
    for (const auto& room : drawing.rooms) rooms.push_back(text::plain(room.name));
    for (const auto& spot : drawing.spots) spots.push_back(spot.name);
    if (rooms.empty()) return words("alt.floor_spots", {{"spots", words.list(spots)}});
    if (spots.empty()) return words("alt.floor_rooms", {{"rooms", words.list(rooms)}});
    return words("alt.floor", {{"rooms", words.list(rooms)}, {"spots", words.list(spots)}});
}

FloorDrawing floor_drawing(const job::Job& job, const std::string& floor, const Catalog& words) {
    FloorDrawing drawing;
    if (!job.floor_plan) return drawing;
    for (const job::Room& room : job.floor_plan->rooms) {
        if (room.floor.main() != floor) continue;
        FloorDrawing::Room drawn{regular(room.name->in(words.tag())), {}};
        for (const job::Point& corner : room.outline) drawn.outline.push_back(point(corner));
        drawing.rooms.push_back(std::move(drawn));
    }
    for (const job::Station& station : job.stations)
        if (station.at && plan::floor_of(job, station) == floor)
            drawing.spots.push_back({*station.id, mark_of(station), point(**station.at)});
    if (begins_on(job, floor))
        drawing.spots.push_back(
            {words("placement.start"), Mark::cross, point(**job.floor_plan->start)});
    drawing.scales = scales(words);
    drawing.no_room = words.rich("placement.no_room");
    drawing.comma = mark(words, Join::comma);
    drawing.alternative = in_words(drawing, words);
    return drawing;
}

PlotKey floor_key(const FloorDrawing& floor, const Catalog& words) {
    PlotKey key;
    key.in_line = true;
    for (const auto& [mark, text] :
         std::array<std::pair<Mark, const char*>, 4>{{{Mark::disc, "bait"},
                                                      {Mark::square, "spray"},
                                                      {Mark::ring, "control"},
                                                      {Mark::cross, "start"}}}) {
        if (std::any_of(floor.spots.begin(), floor.spots.end(),
                        [wanted = mark](const auto& spot) { return spot.mark == wanted; }))
            key.entries.push_back({mark, words.rich(std::string("placement.key.") + text)});
    }
    return key;
}

}  // namespace gallipot::document
