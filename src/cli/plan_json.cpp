#include "cli/plan_json.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <ostream>

#include "cli/mix_json.hpp"
#include "cli/rounds_json.hpp"
#include "domain/job/keys.hpp"
#include "domain/safety/dose.hpp"
#include "tracking/analysis/power.hpp"

namespace gallipot::cli {
namespace {

Json json(const plan::Contents& contents) {
    Json grams = Json::object();
    for (const auto& [name, mass] : contents.ingredients) grams[name] = figure(units::in_g(mass));
    return {{"mass_g", figure(units::in_g(contents.mass))},
            {"ingredients_g", std::move(grams)},
            {"boric_acid_equivalent_g", figure(units::in_g(contents.boric_acid_equivalent))},
            {"boron_g", figure(units::in_g(contents.boron))}};
}

std::string_view word(qr::Verdict verdict) {
    switch (verdict) {
        case qr::Verdict::good:
            return "good";
        case qr::Verdict::doubtful:
            return "doubtful";
        case qr::Verdict::bad:
            break;
    }
    return "bad";
}

/// The code on a station's labels.
Json json(const layout::LabelReport& label) {
    if (label.version == 0) return nullptr;
    const int modules = qr::modules_at(label.version);
    Json checks = Json::array();
    for (const auto& check : label.checks)
        checks.push_back({{"name", check.name},
                          {"verdict", word(check.verdict)},
                          {"value", figure(check.value)},
                          {"limit", figure(check.limit)},
                          {"unit", check.unit}});
    return {{"version", label.version},
            {"level", std::string(1, qr::letter(label.level))},
            {"modules", modules},
            {"module_mm", figure(label.module_mm)},
            {"width_mm", figure(modules * label.module_mm)},
            {"quiet_zone_modules", qr::quiet_zone},
            {"checks", std::move(checks)}};
}

Json range(const units::Range<double>& range, double factor = 1) {
    return {{"low", figure(range.low * factor)},
            {"usual", figure(range.usual * factor)},
            {"high", figure(range.high * factor)}};
}

Json json(const plan::Evaporation& evaporation) {
    return {
        {"after_days", figure(units::in_days(evaporation.after))},
        {"water_loss_g_per_day", range(evaporation.water_loss_g_per_day)},
        {"boric_acid_equivalent_percent_w_w", range(evaporation.strength_after_lasts_w_w, 100)},
        {"days_to_too_strong",
         evaporation.days_to_too_strong ? range(*evaporation.days_to_too_strong) : Json(nullptr)},
        {"water_to_restore_mL", figure(units::in_mL(evaporation.water_to_restore.usual))},
        {"water_to_restore_mL_range",
         Json::array({figure(units::in_mL(evaporation.water_to_restore.low)),
                      figure(units::in_mL(evaporation.water_to_restore.high))})}};
}

/// Boric acid equivalent.
Json json(const plan::Loading& loading) {
    return {{"g_per_m2", figure(loading.per_area.si() * 1000)},
            {"kg_per_m3", figure(loading.in_wood.si())},
            {"depth_mm", figure(units::in_mm(loading.depth))}};
}

std::string_view word(plan::ContainerKind kind) {
    switch (kind) {
        case plan::ContainerKind::cup:
            return "cup";
        case plan::ContainerKind::vessel:
            return "vessel";
        case plan::ContainerKind::leftovers:
            return "leftovers";
        case plan::ContainerKind::decanted:
            break;
    }
    return "decanted";
}

/// Share by mass of everything in a container but water: of a mix by ingredient, of a supply by
/// substance.
Json strength(const plan::Container& container, const plan::Plan& plan) {
    Json out = Json::object();
    if (container.kind == plan::ContainerKind::decanted) {
        for (const auto& [substance, share] : container.parts)
            if (substance != "water") out[substance] = percent(share);
        return out;
    }
    for (const auto& [name, strength] : plan.mix(container.mix)->strength)
        out[name] = percent(strength.w_w);
    return out;
}

Json or_null(const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

/// Boric acid equivalent in grams by what is left, from all that is gone eaten to all dried up.
Json grams_by_level(const plan::Container& container, const job::Job& job) {
    const bool dries = *job.mix(container.mix)->form != job::Form::dry;
    Json out = Json::object();
    for (const auto& [name, level] :
         {std::pair{"full", 1.0}, {"3/4", 0.75}, {"1/2", 0.5}, {"1/4", 0.25}}) {
        const auto left =
            safety::left_at_level(container.contents->boric_acid_equivalent, level, dries);
        out[name] = Json::array({figure(units::in_g(left.low)), figure(units::in_g(left.high))});
    }
    return out;
}

Json dose(const plan::Container& container) {
    if (!container.contents) return nullptr;
    return figure(safety::child_10kg_mg_per_kg(container.contents->boric_acid_equivalent));
}

/// What a label says of the hazard and what it has no room for; null where it fits on nothing.
Json statements(const plan::Container& container, const app::LabelOnStock& label) {
    if (label.report == nullptr) return nullptr;
    const auto& missing = label.report->statements_left_out;
    Json carried = Json::array(), left_out = Json::array();
    for (const auto& code : container.statements()) {
        const bool gone = std::find(missing.begin(), missing.end(), code) != missing.end();
        (gone ? left_out : carried).push_back(code);
    }
    return {
        {"stock", label.stock}, {"carried", std::move(carried)}, {"left_out", std::move(left_out)}};
}

Json json(const plan::Container& container, const job::Job& job, const plan::Plan& plan,
          const app::LabelOnStock& label) {
    Json out{
        {"id", container.id},
        {"kind", word(container.kind)},
        {"station", or_null(container.station)},
        {"mix", container.mix},
        {"supply", or_null(container.supply)},
        {"contents", container.contents ? json(*container.contents) : Json(nullptr)},
        {"strength_percent_w_w", strength(container, plan)},
        {"hazard", hazard_json(*container.hazard)},
        {"statements", statements(container, label)},
        {"made", iso(container.made)},
        {"placed", container.placed ? Json(iso(*container.placed)) : Json(nullptr)},
        {"replace_by", container.replace_by ? Json(iso(*container.replace_by)) : Json(nullptr)},
        {"link", or_null(container.link)},
        {"child_10kg_mg_per_kg", dose(container)}};
    if (container.kind == plan::ContainerKind::cup)
        out["boric_acid_equivalent_g_by_level"] = grams_by_level(container, job);
    return out;
}

Json json(const plan::Station& station, const layout::LabelReport* label) {
    Json visits = Json::array();
    for (const auto& visit : station.visits) visits.push_back(iso(visit));
    Json out{{"id", station.id}, {"containers", station.containers}};
    if (station.containers > 0) out["container_ids"] = station.container_ids;
    if (station.per_container)
        out[station.containers > 0 ? "per_container" : "surface"] = json(*station.per_container);
    if (station.loading) out["loading"] = json(*station.loading);
    if (station.evaporation) out["drift"] = json(*station.evaporation);
    out["placed"] = station.placed ? Json(iso(*station.placed)) : Json(nullptr);
    out["replace_by"] = station.replace_by ? Json(iso(*station.replace_by)) : Json(nullptr);
    out["no_sprays_until"] =
        station.no_sprays_until ? Json(iso(*station.no_sprays_until)) : Json(nullptr);
    out["visits"] = std::move(visits);
    out["link"] = station.link;
    out["code"] = label != nullptr ? json(*label) : Json(nullptr);
    return out;
}

Json json(const plan::Purchase& purchase) {
    Json out{{"name", purchase.name}, {"mass_g", figure(units::in_g(purchase.mass))}};
    out["packs"] = purchase.packs ? Json(*purchase.packs) : Json(nullptr);
    out["left_over_g"] =
        purchase.left_over ? figure(units::in_g(*purchase.left_over)) : Json(nullptr);
    out["cost"] = purchase.cost ? figure(*purchase.cost) : Json(nullptr);
    return out;
}

Json premises(const job::Job& job) {
    if (!job.premises) return nullptr;
    return job::word_of("premises", **job.premises);
}

Json asked(const job::Job& job) {
    if (!job.asked) return nullptr;
    return {
        {"whom", *job.asked->whom}, {"on", iso(*job.asked->on)}, {"answer", *job.asked->answer}};
}

Json numbers(const safety::WhoToCall& who, job::Date prepared) {
    Json all = Json::array();
    for (const safety::ShownNumber& number : who.numbers())
        all.push_back({{"phone", number.phone},
                       {"source", number.source},
                       {"shown_on", number.shown_on ? Json(iso(*number.shown_on)) : Json(nullptr)},
                       {"old", number.is_old(prepared)}});
    return all;
}

/// What the job says of the place, in its main language.
void add_where(const job::Station& asked, Json& station) {
    station["room"] = asked.room ? Json((*asked.room)->main()) : Json(nullptr);
    station["place"] = asked.place->main();
    station["unit"] = asked.unit ? Json((*asked.unit)->main()) : Json(nullptr);
    station["locked"] = asked.locked;
    station["inspected"] = nullptr;
    if (!asked.was.empty()) {
        station["was"] = Json::array();
        for (const auto& name : asked.was) station["was"].push_back(*name);
    }
    if (asked.until) station["until"] = iso(**asked.until);
    if (asked.inspected)
        station["inspected"] = {{"by", *asked.inspected->by}, {"on", iso(*asked.inspected->on)}};
}

/// As it stands `depth` levels deep in a larger one.
std::string indented(const Json& json, std::size_t depth) {
    const std::string lines = json.dump(2);
    std::string out;
    for (const char c : lines) {
        out += c;
        if (c == '\n') out.append(2 * depth, ' ');
    }
    return out;
}

/// What the planned counts can show.
Json evidence(const job::Job& job, const plan::Plan& plan) {
    const analysis::Assumed assumed;
    Json all = Json::array();
    for (const analysis::Design& design : analysis::designs_of(analysis::sites(job, plan))) {
        const auto wanted = analysis::controls_wanted(design, 0.5);
        all.push_back({{"pest", design.pest},
                       {"stations", design.treated},
                       {"controls", design.controls},
                       {"counts", design.days.size()},
                       {"finds_fall_to_half", figure(analysis::power(design, 0.5))},
                       {"finds_fall_to_fifth", figure(analysis::power(design, 0.2))},
                       {"controls_for_8_of_10", wanted ? Json(*wanted) : Json(nullptr)},
                       {"assumed",
                        {{"first", assumed.first},
                         {"variance_over_mean", assumed.dispersion},
                         {"slopes_differ_per_day", assumed.slopes_differ}}}});
    }
    return all;
}

}  // namespace

void write_plan_json(std::ostream& out, const job::Job& job, const safety::WhoToCall& who,
                     const plan::Plan& plan, const std::vector<app::LabelOnStock>& labels,
                     const std::vector<std::string>& warnings) {
    Json mixes = Json::object();
    for (const auto& mix : plan.mixes) mixes[mix.id] = mix_json(mix, *job.mix(mix.id)->basis);
    Json shopping = Json::array();
    for (const auto& purchase : plan.shopping) shopping.push_back(json(purchase));
    Json cost = nullptr;
    if (plan.cost) {
        cost = {{"total", figure(plan.cost->total)}};
        cost["per_container"] =
            plan.cost->per_container ? figure(*plan.cost->per_container) : Json(nullptr);
        cost["complete"] = plan.cost->complete;
        cost["currency"] = job.currency.empty() ? Json(nullptr) : Json(job.currency);
    }
    out << "{\n  \"premises\": " << premises(job).dump() << ",\n  \"asked\": " << asked(job).dump()
        << ",\n  \"numbers\": " << indented(numbers(who, *job.prepared), 1)
        << ",\n  \"mixes\": " << indented(mixes, 1) << ",\n  \"stations\": [";
    // One by one: a large job has more of them than should be held as JSON at once.
    std::size_t cup = 0;
    for (std::size_t i = 0; i < plan.stations.size(); ++i) {
        // The labels of a station differ in their number alone.
        const bool labelled =
            cup < labels.size() && plan.containers[cup].station == plan.stations[i].id;
        Json station = json(plan.stations[i], labelled ? labels[cup].report.get() : nullptr);
        cup += plan.stations[i].container_ids.size();
        if (i < job.stations.size()) add_where(job.stations[i], station);
        out << (i > 0 ? ",\n    " : "\n    ") << indented(station, 2);
    }
    out << (plan.stations.empty() ? "]" : "\n  ]")
        << ",\n  \"evidence\": " << indented(evidence(job, plan), 1)
        << ",\n  \"rounds\": " << indented(rounds_json(plan), 1) << ",\n  \"containers\": [";
    for (std::size_t i = 0; i < plan.containers.size(); ++i)
        out << (i > 0 ? ",\n    " : "\n    ")
            << indented(json(plan.containers[i], job, plan,
                             i < labels.size() ? labels[i] : app::LabelOnStock{}),
                        2);
    out << (plan.containers.empty() ? "]" : "\n  ]")
        << ",\n  \"shopping\": " << indented(shopping, 1) << ",\n  \"cost\": " << indented(cost, 1)
        << ",\n  \"warnings\": " << indented(Json(warnings), 1) << "\n}\n";
}

}  // namespace gallipot::cli
