#include "cli/round_json.hpp"

#include "base/strings/dates.hpp"
#include "cli/figure.hpp"
#include "cli/step_words.hpp"
#include "papers/document/round_sheet.hpp"

namespace gallipot::cli {
namespace {

using analysis::Day;
using analysis::StationReport;

Json iso(Day day) {
    return strings::iso_date(std::chrono::year_month_day(day));
}

Json states(const StationReport& station, int number) {
    Json all = Json::array();
    for (const analysis::ContainerState& container : station.containers) {
        if (container.number != number) continue;
        for (const visit::State state : visit::all_states())
            if (container.open.has(state)) all.push_back(visit::word(state));
    }
    return all;
}

/// A container, or a station without any.
Json json(const StationReport& station, const analysis::Task& task) {
    Json what = Json::array();
    std::string why;
    for (const analysis::Step& step : task.steps) {
        what.push_back(word(step.action));
        if (step.why == analysis::Why::none) continue;
        why += (why.empty() ? "" : ", ") + std::string(word(step.why));
    }
    return {{"id", station.container_id(task.number)},
            {"state", states(station, task.number)},
            {"do", std::move(what)},
            {"why", why.empty() ? Json("none") : Json(why)},
            {"by", iso(task.steps.front().on)}};
}

Json json(const plan::Mix& mix, const app::NextRound& round) {
    Json ingredients = Json::array();
    for (const plan::Ingredient& ingredient : mix.ingredients) {
        Json measures = Json::array();
        for (const plan::MeasureStep& step : ingredient.measures)
            measures.push_back({{"measure", step.measure}, {"times", step.times}});
        ingredients.push_back({{"name", ingredient.name},
                               {"g", figure(units::in_g(ingredient.measured_mass))},
                               {"mL", figure(units::in_mL(ingredient.measured_volume))},
                               {"measures", std::move(measures)}});
    }
    std::size_t containers = 0;
    for (const app::ToFill& each : round.fill)
        for (const plan::Station& station : round.to_make.plan.stations)
            if (station.id == each.id && station.mix == mix.id) ++containers;
    return {{"mix", mix.id},
            {"containers", containers},
            {"needed_mL", figure(units::in_mL(mix.needed))},
            {"finished_mL", figure(units::in_mL(mix.finished * mix.batches))},
            {"batches", mix.batches},
            {"ingredients", std::move(ingredients)}};
}

}  // namespace

std::string round_json(const app::NextRound& round, const app::Session& session,
                       const app::Evidence& evidence, const text::Catalog& words) {
    Json stops = Json::array();
    for (const analysis::Stop& stop : round.stops) {
        const StationReport& station = evidence.report.stations.at(stop.station);
        Json containers = Json::array();
        for (const analysis::Task& task : analysis::tasks_of(station, stop))
            containers.push_back(json(station, task));
        stops.push_back({{"station", station.id}, {"containers", std::move(containers)}});
    }
    Json make = Json::array();
    for (const plan::Mix& mix : round.to_make.plan.mixes) make.push_back(json(mix, round));
    Json bring = Json::array();
    for (const auto& each : document::to_bring(*session.job, evidence.report, round.stops,
                                               *round.to_make.job, round.to_make.plan, words))
        bring.push_back({{"what", each.what}, {"amount", each.amount}});
    const Json out{
        {"on", iso(round.on)},       {"stops", std::move(stops)},
        {"make", std::move(make)},   {"labels", round.labels},
        {"bring", std::move(bring)}, {"next_on", round.later ? iso(*round.later) : Json(nullptr)}};
    return out.dump(2) + '\n';
}

}  // namespace gallipot::cli
