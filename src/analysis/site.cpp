#include "analysis/site.hpp"

#include <algorithm>

#include "analysis/rules.hpp"
#include "reference/pests.hpp"

namespace gallipot::analysis {

namespace {

void add_mix(Site& site, const job::Mix& mix) {
    const reference::Pest* pest = reference::find_pest(*mix.against);
    site.timber = pest != nullptr && pest->name == "wood borers";
    if (pest == nullptr)
        site.window = Window{rules::usual_days_low, rules::usual_days_high};
    else if (pest->result)
        site.window = Window{units::in_days(pest->result->value.low),
                             units::in_days(pest->result->value.high)};
    if (mix.lasts)
        site.lasts = std::chrono::days(static_cast<int>(units::in_days(mix.lasts->value)));
}

}  // namespace

std::vector<Site> sites(const job::Job& job, const plan::Plan& plan) {
    std::vector<Site> result;
    result.reserve(job.stations.size());
    for (std::size_t i = 0; i < job.stations.size(); ++i) {
        const job::Station& station = job.stations[i];
        const plan::Station& planned = plan.stations.at(i);  // the plan keeps the job's order
        Site site;
        site.id = *station.id;
        site.mix = planned.mix;
        site.control = station.control;
        site.sprayed = station.sprayed();
        site.containers = planned.containers;
        site.placed = planned.placed;
        site.due = planned.visits;
        std::ranges::sort(site.due);
        if (planned.replace_by) site.replace_by = Day(*planned.replace_by);
        if (const job::Mix* mix = station.mix ? job.mix(**station.mix) : nullptr)
            add_mix(site, *mix);
        if (planned.per_container && !site.sprayed) site.filling = planned.per_container->fill;
        if (plan.cost && !site.sprayed && !site.control) site.cost = plan.cost->per_container;
        result.push_back(std::move(site));
    }
    return result;
}

}  // namespace gallipot::analysis
