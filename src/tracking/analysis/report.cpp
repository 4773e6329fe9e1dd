#include "tracking/analysis/report.hpp"

#include <algorithm>

#include "tracking/analysis/pest_evidence.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

/// The verdict on a pest from all its stations: the same rules on all counts together.
Verdict verdict_of(const PestReport& pest) {
    const auto how_many = [&](Verdict verdict) {
        const auto found = pest.stations.find(verdict);
        return found == pest.stations.end() ? 0 : found->second;
    };
    std::size_t all = 0;
    for (const auto& [verdict, number] : pest.stations) all += number;
    const Trend& t = pest.trend;
    if (all == how_many(Verdict::not_started)) return Verdict::not_started;
    if (all == how_many(Verdict::not_started) + how_many(Verdict::never_visited))
        return Verdict::never_visited;
    if (all == how_many(Verdict::retired)) return Verdict::retired;
    if (pest.timber) {
        if (how_many(Verdict::wood_active) > 0) return Verdict::wood_active;
        return how_many(Verdict::wood_unknown) > 0 ? Verdict::wood_unknown : Verdict::wood_quiet;
    }
    if (t.counts == 0) return Verdict::not_counted;
    if (t.compared == 0) return Verdict::counted_once;
    if (t.none_ever()) return Verdict::none_seen;
    if (t.none_since) return t.gone ? Verdict::gone : Verdict::none_now;
    if (t.rebounds) return Verdict::rebound;
    if (t.rises) return Verdict::rising;
    if (t.stays && t.last.seen > 0) return Verdict::stalled;
    if (t.falls) return Verdict::falling;
    return t.last.seen <= rules::halved * t.first.seen ? Verdict::lower : Verdict::no_change;
}

void add_use(std::vector<MixUse>& all, const Site& site, const Used& used) {
    auto use = std::ranges::find(all, site.mix, &MixUse::mix);
    if (use == all.end()) use = all.insert(all.end(), {site.mix, {}, {}, {}, {}});
    use->containers.put_out += used.put_out;
    use->containers.gone += used.gone;
    use->containers.at_most = use->containers.at_most || used.at_most;
    use->put_out += site.filling * used.put_out;
    use->gone += site.filling * used.gone;
    if (site.cost) use->cost = use->cost.value_or(0) + *site.cost * used.put_out;
}

/// All counts of a control station, those in each unit by themselves; at least one, which may be
/// empty. Nothing is placed there that would part them.
std::vector<Counts> counts_by_unit(std::span<const Observation> history) {
    std::vector<Counts> all;
    for (const ExposureUnit unit :
         {ExposureUnit::none, ExposureUnit::minutes, ExposureUnit::trap_nights}) {
        Counting how;
        how.unit = unit;
        Counts counts = counts_of(history, how);
        if (!counts.empty()) all.push_back(std::move(counts));
    }
    if (all.empty()) all.emplace_back();
    return all;
}

/// For every pest that something is set out against: the controls it is compared with, which are
/// those where it was counted and those that do not say what was.
std::map<std::string, Controls> controls_by_pest(const std::vector<Site>& sites,
                                                 const Histories& histories, Day as_of) {
    std::map<std::size_t, std::vector<Counts>> of_control;
    for (std::size_t i = 0; i < sites.size(); ++i)
        if (sites[i].control) of_control[i] = counts_by_unit(histories.until(i, as_of));
    std::map<std::string, Controls> result;
    for (const Site& site : sites) {
        if (site.control || result.contains(site.pest)) continue;
        std::vector<Counts> of_pest;
        bool same_pest = true;
        for (const auto& [i, counted] : of_control) {
            if (!sites[i].compares_with(site.pest)) continue;
            of_pest.insert(of_pest.end(), counted.begin(), counted.end());
            same_pest = same_pest && sites[i].pest == site.pest;
        }
        result.emplace(site.pest, Controls(std::move(of_pest), same_pest));
    }
    return result;
}

/// What the counts of every station come to, and what those of each pest do.
struct Counted {
    std::vector<StationCounts> stations;
    std::vector<PestReport> pests;
};

Counted counted(const std::vector<Site>& sites, const Histories& histories, Day as_of) {
    Counted result;
    std::map<std::string, Controls> controls = controls_by_pest(sites, histories, as_of);
    std::map<std::string, std::vector<std::size_t>> of_pest;
    for (std::size_t i = 0; i < sites.size(); ++i) {
        const Site& site = sites[i];
        StationCounts station;
        station.counts = counts_of(histories.until(i, as_of), site.counting());
        station.trend = site.control ? control_trend(station.counts) : trend_of(station.counts);
        // New holes are not what is left of the holes before.
        if (site.timber) station.trend.change_percent.reset();
        result.stations.push_back(std::move(station));
        if (site.control) continue;
        if (!of_pest.contains(site.pest)) {
            PestReport pest;
            pest.pest = site.pest;
            pest.timber = site.timber;
            result.pests.push_back(std::move(pest));
        }
        of_pest[site.pest].push_back(i);
    }
    for (PestReport& pest : result.pests) {
        if (pest.timber) continue;
        const auto& indices = of_pest.at(pest.pest);
        std::vector<TreatedPlace> places;
        for (const std::size_t i : indices) {
            TreatedPlace place{&result.stations[i].counts,
                               sites[i].placed,
                               {},
                               sites[i].gone_days,
                               sites[i].empty_counts};
            if (sites[i].window)
                place.result_by = day_of(days_after(
                    start_of(sites[i], histories.until(i, as_of), as_of), sites[i].window->high));
            places.push_back(place);
        }
        PestEvidence evidence = evidence_of(places, controls.at(pest.pest));
        for (std::size_t k = 0; k < indices.size(); ++k) {
            result.stations[indices[k]].trend = std::move(evidence.trends[k]);
            result.stations[indices[k]].efficacy = std::move(evidence.effects[k]);
        }
        pest.trend = std::move(evidence.trend);
        pest.efficacy = std::move(evidence.effect);
    }
    return result;
}

Building building_of(const Report& report) {
    Building building;
    for (const PestReport& pest : report.pests)
        if (badness(pest.verdict) > badness(building.verdict) ||
            building.verdict == Verdict::not_started)
            building.verdict = pest.verdict;
    for (const std::size_t i : worst_first(report))
        if (std::ranges::any_of(report.stations[i].steps, [](const Step& step) {
                return step.action == Action::call_professional;
            }))
            building.call_professional.push_back(i);
    return building;
}

}  // namespace

int badness(Verdict verdict) {
    switch (verdict) {
        case Verdict::wood_active:
            return 9;
        case Verdict::rising:
            return 8;
        case Verdict::rebound:
            return 7;
        case Verdict::stalled:
            return 6;
        case Verdict::no_change:
            return 5;
        case Verdict::lower:
            return 4;
        case Verdict::falling:
            return 3;
        case Verdict::none_now:
        case Verdict::never_visited:
        case Verdict::not_counted:
        case Verdict::counted_once:
        case Verdict::wood_unknown:
            return 2;
        case Verdict::none_seen:
        case Verdict::gone:
        case Verdict::wood_quiet:
            return 1;
        case Verdict::not_started:
        case Verdict::retired:
        case Verdict::control:
            return 0;
    }
    return 0;
}

std::vector<std::size_t> worst_first(const Report& report) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < report.stations.size(); ++i)
        if (!report.stations[i].control && !report.stations[i].retired) order.push_back(i);
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
        const StationReport &one = report.stations[a], &other = report.stations[b];
        if (badness(one.verdict) != badness(other.verdict))
            return badness(one.verdict) > badness(other.verdict);
        return one.trend.last.seen > other.trend.last.seen;
    });
    return order;
}

Report report(const std::vector<Site>& sites, const Histories& histories, Day as_of) {
    Report result;
    result.as_of = as_of;
    result.unknown_stations = histories.unknown_stations();
    result.left_out = histories.left_out();

    Counted counts = counted(sites, histories, as_of);
    result.pests = std::move(counts.pests);
    result.stations.reserve(sites.size());
    for (std::size_t i = 0; i < sites.size(); ++i) {
        result.stations.push_back(report_station(sites[i], histories.until(i, as_of),
                                                 std::move(counts.stations[i]), as_of));
        const StationReport& station = result.stations.back();
        if (station.control) continue;
        PestReport& pest = *std::ranges::find(result.pests, station.pest, &PestReport::pest);
        ++pest.stations[station.verdict];
        if (station.retired) ++result.retired;
        if (station.result_by) {
            pest.result_by =
                std::max(pest.result_by.value_or(*station.result_by), *station.result_by);
            result.result_by =
                std::max(result.result_by.value_or(*station.result_by), *station.result_by);
        }
        if (!sites[i].sprayed && sites[i].in_job)
            add_use(result.used, sites[i], station.feeding.used);
    }
    for (PestReport& pest : result.pests) {
        pest.verdict = verdict_of(pest);
        pest.caution = caution_of(pest.verdict, pest.efficacy);
    }
    // What all against a pest show together, each need not show by itself.
    for (StationReport& station : result.stations) {
        const auto pest = std::ranges::find(result.pests, station.pest, &PestReport::pest);
        if (!station.control && pest != result.pests.end() && pest->efficacy.beyond_control &&
            station.caution == Caution::like_control)
            station.caution = Caution::none;
    }
    result.building = building_of(result);
    return result;
}

}  // namespace gallipot::analysis
