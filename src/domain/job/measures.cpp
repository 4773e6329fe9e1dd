#include <fmt/format.h>
#include <map>
#include <set>

#include "base/strings/ascii.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

using yaml::Kind;
using yaml::Node;

struct Tool {
    std::string_view key;
    Measure::Kind kind;
};
constexpr Tool tools[] = {{"jug", Measure::Kind::jug},
                          {"syringe", Measure::Kind::syringe},
                          {"scale", Measure::Kind::scale}};

std::optional<Measure> read_scoop(const Node& node, ReadContext& context) {
    const auto volume = read_volume(node, *find_key("measures.*"), context);
    if (!volume) return {};
    Measure scoop;
    scoop.name = node.text;
    scoop.volume = **volume;
    scoop.unit = units::written_unit(node.text, context.kitchen);
    scoop.place = node.place;
    return scoop;
}

/// A jug, a syringe or a scale.
std::optional<Measure> read_marked(const Node& node, ReadContext& context) {
    const std::size_t errors = context.out.errors();
    const Fields fields(node, "measures.*", "the measure", context);
    const Tool* found = nullptr;
    int how_many = 0;
    for (const Tool& tool : tools) {
        if (!fields.has(tool.key)) continue;
        found = &tool;
        ++how_many;
    }
    if (how_many != 1) {
        context.out.error("bad-measure", node.place,
                          how_many == 0 ? "a measure with marks is a jug, a syringe or a scale"
                                        : "this is more than one measure",
                          "write each like { jug: 500 mL, marks: 25 mL }");
        return {};
    }
    Measure measure;
    measure.kind = found->kind;
    measure.name = found->key;
    measure.place = node.place;
    const Node* marks = fields.find("marks");
    const Key& rule = fields.rule("marks");
    if (marks != nullptr) measure.unit = units::written_unit(marks->text, context.kitchen);
    bool fits = true;
    if (found->kind == Measure::Kind::scale) {
        if (const auto maximum = fields.mass(found->key)) measure.capacity = **maximum;
        if (marks != nullptr) {
            if (const auto steps = read_mass(*marks, rule, context)) measure.resolution = **steps;
        }
        fits = measure.resolution <= measure.capacity;
    } else {
        if (const auto volume = fields.volume(found->key)) measure.volume = **volume;
        if (marks != nullptr) {
            if (const auto steps = read_volume(*marks, rule, context)) measure.marks = **steps;
        }
        fits = measure.marks <= measure.volume;
    }
    if (context.out.errors() > errors) return {};
    if (!fits) {
        context.out.error("bad-measure", marks->place,
                          diag::say("the {}'s marks are further apart than it goes", found->key),
                          diag::say("write marks smaller than {}", fields.find(found->key)->text));
        return {};
    }
    return measure;
}

}  // namespace

void read_measures(const Fields& top, Job& job, ReadContext& context) {
    std::map<std::string, Place> seen;
    std::map<Measure::Kind, int> of_kind;
    std::vector<std::string> sizes;
    for (const Node& node : top.list("measures")) {
        auto measure =
            node.kind == Kind::mapping ? read_marked(node, context) : read_scoop(node, context);
        if (!measure) continue;
        const Node* size = node.find(measure->name);
        sizes.push_back(size != nullptr ? size->text : std::string());
        const std::string what = fmt::format("{} {}", sizes.back(), measure->name);
        const auto [first, is_new] = seen.emplace(strings::to_lower(what), measure->place);
        if (!is_new) {
            context.out.error(
                "duplicate-name", measure->place,
                diag::say("this measure is there twice; first on line {}", first->second.line),
                "list each measure once");
        }
        ++of_kind[measure->kind];
        job.measures.push_back(std::move(*measure));
    }
    // Two jugs are told apart by their size.
    for (std::size_t i = 0; i < job.measures.size(); ++i) {
        Measure& measure = job.measures[i];
        if (measure.kind == Measure::Kind::scoop || of_kind[measure.kind] < 2) continue;
        measure.name = sizes[i] + " " + measure.name;
    }
}

}  // namespace gallipot::job
