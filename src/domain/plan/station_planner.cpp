#include "domain/plan/station_planner.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

#include "base/units/duration_words.hpp"
#include "domain/job/on_day.hpp"
#include "domain/reference/coverage.hpp"
#include "domain/reference/timber.hpp"
#include "domain/schedule/schedule.hpp"

namespace gallipot::plan {

using units::Mass;
using units::Volume;

namespace {

/// Where nobody says how long a bait lasts: it is looked at weekly (University of Hawaii CTAHR,
/// Sugar Boric Acid Bait for Ants, 2012), so that is how long it dries between visits.
constexpr units::Duration between_visits = units::days(7);

std::optional<units::Coverage> coverage(job::Form form) {
    const auto preparation = form == job::Form::spray    ? reference::Preparation::spray
                             : form == job::Form::liquid ? reference::Preparation::liquid
                             : form == job::Form::paste  ? reference::Preparation::paste
                                                         : reference::Preparation::dry;
    const auto coat = reference::coverage_per_coat(preparation);
    if (!coat) return std::nullopt;
    return coat->value;
}

Volume surface_takes(const job::Station& station, units::Coverage coat) {
    return **station.area * coat * station.coats;
}

std::optional<Loading> loading(const Contents& surface, units::Area area) {
    const Mass acid = surface.boric_acid_equivalent;
    if (acid <= Mass{}) return std::nullopt;
    const units::Length depth = reference::timber::depth;
    return Loading{acid / area, depth, acid / (area * depth)};
}

std::optional<Evaporation> evaporation(const MixCalculation& calculation,
                                       const mixing::Exposure& exposure, const Contents& contents) {
    Evaporation out;
    std::vector<Mass> masses;
    masses.reserve(contents.ingredients.size());
    for (const auto& [name, mass] : contents.ingredients) masses.push_back(mass);
    const mixing::Solution filled(calculation.recipe.components, masses);
    if (filled.water() <= Mass{}) return std::nullopt;
    out.drying = std::make_shared<const mixing::Drying>(
        filled, contents.mass, contents.boric_acid_equivalent / contents.mass,
        mixing::pure_water_loss_g_per_day(exposure), mixing::activity_of_air(exposure));
    out.water = out.drying->water();
    out.after = calculation.job->lasts ? **calculation.job->lasts : between_visits;
    out.water_loss_g_per_day = out.drying->loss_g_per_day();
    out.strength_after_lasts_w_w = out.drying->strength_after(out.after);
    out.water_to_restore = out.drying->water_to_restore(out.after);
    if (calculation.mix.usual)
        out.days_to_too_strong = out.drying->days_until(calculation.mix.usual->high);
    return out;
}

/// The same for all containers of a kind that hold the same mix in the same warmth.
std::optional<Evaporation> drift_at(const job::Station& station, const MixCalculation& calculation,
                                    const job::Container& container, const Contents& contents,
                                    KnownDrifts& known) {
    if (calculation.recipe.form != job::Form::liquid) return std::nullopt;
    const auto exposure = mixing::exposure_of(container, station);
    if (!exposure) return std::nullopt;
    const auto [at, fresh] =
        known.try_emplace({calculation.mix.id, container.id, exposure->surface.degrees});
    if (fresh) at->second = evaporation(calculation, *exposure, contents);
    std::optional<Evaporation> out = at->second;
    if (out) out->station = *station.id;
    return out;
}

std::vector<std::string> container_ids(const std::string& station, int count) {
    if (count == 1) return {station};
    std::vector<std::string> ids;
    for (int i = 1; i <= count; ++i) ids.push_back(fmt::format("{}-{}", station, i));
    return ids;
}

bool near_cold(const job::Station& station) {
    return std::ranges::any_of(station.near,
                               [](const auto& near) { return *near == job::Near::cold; });
}

void check_cold(const job::Station& station, const MixCalculation& calculation,
                diag::Diagnostics& out) {
    if (!calculation.mix.crystals_below || station.sprayed()) return;
    const double below = calculation.mix.crystals_below->degrees;
    if (station.coldest && station.coldest->value.degrees < below) {
        out.warning(
            "crystals", station.coldest->place,
            diag::say("crystals come back in '{}' below {:.0f} C, and '{}' gets as cold "
                      "as {:.3g} C{}",
                      calculation.mix.id, below, *station.id, station.coldest->value.degrees,
                      calculation.mix.borates_together
                          ? "; cautious, since borax and boric acid keep each other "
                            "dissolved"
                          : ""),
            "look for crystals at each visit, or set it out where it stays warmer");
    } else if (!station.coldest && near_cold(station)) {
        out.warning("coldest-missing", station.id.place,
                    diag::say("'{}' is near cold, and crystals come back in '{}' below {:.0f} C",
                              *station.id, calculation.mix.id, below),
                    "give its 'coldest' temperature");
    }
}

void check_drying(const job::Station& station, const MixCalculation& calculation,
                  const Evaporation& evaporation, diag::Diagnostics& out) {
    if (!evaporation.days_to_too_strong || evaporation.days_to_too_strong->usual <= 0) return;
    const auto& days = *evaporation.days_to_too_strong;
    if (days.usual >= units::in_days(evaporation.after)) return;
    // Whole days, or whole hours of the first.
    const double a_day = days.usual < 0.5 ? 24 : 1;
    const diag::Text sooner = units::days_in_words(std::round(units::in_days(evaporation.after)));
    out.warning(
        "dries-too-soon", station.id.place,
        diag::say("at '{}' the bait '{}' loses about {:.2g} g of water a day, so it is "
                  "stronger than usual after {} ({:.0f} to {:.0f})",
                  *station.id, calculation.mix.id, evaporation.water_loss_g_per_day.usual,
                  units::days_in_words(std::round(days.usual * a_day) / a_day), days.low * a_day,
                  days.high * a_day),
        evaporation.water_to_restore.usual > Volume{}
            ? diag::say("top it up with water before, replace it sooner than after {}, or use "
                        "smaller openings",
                        sooner)
            : diag::say("replace it sooner than after {}, or use smaller openings", sooner));
}

}  // namespace

Contents contents_of(const MixCalculation& calculation, Volume fill) {
    Contents out;
    out.fill = fill;
    const double share = fill / calculation.mix.finished;
    Mass boron;
    for (std::size_t i = 0; i < calculation.recipe.components.size(); ++i) {
        const auto& component = calculation.recipe.components[i];
        const Mass mass = calculation.chosen.masses[i] * share;
        out.ingredients.emplace_back(component.name, mass);
        out.mass += mass;
        boron += mass * component.boron;
    }
    out.boron = boron;
    out.boric_acid_equivalent = boron * mixing::boric_acid_per_boron();
    return out;
}

std::map<std::string, Demand> demands(const job::Job& job, diag::Diagnostics& out) {
    std::map<std::string, const job::Mix*> mixes;
    for (const auto& mix : job.mixes) mixes.emplace(mix.id, &mix);
    std::map<std::string, const job::Container*> containers;
    for (const auto& container : job.containers) containers.emplace(container.id, &container);

    std::map<std::string, Demand> all;
    for (const auto& station : job.stations) {
        // Names that are not there are the job reader's to refuse.
        if (!station.mix) continue;
        const auto mix = mixes.find(**station.mix);
        if (mix == mixes.end()) continue;
        Demand& demand = all[**station.mix];
        if (station.sprayed()) {
            const auto coat = coverage(*mix->second->form);
            if (coat) {
                demand.volume += surface_takes(station, *coat);
            } else {
                out.error("cannot-be-spread", station.area->place,
                          diag::say("'{}' is a dry mix or a paste, so no area can be covered "
                                    "with it",
                                    mix->first),
                          "give a container, or a mix that is a spray or a liquid");
            }
        } else if (station.container) {
            const auto container = containers.find(**station.container);
            if (container == containers.end()) continue;
            demand.volume += *container->second->fill * station.count;
            demand.containers += station.count;
            demand.fills.emplace_back(station.count, *container->second->fill);
            if (demand.largest == nullptr || *demand.largest->fill < *container->second->fill) {
                demand.largest = container->second;
            }
        }
    }
    return all;
}

Station plan_station(const schedule::Starts& starts, const job::Station& station,
                     const job::Mix* mix, const MixCalculation* calculation, const LinkMaker& link,
                     KnownDrifts& evaporations, diag::Diagnostics& out) {
    const job::Job& job = starts.job();
    Station it;
    it.id = *station.id;
    for (const auto& name : station.was) it.was.push_back(*name);
    if (mix != nullptr) it.mix = mix->id;
    if (station.placed) it.placed = **station.placed;
    if (station.until) it.until = **station.until;
    const bool holds = mix != nullptr && station.container && !station.sprayed();
    if (holds) {
        it.containers = station.count;
        it.most_containers = job::most_containers(station);
        it.container_ids = container_ids(it.id, station.count);
    }

    const auto* pest = mix != nullptr ? reference::find_pest(*mix->against) : nullptr;
    schedule::Times times = schedule::times_of(starts, station, mix, pest, out);
    it.visits = std::move(times.visits);
    it.replace_by = times.replace_by;
    it.no_sprays_until = times.no_sprays_until;
    it.result_from = times.result_from;
    it.result_until = times.result_until;
    if (link) it.link = link(station);

    if (calculation == nullptr) return it;
    if (station.sprayed()) {
        if (const auto coat = coverage(calculation->recipe.form)) {
            it.per_container = std::make_shared<const Contents>(
                contents_of(*calculation, surface_takes(station, *coat)));
            it.loading = loading(*it.per_container, **station.area);
        }
    } else if (holds) {
        if (const job::Container* container = job.container(**station.container)) {
            it.per_container =
                std::make_shared<const Contents>(contents_of(*calculation, *container->fill));
            it.evaporation =
                drift_at(station, *calculation, *container, *it.per_container, evaporations);
        }
    }
    return it;
}

void check_keeping(const job::Job& job, const Plan& plan,
                   const std::map<std::string, const MixCalculation*>& calculation,
                   diag::Diagnostics& out) {
    std::set<std::pair<std::string, std::string>> dry;
    for (std::size_t i = 0; i < job.stations.size(); ++i) {
        const job::Station& station = job.stations[i];
        if (!station.mix) continue;
        const auto mix = calculation.find(**station.mix);
        if (mix == calculation.end()) continue;
        check_cold(station, *mix->second, out);
        const auto& evaporation = plan.stations[i].evaporation;
        if (evaporation && dry.emplace(mix->first, **station.container).second) {
            check_drying(station, *mix->second, *evaporation, out);
        }
    }
}

std::optional<mixing::LevelEstimate> strength_now(const Plan&, const Station& station,
                                                  units::Duration since_filled, double level) {
    if (!station.evaporation || !station.evaporation->drying) return std::nullopt;
    return station.evaporation->drying->read_level(since_filled, level);
}

}  // namespace gallipot::plan
