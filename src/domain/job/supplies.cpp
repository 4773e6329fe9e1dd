#include <fmt/format.h>
#include <map>

#include "base/strings/ascii.hpp"
#include "base/units/parse.hpp"
#include "domain/job/sections.hpp"
#include "domain/reference/substances.hpp"

namespace gallipot::job {

namespace {

using units::Density;
using units::Range;
using yaml::Kind;
using yaml::Node;

std::optional<At<std::string>> known_substance(const std::optional<At<std::string>>& name,
                                               ReadContext& context) {
    if (!name || reference::find_substance(**name) != nullptr) return name;
    context.out.error(
        "unknown-substance", name->place, diag::say("unknown substance '{}'", **name),
        substance_meant(**name, reference::substance_names(),
                        "leave it out, and give the density of a substance of your own"));
    return {};
}

std::optional<At<Range<Density>>> read_density_or_range(const Node& node, const Key& rule,
                                                        ReadContext& context) {
    if (node.kind != Kind::mapping) {
        const auto density = read_density(node, rule, context);
        if (!density) return {};
        return At<Range<Density>>{Range<Density>::exactly(**density), node.place};
    }
    const Fields fields(node, "supplies.*.density", "the density", context);
    const auto from = fields.density("from");
    const auto to = fields.density("to");
    if (!from || !to) return {};
    if (**from > **to) {
        const std::string &low = fields.find("to")->text, &high = fields.find("from")->text;
        context.out.error("bad-range", to->place,
                          diag::say("the range goes from {} down to {}", high, low),
                          diag::say("write {{ from: {}, to: {} }}", low, high));
        return {};
    }
    return At<Range<Density>>{{**from, (**from + **to) / 2, **to}, node.place};
}

void read_pack(const Fields& fields, Pack& pack, ReadContext& context) {
    pack.price = fields.number("price");
    const Node* node = fields.find("pack");
    if (node == nullptr) {
        if (!fields.has("price") || !fields.lacks("pack")) return;
        context.out.error("missing-key", fields.find("price")->place, "a price without a pack",
                          "add pack: with how much there is in it for that price");
        return;
    }
    const Key& rule = fields.rule("pack");
    if (!is_scalar(*node, rule, context)) return;
    pack.unit = fields.unit("pack");
    const auto as_volume = units::parse_volume(node->text, context.kitchen);
    if (std::holds_alternative<units::Volume>(as_volume)) {
        pack.volume = read_volume(*node, rule, context);
    } else {
        pack.mass = read_mass(*node, rule, context);
    }
}

std::optional<Strength> read_strength(const Node& node, ReadContext& context) {
    const Fields fields(node, "supplies.*.strength", "the strength", context);
    const auto of = known_substance(fields.text("of"), context);
    const auto percent = fields.number("percent");
    if (!of || !percent) return {};
    return Strength{*of, {units::Share::percent(**percent), percent->place}};
}

bool holds_borate(const Supply& supply) {
    const auto borate = [](const std::string& name) {
        const auto* substance = reference::find_substance(name);
        return substance != nullptr && substance->borate();
    };
    return (supply.substance && borate(**supply.substance)) ||
           (supply.strength && borate(*supply.strength->of));
}

Supply read_supply(const Node& name, const Node& node, ReadContext& context) {
    Supply supply;
    supply.name = name.text;
    supply.place = name.place;
    const Fields fields(node, "supplies.*", diag::say("the supply '{}'", name.text), context);
    supply.substance = known_substance(fields.text("substance"), context);
    if (const Node* density = fields.find("density")) {
        supply.density = read_density_or_range(*density, fields.rule("density"), context);
    }
    if (const Node* strength = fields.find("strength")) {
        supply.strength = read_strength(*strength, context);
    }
    if (fields.has("strength") && fields.has("substance")) {
        context.out.error("strength-and-substance", fields.find("strength")->place,
                          "a supply is a known substance or has a strength of its own, not both",
                          "take out substance, and give the density of the whole");
    }
    // A known name stands for itself.
    if (!fields.has("substance") && !fields.has("strength") &&
        reference::find_substance(name.text) != nullptr) {
        supply.substance = At<std::string>{name.text, name.place};
    }
    read_pack(fields, supply.pack, context);
    if (const auto hazard = fields.choice("hazard")) {
        supply.hazard = At<std::string>{"none", hazard->place};
        if (holds_borate(supply)) {
            context.out.error("known-hazard", hazard->place, "borates have a hazard that is known",
                              "take out hazard");
        }
    }
    return supply;
}

}  // namespace

void read_supplies(const Fields& top, Job& job, ReadContext& context) {
    if (context.unread.contains("supplies")) return;
    std::map<std::string, int> lines;
    for (const auto& [name, node] : top.named("supplies")) {
        if (!read_text(name, *find_key("supplies.*"), context)) continue;
        const auto [first, is_new] = lines.emplace(strings::to_lower(name.text), name.place.line);
        if (!is_new) {
            context.out.error("duplicate-name", name.place,
                              diag::say("'{}' differs only in letter case from line {}", name.text,
                                        first->second),
                              "give each supply a name of its own");
        }
        job.supplies.emplace(name.text, read_supply(name, node, context));
    }
}

}  // namespace gallipot::job
