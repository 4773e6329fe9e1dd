#include <algorithm>
#include <fmt/format.h>
#include <set>

#include "domain/job/sections.hpp"
#include "domain/reference/premises.hpp"

namespace gallipot::job {

namespace {

using diag::Diagnostics;

/// Where the station says that this is near; null where it does not.
const Place* place_of(const Station& station, Near what) {
    const auto found = std::find_if(station.near.begin(), station.near.end(),
                                    [&](const At<Near>& near) { return *near == what; });
    return found == station.near.end() ? nullptr : &found->place;
}

void on_openings(const Job& job, const Station& station, Diagnostics& out) {
    const Container* container = station.container ? job.container(**station.container) : nullptr;
    if (container == nullptr || !container->openings) return;
    const Openings& openings = *container->openings;
    const bool open_top = !openings.side && !openings.closed && openings.hole == units::Length();
    if (!open_top) return;
    // Near children or pets it is an error, which the plan finds.
    if (const Place* place = place_of(station, Near::rain)) {
        out.warning("open-near", *place,
                    diag::say("'{}' is open at the top, and rain gets in", *station.id),
                    "use a container with side holes, or move it under cover");
    }
}

/// What runs, sprays or spills.
bool is_wet(const Job& job, const Station& station) {
    const Mix* mix = station.mix ? job.mix(**station.mix) : nullptr;
    return mix != nullptr && (*mix->form == Form::liquid || *mix->form == Form::spray);
}

void on_neighbours(const Job& job, const Station& station, Diagnostics& out) {
    if (const Place* place = place_of(station, Near::food)) {
        out.warning("near-food", *place, diag::say("'{}' is near food", *station.id),
                    "move it away from where food is kept or prepared");
    }
    // Too much boric acid in soil harms plants: Hawaii Ant Lab, LFA Fact Sheet 6, October 2012
    // (found).
    if (const Place* place = place_of(station, Near::plants)) {
        out.warning(
            "near-plants", *place,
            diag::say("'{}' is near plants, and borates in the soil harm them", *station.id),
            "stand it on a tray, never on soil, or cover the plants and the soil before "
            "spraying");
    }
    // Ours.
    if (const Place* place = place_of(station, Near::water)) {
        out.warning("near-water", *place,
                    diag::say("'{}' is near a drain, pond, tank or fish, which nothing of it may "
                              "reach",
                              *station.id),
                    "move it so that a spill cannot run there");
    }
    // Ours.
    if (const Place* place = place_of(station, Near::sockets); place && is_wet(job, station)) {
        out.warning(
            "near-sockets", *place,
            station.sprayed() ? diag::say("'{}' is sprayed near sockets or cables", *station.id)
                              : diag::say("'{}' is liquid near sockets or cables", *station.id),
            station.sprayed()
                ? "switch the circuit off at the board and cover them, or leave that part out"
                : "move it lower down and away, so that a spill cannot reach them");
    }
}

struct Box {
    double left = 0, bottom = 0, right = 0, top = 0;  // metres
    bool empty = true;

    void add(const Point& point) {
        const double x = units::in_m(point.x), y = units::in_m(point.y);
        left = empty ? x : std::min(left, x);
        right = empty ? x : std::max(right, x);
        bottom = empty ? y : std::min(bottom, y);
        top = empty ? y : std::max(top, y);
        empty = false;
    }
    /// How far outside it a point lies; 0 inside.
    [[nodiscard]] double away(double x, double y) const {
        return std::max({left - x, x - right, bottom - y, y - top, 0.0});
    }
};

/// A yard lies outside the rooms; what lies further off than that is a slip, and makes the whole
/// plan small.
void on_point(const Job& job, const Station& station, Diagnostics& out) {
    if (!station.at) return;
    Box rooms;
    for (const Room& room : job.floor_plan->rooms) {
        if (station.floor && room.floor.main() != **station.floor) continue;
        for (const Point& corner : room.outline) rooms.add(corner);
    }
    if (rooms.empty) return;
    constexpr double a_yard = 10;  // metres; ours
    const double reach = std::max({a_yard, rooms.right - rooms.left, rooms.top - rooms.bottom});
    const double x = units::in_m((*station.at)->x), y = units::in_m((*station.at)->y);
    const double away = rooms.away(x, y);
    if (away <= reach) return;
    diag::Text hint =
        diag::say("write metres as the rooms do: {:g} to {:g} to the right, {:g} to {:g} up",
                  rooms.left, rooms.right, rooms.bottom, rooms.top);
    for (const double shift : {100.0, 10.0})
        for (const auto& [a, b] : {std::pair(x / shift, y), std::pair(x, y / shift)})
            if (rooms.away(a, b) == 0)
                hint = diag::say("write at: [{:g}, {:g}] if the decimal point slipped", a, b);
    out.warning("outside-rooms", station.at->place,
                diag::say("'{}' lies {:.3g} m outside all rooms of the floor plan, which is drawn "
                          "so small that it fits",
                          *station.id, away),
                hint);
}

/// A change of place leaves the point on the plan where it was.
void on_moves(const Station& station, Diagnostics& out) {
    for (const Change& change : station.changes) {
        if (!station.at || change.at || (!change.place && !change.room && !change.unit)) continue;
        out.warning("old-point", change.on.place,
                    diag::say("'{}' is at another place from then on, and the floor plan shows it "
                              "where it was",
                              *station.id),
                    "add at: [.., ..] to this change; if only the words are others, accept this");
    }
}

void on_premises(const Job& job, Diagnostics& out) {
    if (!job.premises || job.asked) return;
    const char* name = **job.premises == Premises::flats  ? "flats"
                       : **job.premises == Premises::hall ? "hall"
                                                          : "";
    const reference::PremisesRule* rule = reference::find_premises_rule(name);
    if (rule == nullptr) return;
    out.warning("licence", job.premises->place,
                diag::say("treating a {} may need a licence: {} ({})", diag::term(rule->called),
                          diag::term(rule->text), rule->source),
                "ask the authority first, and write its answer under asked: { whom: .., on: .., "
                "answer: .. }");
}

}  // namespace

void advise_on_places(const Job& job, Diagnostics& out) {
    on_premises(job, out);
    for (const Station& station : job.stations) {
        if (job.floor_plan) {
            on_moves(station, out);
            on_point(job, station, out);
        }
        if (station.control) continue;
        on_neighbours(job, station, out);
        on_openings(job, station, out);
    }
}

}  // namespace gallipot::job
