#include "domain/plan/planner.hpp"

#include <algorithm>

#include "domain/plan/access_checks.hpp"
#include "domain/plan/amount_checks.hpp"
#include "domain/plan/composition.hpp"
#include "domain/plan/containers.hpp"
#include "domain/plan/pest_checks.hpp"
#include "domain/plan/shopping.hpp"
#include "domain/plan/station_planner.hpp"
#include "domain/plan/walk.hpp"
#include "domain/safety/rules.hpp"

namespace gallipot::plan {

namespace {

/// By mix and kind of container.
using SharedContents =
    std::map<std::pair<std::string, std::string>, std::shared_ptr<const Contents>>;

/// Cups of one kind hold the same of a mix: a large job keeps it once.
void share_contents(Station& planned, const job::Station& station, SharedContents& known) {
    if (planned.containers == 0 || !planned.per_container) return;
    const auto [first, is_new] =
        known.try_emplace({planned.mix, **station.container}, planned.per_container);
    if (!is_new) planned.per_container = first->second;
}

/// The retired stations as if they stood, with what they alone held.
job::Job only_retired(const job::Job& job) {
    job::Job past;
    past.stations = job.retired;
    past.mixes = job.idle_mixes;
    past.containers = job.containers;
    past.containers.insert(past.containers.end(), job.idle_containers.begin(),
                           job.idle_containers.end());
    return past;
}

/// The stations that were taken up, and what was in them: of mixes that nobody has any more too.
/// What is wrong there was said while they stood.
void plan_retired(const job::Job& job, const LinkMaker& link,
                  const std::map<std::string, const MixCalculation*>& present, Plan& plan) {
    if (job.retired.empty()) return;
    diag::Diagnostics unheard;
    const mixing::Tools tools(job.measures);
    std::vector<MixCalculation> calculation;
    const auto demand = demands(only_retired(job), unheard);
    for (const job::Mix& mix : job.idle_mixes) {
        const auto taken = demand.find(mix.id);
        if (taken == demand.end()) continue;
        if (auto it = calculate(job, mix, taken->second, tools, unheard))
            calculation.push_back(*std::move(it));
    }
    std::map<std::string, const MixCalculation*> by_id = present;
    for (const MixCalculation& it : calculation) by_id.emplace(it.mix.id, &it);
    const schedule::Starts starts(job);
    KnownDrifts evaporations;
    for (const job::Station& station : job.retired) {
        const job::Mix* mix = station.mix ? job.mix(**station.mix) : nullptr;
        const auto made = station.mix ? by_id.find(**station.mix) : by_id.end();
        plan.retired.push_back(plan_station(starts, station, mix,
                                            made == by_id.end() ? nullptr : made->second, link,
                                            evaporations, unheard));
        plan.station_numbers.emplace(*station.id, plan.station_numbers.size());
    }
    const safety::RuleSet rules = safety::rules_for(*job.help.region).rules;
    for (MixCalculation& it : calculation) {
        it.mix.hazard = hazard_of(it, 1, rules);  // whatever of its water is gone
        plan.idle_mixes.push_back(std::move(it.mix));
    }
}

}  // namespace

Plan make_plan(const job::Job& job, const LinkMaker& link, diag::Diagnostics& out) {
    const mixing::Tools tools(job.measures);
    const auto demand = demands(job, out);
    std::vector<MixCalculation> calculation;
    std::map<std::string, const job::Mix*> mixes;
    for (const auto& mix : job.mixes) {
        mixes.emplace(mix.id, &mix);
        check_support(job, mix, out);
        const auto taken = demand.find(mix.id);
        const Demand wanted = taken == demand.end() ? Demand{} : taken->second;
        auto it = calculate(job, mix, wanted, tools, out);
        if (!it) continue;
        check_mix(job, *it, wanted, tools, out);
        calculation.push_back(std::move(*it));
    }
    std::map<std::string, const MixCalculation*> by_id;
    for (const MixCalculation& it : calculation) by_id.emplace(it.mix.id, &it);

    const schedule::Starts starts(job);
    Plan plan;
    SharedContents contents;
    KnownDrifts evaporations;
    int cups = 0;
    for (const auto& station : job.stations) {
        const auto mix = station.mix ? mixes.find(**station.mix) : mixes.end();
        const auto made = station.mix ? by_id.find(**station.mix) : by_id.end();
        plan.stations.push_back(
            plan_station(starts, station, mix == mixes.end() ? nullptr : mix->second,
                         made == by_id.end() ? nullptr : made->second, link, evaporations, out));
        share_contents(plan.stations.back(), station, contents);
        plan.station_numbers.emplace(*station.id, plan.station_numbers.size());
        cups += plan.stations.back().containers;
    }
    plan_retired(job, link, by_id, plan);
    plan.walk = walk(job);
    plan.round_within = *job.round_within;
    check_keeping(job, plan, by_id, out);
    check_amounts(job, plan, out);
    check_access(job, plan, out);
    Shopping shopping = shop(job, calculation, cups);
    plan.shopping = std::move(shopping.purchases);
    plan.cost = shopping.cost;
    plan.containers = containers(job, plan, calculation);
    const auto worst = worst_hazards(plan.containers);
    for (MixCalculation& it : calculation) {
        it.mix.hazard = *worst.at(it.mix.id);
        plan.mixes.push_back(std::move(it.mix));
    }
    return plan;
}

const Mix* Plan::mix(const std::string& id) const {
    const auto at = std::ranges::find(mixes, id, &Mix::id);
    return at == mixes.end() ? nullptr : &*at;
}

const Station* Plan::station(const std::string& id) const {
    if (station_numbers.size() == all_stations()) {
        const auto known = station_numbers.find(id);
        return known == station_numbers.end() ? nullptr : &station_at(known->second);
    }
    const auto at = std::ranges::find(stations, id, &Station::id);
    return at == stations.end() ? nullptr : &*at;
}

}  // namespace gallipot::plan
