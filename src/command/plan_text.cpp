#include "command/plan_text.hpp"

#include <cmath>
#include <fmt/format.h>

#include "command/table.hpp"

namespace gallipot::command {
namespace {

/// "2 × 1/2 tsp", "jug to 250 mL", "weigh 24 g".
std::string take(const std::vector<plan::MeasureStep>& steps, const text::Catalog& words) {
    if (steps.empty()) return "nothing listed measures it";
    std::string out;
    for (const auto& step : steps) {
        if (!out.empty()) out += " + ";
        switch (step.kind) {
            case job::Measure::Kind::scale:
                out += "weigh " + words.mass(step.weight);
                break;
            case job::Measure::Kind::scoop:
                out += fmt::format("{} × {}", step.times, step.measure);
                break;
            case job::Measure::Kind::jug:
            case job::Measure::Kind::syringe:
                if (step.times > 1) out += fmt::format("{} × ", step.times);
                out += step.measure + " to " + words.volume(step.volume);
                break;
        }
    }
    return out;
}

/// "1 part to 50 = 1.96 %": what was asked in both forms.
std::string asked(const plan::Asked& asked) {
    std::string out = asked.ingredient;
    if (!asked.as.empty()) out += " as " + asked.as;
    if (asked.basis == job::Basis::percent_w_v)
        return out + fmt::format(": {:.3g} g in 100 mL finished, 1 g in {:.3g} mL",
                                 asked.share * 1e2, asked.parts);
    const bool by_volume =
        asked.basis == job::Basis::parts_by_volume || asked.basis == job::Basis::percent_v_v;
    return out + fmt::format(": {:.3g} % of the whole by {}, which is 1 part to {:.3g} of the rest",
                             asked.share * 100, by_volume ? "volume as measured" : "weight",
                             asked.parts);
}

std::string temperatures(const plan::Mix& mix, const text::Catalog& words) {
    if (mix.never_dissolves) return "It never dissolves whole, not even in boiling water.";
    if (!mix.dissolves_above) return {};
    std::string out = "Dissolves above " + words.temperature(*mix.dissolves_above);
    if (mix.crystals_below)
        out += "; crystals come back below " + words.temperature(*mix.crystals_below);
    return out + ".";
}

std::string share(const plan::Mix& mix, const plan::Ingredient& ingredient,
                  const text::Catalog& words) {
    const auto found = mix.strength.find(ingredient.name);
    if (found == mix.strength.end()) return words.percent(ingredient.measured_mass / mix.mass);
    const plan::Strength& strength = found->second;
    std::string out = words.percent(strength.w_w);
    const auto [low, high] = std::pair(strength.w_w_range.low, strength.w_w_range.high);
    const std::string spread = words.percent_range(low, high);
    if (spread != words.percent_range(low, low)) out += " (" + spread + ")";
    return out;
}

std::string mix_text(const job::Job& job, const plan::Mix& mix, const text::Catalog& words) {
    const job::Mix& asked_mix = *job.mix(mix.id);
    std::string out =
        fmt::format("{} ({}), against {}\n", *asked_mix.title, mix.id, *asked_mix.against);
    out += fmt::format(
        "  {} of {}, {} finished",
        mix.batches == 1 ? std::string("1 batch") : fmt::format("{} batches", mix.batches),
        words.mass(mix.mass), words.volume(mix.finished));
    if (mix.containers > 0) out += fmt::format("; fills {} in all", mix.containers);
    out += "\n\n";

    Table table({{"Ingredient"},
                 {"Take"},
                 {"Weight", true},
                 {"Volume", true},
                 {"Off", true},
                 {"Share by weight", true}});
    for (const auto& ingredient : mix.ingredients)
        table.row({ingredient.name, take(ingredient.measures, words),
                   words.mass(ingredient.measured_mass), words.volume(ingredient.measured_volume),
                   fmt::format("{:+.1f} %", ingredient.error * 100),
                   share(mix, ingredient, words)});
    out += table.text() + '\n';
    for (const auto& one : mix.asked) out += "  Asked: " + asked(one) + ".\n";
    if (mix.boric_acid_equivalent_w_w.high > 0)
        out += fmt::format("  Boric acid equivalent {}, boron {} by weight.\n",
                           words.percent_range(mix.boric_acid_equivalent_w_w.low,
                                               mix.boric_acid_equivalent_w_w.high),
                           words.percent(mix.boron_w_w.usual));
    if (const std::string line = temperatures(mix, words); !line.empty()) out += "  " + line + '\n';
    return out + '\n';
}

std::string stations_text(const plan::Plan& plan, const text::Catalog& words) {
    Table table({{"Station"},
                 {"Labels"},
                 {"In one container"},
                 {"Boric acid eq.", true},
                 {"Placed"},
                 {"Replace by"},
                 {"Next visits"}});
    for (const auto& station : plan.stations) {
        std::string contents = "nothing set out: counted for comparison";
        std::string equivalent;
        if (station.per_container) {
            contents = station.containers == 0 ? "sprayed: " : "";
            bool first = true;
            for (const auto& [name, mass] : station.per_container->ingredients) {
                contents += (first ? "" : ", ") + name + " " + words.mass(mass);
                first = false;
            }
            equivalent = words.mass(station.per_container->boric_acid_equivalent);
        }
        std::string visits;
        for (std::size_t i = 0; i < station.visits.size() && i < 3; ++i)
            visits += (i == 0 ? "" : ", ") +
                      words.short_date(
                          job::Date{std::chrono::floor<std::chrono::days>(station.visits[i])});
        if (station.visits.size() > 3)
            visits += fmt::format(" and {} more", station.visits.size() - 3);
        const auto& ids = station.container_ids;
        table.row({station.id,
                   ids.empty()       ? ""
                   : ids.size() == 1 ? ids.front()
                                     : ids.front() + " to " + ids.back(),
                   contents, equivalent,
                   station.placed ? words.short_date(job::Date{
                                        std::chrono::floor<std::chrono::days>(*station.placed)})
                                  : "",
                   station.replace_by ? words.short_date(*station.replace_by) : "", visits});
    }
    return "Stations\n\n" + table.text() + '\n';
}

/// What an open liquid bait does until it is renewed; nothing where none stands open.
std::string drying_text(const plan::Plan& plan, const text::Catalog& words) {
    Table table({{"Station"},
                 {"Water lost a day", true},
                 {"After", true},
                 {"Then boric acid eq.", true},
                 {"Stronger than usual after", true},
                 {"Water to bring one container back", true}});
    for (const auto& station : plan.stations) {
        if (!station.drift) continue;
        const plan::Drift& drift = *station.drift;
        const auto& loss = drift.water_loss_g_per_day;
        const auto& strength = drift.strength_after_lasts_w_w;
        std::string too_strong = "-";
        if (const auto& days = drift.days_to_too_strong)
            too_strong =
                fmt::format("{:.0f} d ({:.0f} to {:.0f})", days->usual, days->low, days->high);
        table.row({station.id,
                   fmt::format("{:.2g} g ({:.2g} to {:.2g})", loss.usual, loss.low, loss.high),
                   fmt::format("{:.3g} d", units::in_days(drift.after)),
                   fmt::format("{} ({})", words.percent(strength.usual),
                               words.percent_range(strength.low, strength.high)),
                   too_strong, words.volume(drift.water_to_restore)});
    }
    if (table.empty()) return {};
    return "As water leaves the open bait (an estimate within a factor of two)\n\n" + table.text() +
           '\n';
}

std::string money(double amount, const std::string& currency) {
    return currency.empty() ? fmt::format("{:.2f}", amount)
                            : fmt::format("{:.2f} {}", amount, currency);
}

std::string shopping_text(const job::Job& job, const plan::Plan& plan, const text::Catalog& words) {
    Table table({{"Buy"}, {"Needed", true}, {"Packs", true}, {"Left over", true}, {"Cost", true}});
    for (const auto& purchase : plan.shopping)
        table.row({purchase.name, words.mass(purchase.mass),
                   purchase.packs ? std::to_string(*purchase.packs) : "",
                   purchase.left_over ? words.mass(*purchase.left_over) : "",
                   purchase.cost ? money(*purchase.cost, job.currency) : ""});
    if (table.empty()) return {};
    std::string out = "Shopping\n\n" + table.text();
    if (plan.cost) {
        out += "\n  In all " + money(plan.cost->total, job.currency);
        if (plan.cost->per_container)
            out += ", " + money(*plan.cost->per_container, job.currency) + " for each container";
        if (!plan.cost->complete) out += ", without what has no price in the job";
        out += ".\n";
    }
    return out;
}

}  // namespace

std::string plan_text(const job::Job& job, const plan::Plan& plan, const text::Catalog& words) {
    std::string out = *job.title + "\n\n";
    for (const auto& mix : plan.mixes) out += mix_text(job, mix, words);
    out += stations_text(plan, words);
    out += drying_text(plan, words);
    out += shopping_text(job, plan, words);
    return out;
}

}  // namespace gallipot::command
