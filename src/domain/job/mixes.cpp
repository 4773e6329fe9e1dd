#include <fmt/format.h>
#include <map>

#include "domain/job/ingredients.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

using yaml::Node;

constexpr Form forms[] = {Form::liquid, Form::dry, Form::paste, Form::spray};
constexpr Basis bases[] = {Basis::parts_by_volume, Basis::parts_by_mass, Basis::percent_w_w,
                           Basis::percent_w_v, Basis::percent_v_v};

Mix read_mix(const Node& id, const Node& node, Job& job, Reading& reading) {
    Mix mix;
    mix.id = id.text;
    mix.place = id.place;
    const Fields fields(node, "mixes.*", fmt::format("the mix '{}'", id.text), reading);
    keep(mix.title, fields.local_text("title"));
    keep(mix.against, fields.text("against"));
    if (const auto form = fields.choice("form")) mix.form = {forms[**form], form->place};
    if (const auto basis = fields.choice("basis")) mix.basis = {bases[**basis], basis->place};
    read_ingredients(fields, job, mix, reading);
    read_limits(fields, mix, reading);
    keep(mix.spare, fields.share("spare"));
    keep(mix.tolerance, fields.share("tolerance"));
    mix.vessel = fields.volume("vessel");
    mix.batch = fields.volume("batch");
    mix.lasts = fields.duration("lasts");
    mix.visits = fields.visits("visits");
    read_accepted(fields, "mixes.*", false, mix.place, job, reading);
    return mix;
}

}  // namespace

void read_mixes(const Fields& top, Job& job, Reading& reading) {
    std::map<std::string, int> lines;
    for (const auto& [id, node] : top.named("mixes")) {
        read_id(id, *find_key("mixes.*"), reading);
        const auto [first, is_new] = lines.emplace(folded(id.text), id.place.line);
        if (!is_new) {
            reading.out.error("duplicate-name", id.place,
                              fmt::format("'{}' differs only in letter case from line {}", id.text,
                                          first->second),
                              "give each mix a name of its own");
        }
        job.mixes.push_back(read_mix(id, node, job, reading));
    }
}

}  // namespace gallipot::job
