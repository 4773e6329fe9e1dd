#include "app/station_choice.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <set>
#include <utility>

#include "base/diag/diagnostic.hpp"
#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::app {
namespace {

/// "it has K1, K2 and E1", or where to look when there are many.
std::string those_it_has(std::vector<std::string> ids) {
    constexpr std::size_t most_listed = 20;
    if (ids.size() > most_listed) return "see gallipot plan for those it has";
    const std::string last = std::move(ids.back());
    ids.pop_back();
    if (ids.empty()) return fmt::format("it has {} alone", last);
    return fmt::format("it has {} and {}", fmt::join(ids, ", "), last);
}

/// What to say of a name that the job does not have.
std::string unknown(const plan::Plan& plan, const std::string& name) {
    const auto dash = name.rfind('-');
    if (dash != std::string::npos) {
        if (const auto target = log::find_target(plan, name.substr(0, dash));
            target && target->container == 0) {
            const plan::Station& station = *plan.station(target->station);
            if (station.containers == 1)
                return fmt::format("station {0} has one container: name it {0}", station.id);
            if (station.containers > 1)
                return fmt::format("station {} has {} containers, {} to {}, and no {}", station.id,
                                   station.containers, station.container_ids.front(),
                                   station.container_ids.back(), diag::quoted(name));
        }
    }
    std::vector<std::string> known;
    for (const plan::Station& station : plan.stations) known.push_back(station.id);
    const std::string near = diag::nearest(name, known);
    return fmt::format(
        "the job has no station {}; {}", diag::quoted(name),
        near.empty() ? those_it_has(known) : fmt::format("did you mean '{}'?", near));
}

bool is_supply_of(const plan::Container& container, const plan::Mix& mix) {
    return std::ranges::any_of(mix.ingredients, [&](const plan::Ingredient& ingredient) {
        return ingredient.name == container.supply;
    });
}

}  // namespace

bool StationChoice::has(const plan::Mix& mix) const {
    return std::ranges::find(mixes, mix.id) != mixes.end();
}

StationChoice choose_stations(const plan::Plan& plan, const std::vector<std::string>& names,
                              bool with_vessels) {
    StationChoice choice;
    std::set<std::string> cups;  // ids of containers
    std::set<std::string> mixes;
    for (const std::string& written : names) {
        const std::string name(strings::trimmed(written, " \t"));
        const auto target = log::find_target(plan, name);
        if (!target) {
            choice.problems.push_back(unknown(plan, name));
            continue;
        }
        const plan::Station& station = *plan.station(target->station);
        if (station.mix.empty()) {
            choice.problems.push_back(fmt::format(
                "{} is a control: nothing is set out there, so it has no label and no card",
                station.id));
            continue;
        }
        mixes.insert(station.mix);
        if (target->container > 0)
            cups.insert(station.container_ids.at(static_cast<std::size_t>(target->container) - 1));
        else
            cups.insert(station.container_ids.begin(), station.container_ids.end());
    }
    for (const plan::Mix& mix : plan.mixes)
        if (mixes.contains(mix.id)) choice.mixes.push_back(mix.id);
    const auto of_mixes = [&](const plan::Container& container) {
        if (container.kind != plan::ContainerKind::decanted) return mixes.contains(container.mix);
        return std::ranges::any_of(plan.mixes, [&](const plan::Mix& mix) {
            return choice.has(mix) && is_supply_of(container, mix);
        });
    };
    for (std::size_t i = 0; i < plan.containers.size(); ++i) {
        const plan::Container& container = plan.containers[i];
        const bool cup = container.kind == plan::ContainerKind::cup;
        if (cup ? cups.contains(container.id) : with_vessels && of_mixes(container))
            choice.labels.push_back(i);
    }
    return choice;
}

}  // namespace gallipot::app
