#include "cli/report_json.hpp"

#include <array>
#include <fmt/format.h>

#include "base/strings/dates.hpp"
#include "cli/figure.hpp"
#include "cli/step_words.hpp"
#include "domain/job/on_day.hpp"
#include "papers/document/bait_strength.hpp"
#include "papers/document/building_words.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/verdict_words.hpp"

namespace gallipot::cli {
namespace {

using analysis::Day;

Json iso(Day day) {
    return strings::iso_date(std::chrono::year_month_day(day));
}
Json iso(analysis::LocalTime time) {
    return iso(analysis::day_of(time));
}

std::string_view word(analysis::Verdict verdict) {
    constexpr std::array<std::string_view, 18> words{
        "not started", "never visited",  "not counted", "counted once", "none seen",
        "gone",        "none this time", "falling",     "lower",        "no change",
        "rising",      "rebound",        "stalled",     "taken up",     "control",
        "wood active", "wood quiet",     "wood unknown"};
    return words.at(static_cast<std::size_t>(verdict));
}

/// `by` and `on` are the same day.
Json json(const analysis::StationReport& station, const std::vector<analysis::Step>& steps) {
    Json all = Json::array();
    for (const analysis::Step& step : steps)
        all.push_back(
            {{"do", cli::word(step.action)},
             {"container",
              step.container == 0 ? Json(nullptr) : Json(station.container_id(step.container))},
             {"on", iso(step.on)},
             {"by", iso(step.on)},
             {"why", cli::word(step.why)}});
    return all;
}

/// What it was filled with; null where nobody knows.
Json holding(const analysis::ContainerState& container) {
    const auto& [recipe, mixed, older, other_mix] = container.holds;
    if (!recipe) return nullptr;
    Json parts = Json::object();
    for (const recipe::Part& part : recipe->parts) parts[part.name] = figure(part.share * 100);
    return {{"percent_w_w", std::move(parts)},
            {"boric_acid_equivalent_percent_w_w", figure(recipe->boric_acid_equivalent * 100)},
            {"older_recipe", older},
            {"mixed", mixed},
            {"other_mix", other_mix}};
}

Json containers_json(const analysis::StationReport& station) {
    Json all = Json::array();
    for (const analysis::ContainerState& container : station.containers) {
        Json state = Json::array();
        for (const visit::State each : visit::all_states())
            if (container.open.has(each)) state.push_back(visit::word(each));
        const auto filled = container.filled();
        all.push_back(
            {{"id", station.container_id(container.number)},
             {"state", std::move(state)},
             {"set_out", container.set_out},
             {"taken_up", container.taken_up},
             {"filled", filled ? iso(*filled) : Json(nullptr)},
             {"replace_by", container.replace_by ? iso(*container.replace_by) : Json(nullptr)},
             {"holds", holding(container)},
             {"level_percent",
              container.level_percent ? Json(*container.level_percent) : Json(nullptr)}});
    }
    return all;
}

/// The figures that a station and the job as a whole have in common.
void add_trend(Json& out, const analysis::Trend& t, const analysis::Efficacy& efficacy) {
    const auto by = [&](analysis::Formula formula) {
        return efficacy.formula == formula ? figure(efficacy.percent) : Json(nullptr);
    };
    const bool compared = t.counts > 1;
    out["change_percent"] = compared ? figure(t.change_percent) : Json(nullptr);
    out["henderson_tilton_percent"] = by(analysis::Formula::henderson_tilton);
    out["abbott_percent"] = by(analysis::Formula::abbott);
    out["half_days"] = t.half ? figure(t.half->days) : Json(nullptr);
    out["half_days_low"] = t.half ? figure(t.half->low) : Json(nullptr);
    out["half_days_high"] = t.half ? figure(t.half->high) : Json(nullptr);
    out["tenth_days"] = t.tenth ? figure(t.tenth->days) : Json(nullptr);
    out["tenth_days_low"] = t.tenth ? figure(t.tenth->low) : Json(nullptr);
    out["tenth_days_high"] = t.tenth ? figure(t.tenth->high) : Json(nullptr);
    out["counts"] = t.counts;
    out["first_seen"] = t.counts > 0 ? figure(t.first.seen) : Json(nullptr);
    out["first_on"] = t.counts > 0 ? iso(t.first.time) : Json(nullptr);
    out["last_seen"] = t.counts > 0 ? figure(t.last.seen) : Json(nullptr);
    out["last_on"] = t.counts > 0 ? iso(t.last.time) : Json(nullptr);
}

/// How much more the numbers fell than at the controls.
void add_effect(Json& out, const analysis::Efficacy& efficacy) {
    const bool compared = efficacy.formula == analysis::Formula::henderson_tilton;
    out["effect_percent"] = compared ? figure(efficacy.percent) : Json(nullptr);
    out["effect_low"] = compared ? figure(efficacy.interval->low) : Json(nullptr);
    out["effect_high"] = compared ? figure(efficacy.interval->high) : Json(nullptr);
    out["beyond_control"] = compared ? Json(efficacy.beyond_control) : Json(nullptr);
    out["controls"] = efficacy.controls;
}

std::string_view word(analysis::ExposureUnit unit) {
    constexpr std::array<std::string_view, 3> words{"none", "minutes", "trap nights"};
    return words.at(static_cast<std::size_t>(unit));
}

/// How a station's counts were made. `seen` figures are as with the first count's exposure.
void add_counting(Json& out, const analysis::StationReport& station) {
    const analysis::Counts& counts = station.counts;
    const bool any = !counts.empty();
    out["first_before_placing"] = any ? Json(counts.baseline) : Json(nullptr);
    out["exposure_unit"] = any ? Json(word(counts.unit)) : Json(nullptr);
    out["exposure_first"] = any ? figure(counts.exposure) : Json(nullptr);
    out["last_counted"] = any ? figure(station.trend.last.counted()) : Json(nullptr);
    out["counts_not_compared"] = counts.not_alike;
}

/// Boric acid equivalent of an open bait, by the level read last.
Json json(const std::optional<document::BaitStrength>& strength) {
    if (!strength) return nullptr;
    const auto& [percent, water] = strength->reading;
    return {{"on", iso(strength->on)},
            {"percent_w_w", figure(percent.usual * 100)},
            {"percent_w_w_low", figure(percent.low * 100)},
            {"percent_w_w_high", figure(percent.high * 100)},
            {"add_water_mL", figure(units::in_mL(water.usual))},
            {"add_water_mL_high", figure(units::in_mL(water.high))}};
}

Json json(const analysis::StationReport& station, const plan::Plan& plan, Day as_of,
          const text::Catalog& words) {
    Json out{{"id", station.id}};
    add_trend(out, station.trend, station.efficacy);
    add_effect(out, station.efficacy);
    add_counting(out, station);
    const analysis::Level* level = station.feeding.first_empty();
    out["empty_on"] = level ? iso(level->empty->at) : Json(nullptr);
    out["empty_on_low"] = level ? iso(level->empty->low) : Json(nullptr);
    out["empty_on_high"] = level && level->empty->high ? iso(*level->empty->high) : Json(nullptr);
    if (level == nullptr && !station.feeding.levels.empty())
        level = &station.feeding.levels.front();
    out["level_percent"] = level ? figure(level->left_percent) : Json(nullptr);
    out["percent_per_day"] = level ? figure(level->percent_per_day) : Json(nullptr);
    out["boric_acid_equivalent"] = json(document::bait_strength(plan, station));
    Json flags = Json::array();
    for (const analysis::Flag flag : station.flags) flags.push_back(analysis::word(flag));
    out["flags"] = std::move(flags);
    out["outcome"] = word(station.verdict);
    out["verdict"] = document::verdict_sentence(station, as_of, words);
    out["effect"] = document::effect_sentence(station.efficacy, as_of, words);
    out["caution"] = document::caution_sentence(station.caution, words);
    out["counting"] = document::counting_sentence(station, words);
    out["containers"] = containers_json(station);
    out["next"] = json(station, station.steps);
    return out;
}

/// What became another up to the day, and when it was taken up.
void add_history(const job::Job& job, std::size_t index, Day as_of, Json& out) {
    Json changes = Json::array();
    out["until"] = nullptr;
    out["in_job"] = index < job.stations.size() + job.retired.size();
    if (out["in_job"]) {
        const job::Station& station = job.station_at(index);
        for (const job::Alteration& it : job::alterations(station, {})) {
            if (analysis::day_of(it.on) > as_of) break;
            changes.push_back({{"on", iso(it.on)},
                               {"what", job::word(it.what)},
                               {"from", it.from},
                               {"to", it.to}});
        }
        if (station.until) out["until"] = iso(Day(std::chrono::local_days(**station.until)));
        Json was = Json::array();
        for (const auto& name : station.was) was.push_back(*name);
        if (!was.empty()) out["was"] = std::move(was);
    }
    out["changes"] = std::move(changes);
}

/// All stations against one pest.
Json json(const analysis::PestReport& pest, Day as_of, const text::Catalog& words) {
    const analysis::Trend& t = pest.trend;
    Json out{{"first", t.counts > 0 ? figure(t.first.seen) : Json(nullptr)},
             {"last", t.counts > 0 ? figure(t.last.seen) : Json(nullptr)}};
    add_trend(out, t, pest.efficacy);
    add_effect(out, pest.efficacy);
    out["dispersion"] = t.counts > 1 ? figure(t.dispersion.value) : Json(nullptr);
    Json stations = Json::object();
    for (const auto& [verdict, number] : pest.stations) stations[word(verdict)] = number;
    out["stations"] = std::move(stations);
    out["verdict"] = word(pest.verdict);
    out["sentence"] = document::verdict_sentence(pest, as_of, words);
    out["effect"] = document::effect_sentence(pest.efficacy, as_of, words);
    out["caution"] = document::caution_sentence(pest.caution, words);
    return out;
}

Json json(const analysis::Report& report) {
    Json call = Json::array();
    for (const std::size_t i : report.building.call_professional)
        call.push_back(report.stations[i].id);
    return {{"verdict", word(report.building.verdict)},
            {"call_professional", !report.building.call_professional.empty()},
            {"call_professional_at", std::move(call)}};
}

}  // namespace

std::string report_json(const job::Job& job, const analysis::Report& report, const plan::Plan& plan,
                        const std::vector<analysis::Round>& walks, const text::Catalog& words) {
    Json stations = Json::array();
    for (std::size_t i = 0; i < report.stations.size(); ++i) {
        stations.push_back(json(report.stations[i], plan, report.as_of, words));
        add_history(job, i, report.as_of, stations.back());
    }
    Json pests = Json::object();
    for (const analysis::PestReport& pest : report.pests)
        pests[pest.pest] = json(pest, report.as_of, words);
    // Of one pest alone all stations have figures in common.
    const analysis::PestReport only =
        report.pests.size() == 1 ? report.pests.front() : analysis::PestReport();
    const std::string verdict = report.pests.size() == 1
                                    ? document::verdict_sentence(only, report.as_of, words)
                                    : document::building_sentence(job, report, words);
    Json all = Json::object();
    add_trend(all, only.trend, only.efficacy);
    Json used = Json::array();
    for (const auto& use : report.used)
        used.push_back({{"mix", use.mix},
                        {"put_out_containers", figure(use.containers.put_out)},
                        {"gone_containers", figure(use.containers.gone)},
                        {"put_out_mL", figure(units::in_mL(use.put_out))},
                        {"gone_mL", figure(units::in_mL(use.gone))},
                        {"at_most", use.containers.at_most},
                        {"cost", figure(use.cost)}});
    Json visits = Json::array();
    for (const auto& walk : walks) {
        Json stops = Json::array();
        for (const auto& stop : walk.stops) {
            const auto& station = report.stations[stop.station];
            stops.push_back({{"id", station.id}, {"next", json(station, stop.steps)}});
        }
        visits.push_back({{"on", iso(walk.on)}, {"stations", std::move(stops)}});
    }
    Json warnings = Json::array();
    for (const text::StyledText& warning :
         document::warnings_of(document::wood_pests(job), job, words))
        warnings.push_back(text::plain(warning));
    Json left_out = Json::object();
    for (const auto& [id, number] : report.unknown_stations) left_out[id] = number;
    const Json out{{"as_of", iso(report.as_of)},
                   {"stations", std::move(stations)},
                   {"pests", std::move(pests)},
                   {"building", json(report)},
                   {"all", std::move(all)},
                   {"outcome", word(report.building.verdict)},
                   {"verdict", verdict},
                   {"effect", document::effect_sentence(only.efficacy, report.as_of, words)},
                   {"caution", document::caution_sentence(only.caution, words)},
                   {"warnings", std::move(warnings)},
                   {"used", std::move(used)},
                   {"next_visits", std::move(visits)},
                   {"visits_left_out", std::move(left_out)},
                   {"entries_left_out",
                    {{"impossible_time", report.left_out.impossible},
                     {"after_until", report.left_out.after_end},
                     {"unreadable", report.left_out.unreadable}}}};
    return out.dump(2) + '\n';
}

}  // namespace gallipot::cli
