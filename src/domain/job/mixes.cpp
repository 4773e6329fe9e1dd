#include <fmt/format.h>
#include <map>
#include <utility>

#include "base/strings/ascii.hpp"
#include "domain/job/ingredients.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

using yaml::Node;

constexpr Form forms[] = {Form::liquid, Form::dry, Form::paste, Form::spray};
constexpr Basis bases[] = {Basis::parts_by_volume, Basis::parts_by_mass, Basis::percent_w_w,
                           Basis::percent_w_v,     Basis::percent_v_v,   Basis::as_measured};

/// "as written", "3 times", or a volume.
void read_batch(const Fields& fields, Mix& mix, ReadContext& context) {
    const Node* node = fields.find("batch");
    const Key& key = fields.rule("batch");
    if (node == nullptr || !is_scalar(*node, key, context)) return;
    constexpr std::string_view behind = " times";
    std::string times;
    if (node->text == "as written") times = "1";
    if (node->text.ends_with(behind)) {
        times = node->text.substr(0, node->text.size() - behind.size());
    }
    if (times.empty()) {
        mix.batch = read_volume(*node, key, context);
        mix.batch_unit = fields.unit("batch");
        return;
    }
    if (was_read(mix.basis) && *mix.basis != Basis::as_measured) {
        context.out.error("batch-of-what", node->place,
                          diag::say("'{}' is for amounts with units; parts and percent have no "
                                    "size",
                                    node->text),
                          "write batch: as a volume, or leave it out");
        return;
    }
    Node number = *node;
    number.text = times;
    number.quoted = false;
    const auto parsed = read_number(number, *find_key("mixes.*.ingredients.*"), context);
    if (parsed) mix.batch_times = At<double>{**parsed, node->place};
}

Mix read_mix(const Node& id, const Node& node, Job& job, ReadContext& context) {
    Mix mix;
    mix.id = id.text;
    mix.place = id.place;
    const Fields fields(node, "mixes.*", diag::say("the mix '{}'", id.text), context);
    keep(mix.title, fields.local_text("title"));
    keep(mix.against, fields.text("against"));
    if (const auto form = fields.choice("form")) mix.form = {forms[**form], form->place};
    if (const auto basis = fields.choice("basis")) {
        mix.basis = {bases[**basis], basis->place};
    } else if (!fields.has("basis")) {
        read_basis_from_amounts(fields, mix, context);
    }
    read_ingredients(fields, job, mix, context);
    read_limits(fields, mix, context);
    keep(mix.spare, fields.share("spare"));
    keep(mix.tolerance, fields.share("tolerance"));
    mix.vessel = fields.volume("vessel");
    mix.vessel_unit = fields.unit("vessel");
    read_batch(fields, mix, context);
    mix.makes = fields.volume("makes");
    mix.makes_unit = fields.unit("makes");
    if (fields.has("batch") && fields.has("makes")) {
        context.out.error(
            "batch-and-makes", fields.node().find_key("makes")->place,
            "'batch' is what is measured before mixing, 'makes' what is there after it: "
            "only one of the two can be kept to",
            "keep the one that is meant");
    }
    mix.lasts = fields.duration("lasts");
    if (auto visits = fields.visits("visits")) mix.visits = std::move(visits->every);
    read_accepted(fields, "mixes.*", false, mix.place, job, context);
    return mix;
}

}  // namespace

void read_mixes(const Fields& top, Job& job, ReadContext& context) {
    std::map<std::string, int> lines;
    for (const auto& [id, node] : top.named("mixes")) {
        read_id(id, *find_key("mixes.*"), context);
        const auto [first, is_new] = lines.emplace(strings::to_lower(id.text), id.place.line);
        if (!is_new) {
            context.out.error(
                "duplicate-name", id.place,
                diag::say("'{}' differs only in letter case from line {}", id.text, first->second),
                "give each mix a name of its own");
        }
        job.mixes.push_back(read_mix(id, node, job, context));
    }
}

}  // namespace gallipot::job
