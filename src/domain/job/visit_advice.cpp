#include <algorithm>
#include <fmt/format.h>
#include <set>

#include "base/units/duration_words.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

// Check weekly; replace or refresh: University of Hawaii CTAHR, Sugar Boric Acid Bait for Ants,
// 31 March 2012 (found); the trial of Klotz and others 1997 renewed the bait each week (found).
constexpr double liquid_days = 7;

const std::vector<At<units::Duration>>& visits_of(const Job& job, const Station& station,
                                                  const Mix& mix) {
    if (station.visits) return *station.visits;
    return mix.visits ? *mix.visits : job.visits;
}

/// The longest time between one look and the next, from setting out to the last visit, in days.
double longest_gap(const std::vector<At<units::Duration>>& visits) {
    double gap = 0;
    double before = 0;
    for (const auto& visit : visits) {
        gap = std::max(gap, units::in_days(*visit) - before);
        before = units::in_days(*visit);
    }
    return gap;
}

void on_liquids(const Job& job, diag::Diagnostics& out) {
    std::set<const std::vector<At<units::Duration>>*> told;
    for (const Station& station : job.stations) {
        const Mix* mix = station.mix && !station.sprayed() ? job.mix(**station.mix) : nullptr;
        if (mix == nullptr || *mix->form != Form::liquid) continue;
        const auto& visits = visits_of(job, station, *mix);
        // Half a day more is the same weekday.
        if (longest_gap(visits) <= liquid_days + 0.5 || !told.insert(&visits).second) continue;
        out.warning("visits-far-apart", visits.front().place,
                    diag::say("'{}' is liquid and would stand {} without a look; it is to be "
                              "seen to each week",
                              mix->id, units::days_in_words(longest_gap(visits))),
                    "plan a visit for each week that it stands");
    }
}

void on_sprays(const Job& job, diag::Diagnostics& out) {
    if (!job.no_sprays_for) return;
    const Mix* longest = nullptr;
    for (const Mix& mix : job.mixes) {
        if (*mix.form == Form::spray || !mix.lasts) continue;
        const bool used = std::any_of(job.stations.begin(), job.stations.end(),
                                      [&](const Station& s) { return s.mix && **s.mix == mix.id; });
        if (used && (longest == nullptr || **longest->lasts < **mix.lasts)) longest = &mix;
    }
    if (longest == nullptr || **longest->lasts <= **job.no_sprays_for) return;
    out.warning("no-sprays-too-short", job.no_sprays_for->place,
                diag::say("insecticide may be sprayed again after {}, but '{}' stands for {}: "
                          "sprays keep pests from bait",
                          units::days_in_words(units::in_days(**job.no_sprays_for)), longest->id,
                          units::days_in_words(units::in_days(**longest->lasts))),
                diag::say("write no_sprays_for: {:.6g} d, or leave it out: then it lasts as long "
                          "as each bait",
                          units::in_days(**longest->lasts)));
}

}  // namespace

void advise_on_visits(const Job& job, diag::Diagnostics& out) {
    on_liquids(job, out);
    on_sprays(job, out);
}

}  // namespace gallipot::job
