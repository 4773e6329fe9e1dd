#include "domain/plan/access_checks.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "domain/safety/dose.hpp"

namespace gallipot::plan {

namespace {

diag::Text shut_in() {
    return "put it in a closed box with holes of 6 mm at most, fixed down, and write locked: true";
}

/// Where the job says that children or pets are near; null when it does not.
const diag::At<job::Near>* in_reach(const job::Station& station) {
    const auto at = std::ranges::find_if(station.near, [](const diag::At<job::Near>& near) {
        return *near == job::Near::children || *near == job::Near::pets;
    });
    return at == station.near.end() ? nullptr : &*at;
}

diag::Text name(job::Near near) {
    return near == job::Near::children ? "children" : "pets";
}

bool open_top(const job::Container& container) {
    const auto& openings = container.openings;
    return openings && !openings->closed && !openings->side && openings->hole <= units::Length{};
}

void check_station(const job::Job& job, const job::Station& station, const Station& planned,
                   diag::Diagnostics& out) {
    const auto* near = in_reach(station);
    if (near == nullptr || station.locked || planned.containers == 0 || !planned.per_container) {
        return;
    }
    const job::Container* container = job.container(**station.container);
    if (container != nullptr && open_top(*container)) {
        out.error("open-in-reach", near->place,
                  diag::say("'{}' stands open at the top near {}", *station.id, name(**near)),
                  diag::say("use a container with side holes, or {}", shut_in()));
    }
    const units::Mass acid = planned.per_container->boric_acid_equivalent;
    const double dose = safety::child_10kg_mg_per_kg(acid);
    if (dose <= safety::limits::in_reach_mg_per_kg) return;
    out.error("dose-in-reach", near->place,
              diag::say("near {} one container of '{}' holds {:.3g} g as boric acid, {:.3g} mg for "
                        "each kg of a child of 10 kg; more than {:.0f} must be shut in",
                        name(**near), *station.id, units::in_g(acid), dose,
                        safety::limits::in_reach_mg_per_kg),
              diag::say("fill less into each, or {}", shut_in()));
}

}  // namespace

void check_access(const job::Job& job, const Plan& plan, diag::Diagnostics& out) {
    for (std::size_t i = 0; i < job.stations.size(); ++i) {
        check_station(job, job.stations[i], plan.stations[i], out);
    }
}

}  // namespace gallipot::plan
