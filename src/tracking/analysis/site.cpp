#include "tracking/analysis/site.hpp"

#include <algorithm>

#include "domain/reference/pests.hpp"
#include "domain/schedule/schedule.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

std::string pest_of(const std::string& against) {
    const reference::Pest* pest = reference::find_pest(against);
    return pest == nullptr ? against : std::string(pest->name);
}

/// The pest all of the job's mixes are against; empty when there are several.
std::string only_pest(const job::Job& job) {
    std::string only;
    for (const auto* mixes : {&job.mixes, &job.idle_mixes}) {
        for (const job::Mix& mix : *mixes) {
            std::string pest = pest_of(*mix.against);
            if (!only.empty() && pest != only) return {};
            only = std::move(pest);
        }
    }
    return only;
}

/// None of a mix that nobody buys for any more.
std::optional<double> cost_of(const plan::Contents& contents, const std::string& mix,
                              const plan::Plan& plan) {
    if (!plan.cost || !plan.cost->complete || plan.mix(mix) == nullptr) return std::nullopt;
    double cost = 0;
    for (const auto& [name, mass] : contents.ingredients) {
        const auto bought = std::ranges::find(plan.shopping, name, &plan::Purchase::name);
        if (bought == plan.shopping.end() || !bought->cost || !bought->left_over) continue;
        cost += *bought->cost * (mass / (bought->mass + *bought->left_over));
    }
    return cost;
}

void add_pest(Site& site, const std::string& against) {
    const reference::Pest* pest = reference::find_pest(against);
    site.pest = pest_of(against);
    site.timber = pest != nullptr && pest->lives_in_wood;
    if (pest != nullptr && pest->gone) {
        site.gone_days = static_cast<int>(units::in_days(pest->gone->value.none_seen_for));
        site.empty_counts = pest->gone->value.empty_counts;
        site.empty_traps = pest->gone->value.in_traps;
    }
    if (pest == nullptr)
        site.window = Window{rules::usual_days_low, rules::usual_days_high};
    else if (pest->result)
        site.window = Window{units::in_days(pest->result->value.low),
                             units::in_days(pest->result->value.high)};
}

void add_mix(Site& site, const job::Mix& mix) {
    add_pest(site, *mix.against);
    site.powder = *mix.form == job::Form::dry;
    if (mix.lasts)
        site.lasts = std::chrono::days(static_cast<int>(units::in_days(mix.lasts->value)));
}

/// Empty where it never changes.
std::vector<std::pair<LocalTime, std::string>> mixes_of(const job::Station& station) {
    std::vector<std::pair<LocalTime, std::string>> mixes;
    if (!station.written || !station.written->mix) return mixes;
    for (const job::Change& change : station.written->changes)
        if (change.mix) mixes.emplace_back(*change.on, **change.mix);
    if (!mixes.empty()) mixes.insert(mixes.begin(), {LocalTime::min(), **station.written->mix});
    return mixes;
}

std::optional<Day> first_placed(const std::vector<Site>& all, const Site& control) {
    std::optional<Day> first;
    for (const Site& site : all)
        if (site.placed && !site.control && control.compares_with(site.pest))
            first = std::min(first.value_or(day_of(*site.placed)), day_of(*site.placed));
    return first;
}

}  // namespace

Counting Site::counting() const {
    if (!control) return {placed, placed_by_day, !timber, {}};
    Counting how;
    if (compared_from) how.placed = *compared_from + std::chrono::days(1) - std::chrono::minutes(1);
    return how;
}

const std::string& Site::mix_at(LocalTime time) const {
    const std::string* at = mixes.empty() ? &mix : &mixes.front().second;
    for (const auto& [from, name] : mixes)
        if (from <= time) at = &name;
    return *at;
}

std::string Site::container_id(int number) const {
    return number == 0 || containers < 2 ? id : id + '-' + std::to_string(number);
}

std::vector<Site> sites(const job::Job& job, const plan::Plan& plan) {
    std::vector<Site> result;
    const std::size_t all = job.stations.size() + job.retired.size();
    result.reserve(all);
    const std::string only = only_pest(job);
    const schedule::Starts starts(job);
    for (std::size_t i = 0; i < all; ++i) {
        const job::Station& station = job.station_at(i);
        const plan::Station& planned = plan.station_at(i);  // the plan keeps the job's order
        Site site;
        site.id = *station.id;
        site.mix = planned.mix;
        site.control = station.control;
        site.sprayed = station.sprayed();
        site.containers = planned.containers;
        site.placed = planned.placed;
        site.placed_by_day = station.placed_by_day;
        if (station.until) site.until = Day(std::chrono::local_days(**station.until));
        site.due = planned.visits;
        std::ranges::sort(site.due);
        site.due_from = starts.of(station);
        site.mixes = mixes_of(station);
        if (planned.replace_by) site.replace_by = Day(*planned.replace_by);
        if (const job::Mix* mix = station.mix ? job.mix(**station.mix) : nullptr)
            add_mix(site, *mix);
        if (site.control) site.pest = station.against ? pest_of(**station.against) : only;
        if (planned.per_container && !site.sprayed) {
            site.filling = planned.per_container->fill;
            site.cost = cost_of(*planned.per_container, site.mix, plan);
        }
        result.push_back(std::move(site));
    }
    compare_controls(result);
    return result;
}

void compare_controls(std::vector<Site>& sites) {
    for (Site& site : sites)
        if (site.control) site.compared_from = first_placed(sites, site);
}

Site site_of_log(const std::string& id, const History& history, const recipe::FormerStation& was) {
    Site site;
    site.id = id;
    if (was.control)
        site.pest = was.pest;
    else
        add_pest(site, was.pest);
    site.control = was.control;
    site.sprayed = was.sprayed;
    site.containers = was.containers;
    site.placed = was.placed;
    site.in_job = false;
    site.until = day_of(history.back().time);
    return site;
}

std::optional<Site> site_of_log(const std::string& id, const History& history,
                                const job::Job& job) {
    const std::string pest = only_pest(job);
    const bool bait = std::ranges::any_of(history, [](const Observation& o) {
        return o.level_read() || o.feeding != Observation::not_looked || !o.state.empty() ||
               !o.did.empty();
    });
    if (pest.empty() || !bait) return std::nullopt;
    Site site;
    site.id = id;
    add_mix(site, job.mixes.empty() ? job.idle_mixes.front() : job.mixes.front());
    site.in_job = false;
    site.until = day_of(history.back().time);
    site.containers = 1;
    for (const Observation& o : history)
        site.containers = std::max(site.containers, int{o.container});
    return site;
}

}  // namespace gallipot::analysis
