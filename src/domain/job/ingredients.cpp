#include "domain/job/ingredients.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

#include "domain/job/sections.hpp"
#include "domain/reference/substances.hpp"

namespace gallipot::job {

namespace {

using reference::find_substance;
using reference::Substance;
using yaml::Kind;
using yaml::Node;

bool in_parts(Basis basis) {
    return basis == Basis::parts_by_volume || basis == Basis::parts_by_mass;
}
bool by_mass(Basis basis) {
    return basis != Basis::parts_by_volume && basis != Basis::percent_v_v;
}

/// What an ingredient is, as far as is known.
struct Nature {
    const Substance* substance = nullptr;  ///< itself, or what a product holds
    double strength = 1;                   ///< mass of it per mass of the ingredient
};

Nature nature_of(const std::string& name, const Job& job) {
    const auto supply = job.supplies.find(name);
    if (supply == job.supplies.end()) return {find_substance(name), 1};
    if (supply->second.substance) return {find_substance(**supply->second.substance), 1};
    const auto& strength = supply->second.strength;
    if (strength) return {find_substance(*strength->of), strength->share->fraction};
    return {};
}

void check_name(const Node& name, const Job& job, Reading& reading) {
    const auto supply = job.supplies.find(name.text);
    if (supply == job.supplies.end()) {
        if (find_substance(name.text) != nullptr) return;
        std::vector<std::string> known = reference::substance_names();
        for (const auto& [own, unused] : job.supplies) known.push_back(own);
        reading.out.error("unknown-ingredient", name.place,
                          fmt::format("'{}' is neither a supply nor a known substance", name.text),
                          did_you_mean(name.text, known,
                                       fmt::format("add it to supplies, like {}: {{ density: 1.40 "
                                                   "g/mL }}",
                                                   name.text),
                                       reading));
        return;
    }
    if (!supply->second.substance && !supply->second.density) {
        reading.out.error(
            "missing-density", supply->second.place,
            fmt::format("nothing is known of '{}', so its density is needed", name.text),
            "add density: 1.40 g/mL, as scooped or poured");
    }
}

/// "{ as: boric acid, percent: 1 }"
void read_stated_as(const Node& node, const Job& job, const Mix& mix, Ingredient& ingredient,
                    Reading& reading) {
    const Fields fields(node, "mixes.*.ingredients.*",
                        fmt::format("the ingredient '{}'", ingredient.name), reading);
    const auto percent = fields.number("percent");
    const auto parts = fields.number("parts");
    ingredient.as = fields.text("as");
    if (!ingredient.as) return;
    const Place& place = ingredient.as->place;
    const std::string& as = **ingredient.as;

    const Substance* stated = find_substance(as);
    if (stated == nullptr) {
        reading.out.error(
            "unknown-substance", place, fmt::format("unknown substance '{}'", as),
            did_you_mean(as, reference::substance_names(), "write as: boric acid", reading));
    } else if (!stated->borate()) {
        reading.out.error("not-a-borate", place, fmt::format("'{}' is not a borate", as),
                          "write as: boric acid; only borates are converted into each other");
    }
    const Substance* own = nature_of(ingredient.name, job).substance;
    if (own == nullptr || !own->borate()) {
        reading.out.error(
            "not-a-borate", place,
            fmt::format("'{}' holds no borate, so it has no strength as another", ingredient.name),
            "write its amount as a number");
    }
    if (!was_read(mix.basis)) return;
    if (!by_mass(*mix.basis)) {
        reading.out.error("as-by-volume", place, "a strength as another substance goes by mass",
                          "use percent w/w, percent w/v or parts by mass");
        return;
    }
    const std::string_view wanted = in_parts(*mix.basis) ? "parts" : "percent";
    const auto& amount = in_parts(*mix.basis) ? parts : percent;
    for (const std::string_view key : {"percent", "parts"}) {
        if (key == wanted || !fields.has(key)) continue;
        reading.out.error("wrong-amount", node.find_key(key)->place,
                          fmt::format("the mix is in {}, so '{}' does not fit", wanted, key),
                          fmt::format("write {}: {}", wanted, fields.find(key)->text));
        return;
    }
    if (amount) {
        ingredient.amount = *amount;
    } else if (!fields.has(wanted)) {
        reading.out.error("missing-key", node.place,
                          fmt::format("the ingredient '{}' needs '{}'", ingredient.name, wanted),
                          fmt::format("add {}: 1", wanted));
    }
}

/// What an ingredient makes up of the mix, in its own mass: 1 % as boric acid is more of borax.
/// Nothing where that was not readable.
std::optional<double> own_percent(const Ingredient& ingredient, const Job& job) {
    if (!was_read(ingredient.amount)) return {};
    if (!ingredient.as) return *ingredient.amount;
    const Substance* stated = find_substance(**ingredient.as);
    const Nature nature = nature_of(ingredient.name, job);
    const bool convertible = stated != nullptr && stated->borate() && nature.substance != nullptr &&
                             nature.substance->borate();
    if (!convertible) return {};
    return *ingredient.amount * reference::borate_equivalent(*stated, *nature.substance) /
           nature.strength;
}

void check_total(const Node& list, const Job& job, const Mix& mix, Reading& reading) {
    if (!was_read(mix.basis) || in_parts(*mix.basis)) return;
    const auto rest = std::find_if(mix.ingredients.begin(), mix.ingredients.end(),
                                   [](const Ingredient& i) { return i.rest; });
    const bool has_rest = rest != mix.ingredients.end();
    if (*mix.basis == Basis::percent_w_v) {
        // Grams in 100 mL: they need not make 100, but something has to fill the volume up.
        if (has_rest) return;
        reading.out.error("missing-rest", list.place,
                          "percent w/v needs an ingredient that fills the volume up",
                          "write rest for it, like water: rest");
        return;
    }
    double total = 0;
    for (const Ingredient& ingredient : mix.ingredients) {
        if (ingredient.rest) continue;
        const auto percent = own_percent(ingredient, job);
        if (!percent) return;
        total += *percent;
    }
    constexpr double slack = 1e-9;
    if (has_rest && total >= 100 - slack) {
        reading.out.error(
            "bad-total", rest->place,
            fmt::format("the other ingredients make {:.6g} %; no rest is left for '{}'", total,
                        rest->name),
            "lower their amounts");
    } else if (!has_rest && std::abs(total - 100) > slack) {
        reading.out.error("bad-total", list.place,
                          fmt::format("the ingredients make {:.6g} %, not 100 %", total),
                          total < 100 ? "write rest for the one that fills it up"
                                      : "lower their amounts, or give the mix in parts");
    }
}

Ingredient read_ingredient(const Node& name, const Node& node, const Job& job, const Mix& mix,
                           Reading& reading) {
    Ingredient ingredient;
    ingredient.name = name.text;
    ingredient.place = name.place;
    if (node.kind == Kind::mapping) {
        read_stated_as(node, job, mix, ingredient, reading);
    } else if (node.kind == Kind::scalar && node.text == "rest") {
        ingredient.rest = true;
        if (was_read(mix.basis) && in_parts(*mix.basis)) {
            reading.out.error("rest-in-parts", node.place,
                              "parts have no whole that rest could fill",
                              "write how many parts, or use a percent basis");
        }
    } else {
        keep(ingredient.amount, read_number(node, *find_key("mixes.*.ingredients.*"), reading));
    }
    return ingredient;
}

}  // namespace

void read_ingredients(const Fields& fields, const Job& job, Mix& mix, Reading& reading) {
    std::set<std::string> seen;
    const Ingredient* rest = nullptr;
    const auto& entries = fields.named("ingredients");
    mix.ingredients.reserve(entries.size());
    for (const auto& [name, node] : entries) {
        check_name(name, job, reading);
        if (!seen.insert(folded(name.text)).second) {
            reading.out.error("duplicate-name", name.place,
                              fmt::format("'{}' is there twice, in other letters", name.text),
                              "add the two amounts up");
        }
        mix.ingredients.push_back(read_ingredient(name, node, job, mix, reading));
        if (!mix.ingredients.back().rest) continue;
        if (rest != nullptr) {
            reading.out.error("two-rests", node.place,
                              fmt::format("'{}' is the rest already", rest->name),
                              "write rest for one ingredient only");
        } else {
            rest = &mix.ingredients.back();
        }
    }
    if (!entries.empty()) check_total(*fields.find("ingredients"), job, mix, reading);
}

void read_limits(const Fields& fields, Mix& mix, Reading& reading) {
    const Key& rule = *find_key("mixes.*.limits.*");
    if (fields.has("limits") && was_read(mix.basis) && in_parts(*mix.basis)) {
        reading.out.error("limit-in-parts", fields.node().find_key("limits")->place,
                          "a limit cannot be held against parts, which have no whole",
                          "give the mix on a percent basis, or take limits out");
        return;
    }
    for (const auto& entry : fields.named("limits")) {
        const Node& name = entry.first;
        const Node& node = entry.second;
        const auto limit = read_number(node, rule, reading);
        const auto ingredient =
            std::find_if(mix.ingredients.begin(), mix.ingredients.end(),
                         [&](const Ingredient& i) { return i.name == name.text; });
        if (ingredient == mix.ingredients.end()) {
            std::vector<std::string> names;
            for (const Ingredient& i : mix.ingredients) names.push_back(i.name);
            reading.out.error(
                "unknown-ingredient", name.place,
                fmt::format("'{}' is no ingredient of the mix '{}'", name.text, mix.id),
                did_you_mean(name.text, names, "name one of its ingredients", reading));
            continue;
        }
        if (!limit) continue;
        if (ingredient->rest) {
            reading.out.error(
                "bad-limit", name.place,
                fmt::format("'{}' is the rest; its amount follows from the others", name.text),
                "limit another ingredient");
            continue;
        }
        if (was_read(ingredient->amount) && **limit < *ingredient->amount) {
            reading.out.error(
                "bad-limit", node.place,
                fmt::format("the limit is below the {:g} that are asked for", *ingredient->amount),
                "raise the limit or lower the amount");
            continue;
        }
        mix.limits.emplace(name.text, *limit);
    }
}

}  // namespace gallipot::job
