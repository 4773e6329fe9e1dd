#include "domain/job/ingredients.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

#include "base/strings/ascii.hpp"
#include "base/units/number.hpp"
#include "base/units/unit_table.hpp"
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
bool in_percent(Basis basis) {
    return !in_parts(basis) && basis != Basis::as_measured;
}
diag::Text in_words(Basis basis) {
    switch (basis) {
        case Basis::parts_by_volume:
            return "parts by volume";
        case Basis::parts_by_mass:
            return "parts by mass";
        case Basis::percent_w_w:
            return "percent w/w";
        case Basis::percent_w_v:
            return "percent w/v";
        case Basis::percent_v_v:
            return "percent v/v";
        case Basis::as_measured:
            break;
    }
    return "amounts with units";
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

void check_name(const Node& name, const Job& job, ReadContext& context) {
    const auto supply = job.supplies.find(name.text);
    if (supply == job.supplies.end()) {
        if (find_substance(name.text) != nullptr || context.unread.contains("supplies")) return;
        std::vector<std::string> known = reference::substance_names();
        for (const auto& [own, unused] : job.supplies) known.push_back(own);
        context.out.error(
            "unknown-ingredient", name.place,
            diag::say("'{}' is neither a supply nor a known substance", name.text),
            substance_meant(name.text, known,
                            "add it to supplies with its density, as scooped or poured"));
        return;
    }
    if (!supply->second.substance && !supply->second.density) {
        context.out.error(
            "missing-density", supply->second.place,
            diag::say("nothing is known of '{}', so its density is needed", name.text),
            "add its density in g/mL, as scooped or poured: weigh a cup of it");
    }
}

/// "{ as: boric acid, percent: 1 }"
void read_stated_as(const Node& node, const Job& job, const Mix& mix, Ingredient& ingredient,
                    ReadContext& context) {
    const Fields fields(node, "mixes.*.ingredients.*",
                        diag::say("the ingredient '{}'", ingredient.name), context);
    const auto percent = fields.number("percent");
    const auto parts = fields.number("parts");
    ingredient.as = fields.text("as");
    if (!ingredient.as) return;
    const Place& place = ingredient.as->place;
    const std::string& as = **ingredient.as;

    const Substance* stated = find_substance(as);
    if (stated == nullptr) {
        context.out.error(
            "unknown-substance", place, diag::say("unknown substance '{}'", as),
            substance_meant(as, reference::substance_names(), "name the borate that is meant"));
    } else if (!stated->borate()) {
        context.out.error(
            "not-a-borate", place, diag::say("'{}' is not a borate", as),
            "name the borate that is meant; only borates are converted into each other");
    }
    const Substance* own = nature_of(ingredient.name, job).substance;
    const bool unknown = own == nullptr && context.unread.contains("supplies");
    if (!unknown && (own == nullptr || !own->borate())) {
        context.out.error(
            "not-a-borate", place,
            diag::say("'{}' holds no borate, so it has no strength as another", ingredient.name),
            "write its amount without 'as'");
    }
    if (!was_read(mix.basis)) return;
    if (*mix.basis == Basis::as_measured) {
        context.out.error(
            "as-measured-out", place,
            "other amounts have units, and a strength as another substance has none",
            diag::say("write how much of '{}' itself there is, with its unit", ingredient.name));
        return;
    }
    if (!by_mass(*mix.basis)) {
        context.out.error("as-by-volume", place, "a strength as another substance goes by mass",
                          "look up whether the recipe goes by mass, in percent w/w, percent w/v or "
                          "parts by mass; else write how much of it there is, without 'as'");
        return;
    }
    const std::string_view wanted = in_parts(*mix.basis) ? "parts" : "percent";
    const diag::Text wanted_words = in_parts(*mix.basis) ? "parts" : "percent";
    const auto& amount = in_parts(*mix.basis) ? parts : percent;
    for (const std::string_view key : {"percent", "parts"}) {
        if (key == wanted || !fields.has(key)) continue;
        context.out.error("wrong-amount", node.find_key(key)->place,
                          diag::say("the mix is in {}, so '{}' does not fit", wanted_words, key),
                          diag::say("say how many {} it is", wanted_words));
        return;
    }
    if (amount) {
        ingredient.amount = *amount;
    } else if (fields.lacks(wanted)) {
        context.out.error("missing-key", node.place,
                          diag::say("the ingredient '{}' needs '{}'", ingredient.name, wanted),
                          diag::say("add {}: and how much it is", wanted));
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

void check_total(const Node& list, const Job& job, const Mix& mix, ReadContext& context) {
    if (!was_read(mix.basis) || !in_percent(*mix.basis)) return;
    const auto rest = std::find_if(mix.ingredients.begin(), mix.ingredients.end(),
                                   [](const Ingredient& i) { return i.rest; });
    const bool has_rest = rest != mix.ingredients.end();
    if (*mix.basis == Basis::percent_w_v) {
        // Grams in 100 mL: they need not make 100, but something has to fill the volume up.
        if (has_rest) return;
        context.out.error("missing-rest", list.place,
                          "percent w/v needs an ingredient that fills the volume up",
                          "write rest for the one that fills it up");
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
        context.out.error("bad-total", rest->place,
                          diag::say("the other ingredients make {:.6g} %; no rest is left for '{}'",
                                    total, rest->name),
                          "look the amounts up again where the recipe comes from");
    } else if (!has_rest && std::abs(total - 100) > slack) {
        context.out.error("bad-total", list.place,
                          diag::say("the ingredients make {:.6g} %, not 100 %", total),
                          total < 100 ? "look the amounts up again; where one only fills it up, "
                                        "write rest for that"
                                      : "look the amounts up again; where they are parts, say so "
                                        "as the basis");
    }
}

/// What stands behind the number of an amount: "cup" of "1/2 cup". Empty where nothing does, and
/// where it does not begin with a number.
std::string_view unit_behind(const Node& node) {
    if (node.kind != Kind::scalar) return {};
    const auto read = units::read_number(node.text, units::Sign::positive);
    const auto* number = std::get_if<units::Number>(&read);
    if (number == nullptr) return {};
    std::string_view unit = std::string_view(node.text).substr(number->end);
    unit.remove_prefix(std::min(unit.find_first_not_of(' '), unit.size()));
    return unit;
}
bool is_share(std::string_view unit) {
    return unit.starts_with('%') || unit.starts_with("percent") || unit.starts_with("part");
}
bool has_unit(const Node& node) {
    const std::string_view unit = unit_behind(node);
    return !unit.empty() && !is_share(unit);
}

/// "1 1/2 tbsp", "200 g"
void read_measured(const Node& node, Ingredient& ingredient, ReadContext& context) {
    const Key& rule = *find_key("mixes.*.ingredients.*");
    if (!is_scalar(node, rule, context)) return;
    const std::string unit(unit_behind(node));
    if (unit.empty() || is_share(unit)) {
        context.out.error(
            "missing-unit", node.place,
            diag::say("'{}' has no unit, and other amounts of the mix have", node.text),
            "write how much of it there is, with its unit");
        return;
    }
    const auto known = units::find_unit(unit, context.kitchen);
    const bool volume = known && known->dimension == units::Dimension::volume;
    if (known && known->dimension == units::Dimension::mass) {
        if (const auto mass = read_mass(node, rule, context)) ingredient.mass = **mass;
    } else if (volume || units::needs_system(unit, context.kitchen)) {
        if (const auto amount = read_volume(node, rule, context)) ingredient.volume = **amount;
    } else {
        // A near spelling is not offered: tsp and tbsp are near, and not the same.
        context.out.error(known ? "wrong-unit" : "unknown-unit", node.place,
                          diag::say("'{}' is neither a volume nor a mass", node.text),
                          "use mL, L, tsp, tbsp, cup, fl oz, g, kg, oz or lb");
    }
    if (!ingredient.mass && !ingredient.volume) return;
    ingredient.unit = units::written_unit(node.text, context.kitchen);
    ingredient.amount = {0, node.place};
}

/// A number on the mix's basis.
void read_amount(const Node& node, const Mix& mix, Ingredient& ingredient, ReadContext& context) {
    const std::string_view unit = unit_behind(node);
    const bool fits =
        !was_read(mix.basis) || unit.empty() || (in_percent(*mix.basis) && unit == "%");
    if (fits) {
        keep(ingredient.amount, read_number(node, *find_key("mixes.*.ingredients.*"), context));
        return;
    }
    context.out.error(
        "unit-not-wanted", node.place,
        diag::say("'{}' has a unit, but the mix is in {}", node.text, in_words(*mix.basis)),
        is_share(unit) ? diag::say("say how much it is in {}", in_words(*mix.basis))
                       : "take 'basis' out where every amount has its unit, or say how much it is "
                         "on that basis");
}

Ingredient read_ingredient(const Node& name, const Node& node, const Job& job, const Mix& mix,
                           ReadContext& context) {
    Ingredient ingredient;
    ingredient.name = name.text;
    ingredient.place = name.place;
    const bool measured = was_read(mix.basis) && *mix.basis == Basis::as_measured;
    if (node.kind == Kind::mapping) {
        read_stated_as(node, job, mix, ingredient, context);
    } else if (node.kind == Kind::scalar && node.text == "rest") {
        ingredient.rest = true;
        if (was_read(mix.basis) && !in_percent(*mix.basis)) {
            context.out.error(
                "rest-in-parts", node.place,
                measured ? diag::say("amounts with units have no whole that rest could fill")
                         : diag::say("parts have no whole that rest could fill"),
                measured ? "write how much of it there is, with its unit"
                         : "write how many parts it is");
        }
    } else if (measured) {
        read_measured(node, ingredient, context);
    } else {
        read_amount(node, mix, ingredient, context);
    }
    return ingredient;
}

/// "1.5" on the mix's basis, or "5 % w/w".
std::optional<Limit> read_limit(const Node& node, const Mix& mix, ReadContext& context) {
    const Key& rule = *find_key("mixes.*.limits.*");
    constexpr std::pair<std::string_view, Basis> own[] = {{"% w/w", Basis::percent_w_w},
                                                          {"% w/v", Basis::percent_w_v},
                                                          {"% v/v", Basis::percent_v_v}};
    const std::string_view unit = unit_behind(node);
    for (const auto& [written, basis] : own) {
        if (unit != written) continue;
        Node number = node;
        number.text = node.text.substr(0, node.text.size() - written.size());
        number.text.erase(number.text.find_last_not_of(' ') + 1);
        number.quoted = false;
        const auto percent = read_number(number, rule, context);
        if (!percent) return {};
        return Limit{{**percent, node.place}, basis};
    }
    if (was_read(mix.basis) && !in_percent(*mix.basis) && node.kind == Kind::scalar) {
        context.out.error("limit-in-parts", node.place,
                          diag::say("a limit cannot be held against {}, which have no whole",
                                    in_words(*mix.basis)),
                          "say which percent it is: % w/w, % w/v or % v/v behind the number");
        return {};
    }
    const auto percent = read_number(node, rule, context);
    if (!percent) return {};
    return Limit{*percent, {}};
}

}  // namespace

void read_basis_from_amounts(const Fields& fields, Mix& mix, ReadContext& context) {
    const Node* list = fields.find("ingredients");
    const bool measured = list != nullptr && list->kind == Kind::mapping &&
                          std::any_of(list->entries.begin(), list->entries.end(),
                                      [](const auto& entry) { return has_unit(entry.second); });
    if (measured) {
        mix.basis = {Basis::as_measured, list->place};
        return;
    }
    if (fields.node().kind != Kind::mapping || fields.misspelt("basis") ||
        fields.misspelt("ingredients"))
        return;  // told already
    context.out.error(
        "missing-key", fields.node().place,
        diag::say("the mix '{}' needs 'basis', which says what its numbers mean", mix.id),
        diag::say("add basis: with {}; or give every amount its unit",
                  type_in_words(fields.rule("basis"))));
}

void read_ingredients(const Fields& fields, const Job& job, Mix& mix, ReadContext& context) {
    std::set<std::string> seen;
    const Ingredient* rest = nullptr;
    const auto& entries = fields.named("ingredients");
    mix.ingredients.reserve(entries.size());
    for (const auto& [name, node] : entries) {
        check_name(name, job, context);
        if (!seen.insert(strings::to_lower(name.text)).second) {
            context.out.error("duplicate-name", name.place,
                              diag::say("'{}' is there twice, in other letters", name.text),
                              "write it once, with the amount that the recipe says");
        }
        mix.ingredients.push_back(read_ingredient(name, node, job, mix, context));
        if (!mix.ingredients.back().rest) continue;
        if (rest != nullptr) {
            context.out.error("two-rests", node.place,
                              diag::say("'{}' is the rest already", rest->name),
                              "write rest for one ingredient only");
        } else {
            rest = &mix.ingredients.back();
        }
    }
    if (!entries.empty()) check_total(*fields.find("ingredients"), job, mix, context);
}

void read_limits(const Fields& fields, Mix& mix, ReadContext& context) {
    for (const auto& entry : fields.named("limits")) {
        const Node& name = entry.first;
        const Node& node = entry.second;
        const auto limit = read_limit(node, mix, context);
        const auto ingredient =
            std::find_if(mix.ingredients.begin(), mix.ingredients.end(),
                         [&](const Ingredient& i) { return i.name == name.text; });
        if (ingredient == mix.ingredients.end()) {
            std::vector<std::string> names;
            for (const Ingredient& i : mix.ingredients) names.push_back(i.name);
            context.out.error(
                "unknown-ingredient", name.place,
                diag::say("'{}' is no ingredient of the mix '{}'", name.text, mix.id),
                did_you_mean(name.text, names, "name one of its ingredients", context));
            continue;
        }
        if (!limit) continue;
        if (ingredient->rest) {
            context.out.error(
                "bad-limit", name.place,
                diag::say("'{}' is the rest; its amount follows from the others", name.text),
                "limit another ingredient");
            continue;
        }
        // On another basis it is held against what the amounts come to, later.
        if (!limit->basis && was_read(ingredient->amount) &&
            *limit->percent < *ingredient->amount) {
            context.out.error(
                "bad-limit", node.place,
                diag::say("the limit of {:g} % is lower than the {:g} % in 'ingredients'",
                          *limit->percent, *ingredient->amount),
                "look up where the recipe comes from which of the two is wrong, and correct it");
            continue;
        }
        mix.limits.emplace(name.text, *limit);
    }
}

}  // namespace gallipot::job
