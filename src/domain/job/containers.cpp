#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <numbers>

#include "base/strings/ascii.hpp"
#include "domain/job/openings.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

using yaml::Node;

template <class Q>
std::optional<Q> value_of(const std::optional<At<Q>>& read) {
    return read ? std::optional<Q>(**read) : std::nullopt;
}

Body read_body(const Node& node, const diag::Text& who, ReadContext& context) {
    const Fields fields(node, "containers.*.body", diag::say("the body of {}", who), context);
    Body body;
    body.place = node.place;
    body.diameter = value_of(fields.length("diameter"));
    body.height = value_of(fields.length("height"));
    body.lid = value_of(fields.length("lid"));
    for (const auto& [has, lacks] :
         {std::pair("diameter", "height"), std::pair("height", "diameter")}) {
        if (!fields.has(has) || !fields.lacks(lacks)) continue;
        context.out.error("missing-key", node.place,
                          diag::say("a wall's {} needs its {} too", has, lacks),
                          add_example(fields.rule(lacks)));
    }
    return body;
}

Container read_container(const Node& id, const Node& node, ReadContext& context) {
    const diag::Text who = diag::say("the container '{}'", id.text);
    const Fields fields(node, "containers.*", who, context);
    Container container;
    container.id = id.text;
    container.place = id.place;
    keep(container.holds, fields.volume("holds"));
    keep(container.fill, fields.volume("fill"));
    container.fill_unit = fields.unit("fill");
    container.exposure = fields.area("exposure");
    if (const Node* body = fields.find("body")) container.body = read_body(*body, who, context);
    if (const Node* openings = fields.find("openings")) {
        container.openings =
            read_openings(*openings, fields.rule("openings"), container.body, context);
    }
    if (fields.has("labels")) {
        for (const Node& item : fields.list("labels")) {
            auto stock = read_text(item, *find_key("containers.*.labels.*"), context);
            if (!stock) continue;
            const bool twice = std::ranges::any_of(
                container.labels, [&](const auto& other) { return *other == **stock; });
            if (twice)
                context.out.error("given-twice", item.place,
                                  diag::say("{} names '{}' twice", who, **stock),
                                  "take one of them out");
            else
                container.labels.push_back(std::move(*stock));
        }
    }
    const bool both = was_read(container.holds) && was_read(container.fill);
    if (both && *container.fill > *container.holds) {
        context.out.error("fill-above-holds", container.fill.place,
                          diag::say("{} is filled with more than it holds", who),
                          diag::say("write at most {}", fields.find("holds")->text));
    }
    return container;
}

}  // namespace

void read_containers(const Fields& top, Job& job, ReadContext& context) {
    std::map<std::string, int> lines;
    for (const auto& [id, node] : top.named("containers")) {
        read_id(id, *find_key("containers.*"), context);
        const auto [first, is_new] = lines.emplace(strings::to_lower(id.text), id.place.line);
        if (!is_new) {
            context.out.error(
                "duplicate-name", id.place,
                diag::say("'{}' differs only in letter case from line {}", id.text, first->second),
                "give each container a name of its own");
        }
        job.containers.push_back(read_container(id, node, context));
    }
}

}  // namespace gallipot::job
