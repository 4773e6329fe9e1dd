#include "tracking/evidence/evidence.hpp"

#include <algorithm>
#include <map>

#include "tracking/analysis/station_state.hpp"
#include "tracking/log/period.hpp"

namespace gallipot::evidence {
namespace {

std::vector<std::string> ids_of(const std::vector<analysis::Site>& sites) {
    std::vector<std::string> ids;
    ids.reserve(sites.size());
    for (const auto& site : sites) ids.push_back(site.id);
    return ids;
}

void read_visits(const log::Log& visits, const log::Period& period, Evidence& evidence) {
    visits.each(
        log::Log::Which::active,
        [&](const log::Entry& entry) {
            if (period.fault(entry.visit.time) != log::TimeFault::none)
                evidence.histories.leave_out_impossible(entry.number);
            else if (!evidence.histories.add(entry.visit, entry.number))
                evidence.histories.leave_out_after_end(entry.number);
            return true;
        },
        [&](const log::Unreadable& entry) {
            evidence.unreadable.push_back(entry);
            evidence.histories.leave_out_unreadable(entry.number);
        });
}

/// Stations that are in the log alone, as far as it is known what they were.
void add_sites_of_log(const job::Job& job, const std::vector<log::Note>& notes,
                      Evidence& evidence) {
    std::map<std::string, recipe::FormerStation> noted;
    for (const log::Note& note : notes)
        if (note.fact.kind == log::Fact::Kind::station)
            if (auto was = recipe::parse_station(note.fact.content))
                noted[note.fact.name] = *std::move(was);
    const auto unknown = evidence.histories.unknown_stations();  // a copy: adopting alters it
    for (const auto& [id, visits] : unknown) {
        const analysis::History& history = evidence.histories.of_unknown(id);
        const auto was = noted.find(id);
        auto site = was == noted.end() ? analysis::site_of_log(id, history, job)
                                       : analysis::site_of_log(id, history, was->second);
        if (!site) continue;
        evidence.sites.push_back(*std::move(site));
        evidence.histories.adopt(id);
    }
}

bool tells_of_bait(const analysis::Observation& o) {
    return o.level_read() || !o.did.empty() || !o.state.empty();
}

/// A job may give a later day of placing once fresh bait was put out. Where visits tell that some
/// stood there before, the trial goes on from the day that the log noted first, and the job's is
/// that of a refill.
void keep_first_placing(const std::vector<log::Note>& notes, Evidence& evidence) {
    std::map<std::string, log::LocalTime> first;
    for (const log::Note& note : notes)
        if (note.fact.kind == log::Fact::Kind::station)
            if (const auto was = recipe::parse_station(note.fact.content); was && was->placed)
                first.emplace(note.fact.name, *was->placed);
    for (std::size_t i = 0; i < evidence.sites.size(); ++i) {
        analysis::Site& site = evidence.sites[i];
        const auto noted = first.find(site.id);
        if (noted == first.end() || !site.baited() || !site.placed) continue;
        const log::LocalTime again = *site.placed;
        const auto before = evidence.histories.until(i, analysis::day_of(again));
        const bool stood = std::ranges::any_of(before, [&](const analysis::Observation& o) {
            return o.time >= noted->second && o.time < again && tells_of_bait(o);
        });
        if (noted->second >= again || !stood) continue;
        site.placed = noted->second;
        site.replace_by.reset();
        if (site.lasts) site.replace_by = analysis::day_of(*site.placed) + *site.lasts;
        visit::Visit refill;
        refill.station = site.id;
        refill.time = again;
        refill.did.add(visit::Did::replaced);
        evidence.histories.add(refill);
    }
    analysis::compare_controls(evidence.sites);
}

std::map<std::string, recipe::Recipe> recipes_now(const job::Job& job, const plan::Plan& plan) {
    std::map<std::string, recipe::Recipe> now;
    for (const auto* mixes : {&plan.mixes, &plan.idle_mixes})
        for (const plan::Mix& mix : *mixes)
            if (const job::Mix* asked = job.mix(mix.id); asked != nullptr)
                now.emplace(mix.id, recipe::recipe_of(*asked, mix));
    return now;
}

}  // namespace

Evidence read(const job::Job& job, const plan::Plan& plan, const log::Log* visits,
              log::LocalTime clock, analysis::Day as_of) {
    auto sites = analysis::sites(job, plan);
    analysis::Histories histories(ids_of(sites));
    for (std::size_t i = 0; i < sites.size(); ++i)
        if (sites[i].until) histories.end(i, *sites[i].until);
    Evidence evidence{std::move(sites), std::move(histories), {}, {}, {}};
    if (visits != nullptr) read_visits(*visits, log::Period(plan, clock), evidence);
    const auto notes = visits == nullptr ? std::vector<log::Note>() : visits->notes();
    add_sites_of_log(job, notes, evidence);
    keep_first_placing(notes, evidence);
    const auto recipes = recipes_of(job, plan, notes);
    for (std::size_t i = 0; i < evidence.sites.size(); ++i) {
        analysis::Site& site = evidence.sites[i];
        site = analysis::as_set_out(std::move(site), evidence.histories.until(i, as_of));
        site.recipes = recipes;
    }
    evidence.report = analysis::report(evidence.sites, evidence.histories, as_of);
    evidence.rounds = analysis::rounds(evidence.report, plan.walk, plan.round_within);
    return evidence;
}

std::vector<log::Fact> facts_of(const job::Job& job, const plan::Plan& plan) {
    std::vector<log::Fact> facts;
    for (const auto& [mix, recipe] : recipes_now(job, plan))
        facts.push_back({log::Fact::Kind::mix, mix, recipe::print(recipe)});
    for (const analysis::Site& site : analysis::sites(job, plan))
        facts.push_back({log::Fact::Kind::station, site.id,
                         recipe::print(recipe::FormerStation{site.pest, site.control, site.sprayed,
                                                             site.containers, site.placed})});
    return facts;
}

std::shared_ptr<const recipe::Book> recipes_of(const job::Job& job, const plan::Plan& plan,
                                               const std::vector<log::Note>& notes) {
    std::vector<recipe::Noted> noted;
    for (const log::Note& note : notes) {
        if (note.fact.kind != log::Fact::Kind::mix) continue;
        if (auto read = recipe::parse(note.fact.content))
            noted.push_back({note.fact.name, *std::move(read), note.since, note.after_entry});
    }
    return std::make_shared<const recipe::Book>(noted, recipes_now(job, plan));
}

}  // namespace gallipot::evidence
