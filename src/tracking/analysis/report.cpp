#include "tracking/analysis/report.hpp"

#include <algorithm>

#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

/// The job's verdict from all its treated stations: the same rules on the pooled counts.
Verdict verdict_of(const Report& report, bool all_timber, bool past_window) {
    const auto how_many = [&](Verdict verdict) {
        const auto found = report.treated.find(verdict);
        return found == report.treated.end() ? 0 : found->second;
    };
    std::size_t all = 0;
    for (const auto& [verdict, number] : report.treated) all += number;
    const Trend& t = report.trend;
    if (all == how_many(Verdict::not_started)) return Verdict::not_started;
    if (all == how_many(Verdict::not_started) + how_many(Verdict::never_visited))
        return Verdict::never_visited;
    if (all == how_many(Verdict::retired)) return Verdict::retired;
    if (all_timber) {
        if (how_many(Verdict::wood_active) > 0) return Verdict::wood_active;
        return how_many(Verdict::wood_unknown) > 0 ? Verdict::wood_unknown : Verdict::wood_quiet;
    }
    if (t.counts == 0) return Verdict::not_counted;
    const bool compared = std::ranges::any_of(report.stations, [](const StationReport& s) {
        return !s.control && !s.timber && s.trend.counts > 1;
    });
    if (!compared) return Verdict::counted_once;
    if (t.none_ever()) return Verdict::none_seen;
    if (t.none_since) return Verdict::gone;
    if (t.rises) return Verdict::rising;
    if (past_window && !t.falls && t.last.seen > rules::halved * t.first.seen)
        return Verdict::stalled;
    if (t.falls && t.last.seen < t.first.seen) return Verdict::falling;
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

/// Of all treated stations that have controls. Where the controls tell pests apart and more than
/// one pest has some, there is no single figure.
Efficacy efficacy_of_all(const std::vector<Site>& sites, const Report& report,
                         const std::map<std::string, Controls>& controls) {
    const bool told_apart = std::ranges::any_of(
        sites, [](const Site& site) { return site.control && !site.pest.empty(); });
    const Controls* compared = nullptr;
    std::size_t pests = 0;
    for (const auto& [pest, of_pest] : controls) {
        if (!of_pest.any()) continue;
        compared = &of_pest;
        ++pests;
    }
    if (compared == nullptr) return {};
    Efficacy none;
    none.why_none = NoControl::several_pests;
    if (told_apart && pests > 1) return none;
    std::vector<const Counts*> treated;
    std::optional<LocalTime> placed;
    for (std::size_t i = 0; i < sites.size(); ++i) {
        if (sites[i].control || sites[i].timber || !controls.at(sites[i].pest).any()) continue;
        treated.push_back(&report.stations[i].counts);
        if (sites[i].placed) placed = std::min(placed.value_or(*sites[i].placed), *sites[i].placed);
    }
    const Trend trend = trend_of_all(treated);
    none.why_none = NoControl::not_counted;
    if (!(trend.first.time < trend.last.time)) return none;
    return compared->against_all(trend.first, trend.last, placed);
}

}  // namespace

Report report(const std::vector<Site>& sites, const Histories& histories, Day as_of) {
    Report result;
    result.as_of = as_of;
    result.unknown_stations = histories.unknown_stations();
    result.left_out = histories.left_out();

    std::map<std::string, Controls> controls = controls_by_pest(sites, histories, as_of);
    Controls nobody({});
    std::vector<const Counts*> treated;
    result.stations.reserve(sites.size());
    for (std::size_t i = 0; i < sites.size(); ++i) {
        result.stations.push_back(
            report_station(sites[i], histories.until(i, as_of),
                           sites[i].control ? nobody : controls.at(sites[i].pest), as_of));
        const StationReport& station = result.stations.back();
        if (!station.control) {
            ++result.treated[station.verdict];
            if (station.retired) ++result.retired;
            // New holes are not added to what walks about.
            if (!station.timber) treated.push_back(&station.counts);
            if (station.result_by)
                result.result_by =
                    std::max(result.result_by.value_or(*station.result_by), *station.result_by);
            if (!sites[i].sprayed && sites[i].in_job)
                add_use(result.used, sites[i], station.feeding.used);
        }
    }

    result.trend = trend_of_all(treated);
    result.efficacy = efficacy_of_all(sites, result, controls);
    const bool past_window = result.result_by && result.trend.counts > 0 &&
                             day_of(result.trend.last.time) >= *result.result_by;
    result.verdict = verdict_of(result, treated.empty(), past_window);
    result.caution = caution_of(result.verdict, result.efficacy);
    return result;
}

}  // namespace gallipot::analysis
