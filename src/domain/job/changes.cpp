#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/strings/dates.hpp"
#include "domain/job/on_day.hpp"
#include "domain/job/sections.hpp"
#include "domain/reference/pests.hpp"

namespace gallipot::job {

namespace {

using yaml::Node;

Date day_of(LocalTime time) {
    return Date{std::chrono::floor<std::chrono::days>(time)};
}

/// What a control, or a sprayed surface, cannot have.
void check_kind(const Fields& fields, const Station& station, ReadContext& context) {
    const auto misplaced = [&](std::string_view key, diag::Text message, diag::Text hint) {
        if (!fields.has(key)) return;
        context.out.error("misplaced-key", fields.node().find_key(key)->place, std::move(message),
                          std::move(hint));
    };
    if (station.control) {
        std::vector<std::string> wrong;
        for (const std::string_view key : {"mix", "container", "count"})
            if (fields.has(key)) wrong.emplace_back(key);
        if (!wrong.empty())
            misplaced(
                wrong.front(),
                diag::say("an unbaited station (control: true) cannot have {}, because no bait "
                          "is placed there",
                          diag::chained(quoted(wrong), "{} or {}")),
                diag::say("take out {}, or take out control", diag::chained(wrong, "{} and {}")));
    } else if (station.area) {
        for (const std::string_view key : {"container", "count"})
            misplaced(key, diag::say("a sprayed area has no '{}'", key),
                      diag::say("take out {}", key));
    }
}

std::optional<Change> read_change(const Node& node, const Station& station, ReadContext& context) {
    const Fields fields(node, "stations.*.changes.*", diag::say("this change of '{}'", *station.id),
                        context);
    if (node.kind != yaml::Kind::mapping) return {};
    Change change;
    keep(change.on, fields.time("on"));
    change.on_by_day = was_read(change.on) && is_day_alone(fields.find("on")->text);
    change.place = fields.local_text("place");
    change.room = fields.local_text("room");
    change.unit = fields.local_text("unit");
    change.floor = fields.text("floor");
    change.at = fields.point("at");
    change.mix = fields.text("mix");
    change.container = fields.text("container");
    change.count = fields.whole("count");
    check_kind(fields, station, context);
    if (node.entries.size() <= (fields.has("on") ? 1u : 0u)) {
        context.out.error("changes-nothing", node.place,
                          diag::say("this change leaves all at '{}' as it was", *station.id),
                          "say what is another from then on (place, room, unit, floor, at, mix, "
                          "container or count), or take it out");
        return {};
    }
    if (!was_read(change.on)) return {};
    return change;
}

void check_order(const Station& station, const Change& change, ReadContext& context) {
    if (station.placed && day_of(*change.on) < day_of(**station.placed)) {
        context.out.error(
            "change-too-early", change.on.place,
            diag::say("'{}' was not set out yet: it was placed on {}", *station.id,
                      strings::iso_date(day_of(**station.placed))),
            "mend the day, or 'placed'; what holds from the start stands at the station itself");
    }
    const auto early = [](const Change& one, const Change& before) {
        return *one.on <= *before.on;
    };
    const auto& all = station.changes;
    // One slip makes one error, though what follows it is out of order too.
    const bool told = std::ranges::adjacent_find(all, [&](const Change& before, const Change& one) {
                          return early(one, before);
                      }) != all.end();
    if (!all.empty() && !told && early(change, all.back())) {
        context.out.error("change-order", change.on.place,
                          diag::say("{} is not later than the change before it, on {}",
                                    strings::iso_date(day_of(*change.on)),
                                    strings::iso_date(day_of(*all.back().on))),
                          "write the changes in order of time, and those of one time as one");
    }
}

/// At least one thing must be another than before.
void check_alters(const Station& station, ReadContext& context) {
    const std::vector<Alteration> all = alterations(station, {});
    for (const Change& change : station.changes) {
        if (std::ranges::any_of(all, [&](const Alteration& it) { return it.on == *change.on; }))
            continue;
        context.out.error("changes-nothing", change.on.place,
                          diag::say("this change leaves all at '{}' as it was", *station.id),
                          "say what is another from then on, or take it out");
    }
}

void check_until(const Station& station, ReadContext& context) {
    if (!station.until) return;
    const auto wrong = [&](const diag::Text& why, const Date& day, const diag::Text& other) {
        context.out.error("until-too-early", station.until->place,
                          diag::say("'{}' cannot be taken up before {}, on {}", *station.id, why,
                                    strings::iso_date(day)),
                          diag::say("mend the day, or {}", other));
    };
    if (station.placed && **station.until < day_of(**station.placed))
        wrong("it is set out", day_of(**station.placed), std::string("'placed'"));
    else if (!station.changes.empty() && **station.until < day_of(*station.changes.back().on))
        wrong("its last change", day_of(*station.changes.back().on), "take the change out");
}

std::string pest_of(const Mix& mix) {
    const reference::Pest* pest = reference::find_pest(*mix.against);
    return pest == nullptr ? *mix.against : std::string(pest->name);
}

}  // namespace

void read_changes(const Fields& fields, Station& station, ReadContext& context) {
    const Key& rule = *find_key("stations.*.was.*");
    for (const Node& item : fields.list("was"))
        if (const auto name = read_id(item, rule, context)) station.was.push_back(*name);
    const std::size_t errors = context.out.errors();
    for (const Node& item : fields.list("changes")) {
        const auto change = read_change(item, station, context);
        if (!change) continue;
        check_order(station, *change, context);
        station.changes.push_back(*change);
    }
    // What could not be read may have been another.
    if (context.out.errors() == errors) check_alters(station, context);
    station.until = fields.date("until");
    check_until(station, context);
}

void check_mixes_of_changes(const Station& station, const Job& job, ReadContext& context) {
    if (!station.mix || station.control) return;
    const Mix* first = job.mix(**station.mix);
    for (const Change& change : station.changes) {
        const Mix* mix = change.mix ? job.mix(**change.mix) : nullptr;
        if (mix == nullptr || !was_read(mix->form)) continue;
        const bool spray = *mix->form == Form::spray;
        if (spray != station.sprayed()) {
            context.out.error(
                "wrong-form", change.mix->place,
                spray ? diag::say("'{}' is a spray, which is not set out in a container", mix->id)
                      : diag::say("'{}' is no spray, so it cannot be spread over an area", mix->id),
                "name another mix; for another kind of place end this station with until: and add "
                "one");
            continue;
        }
        if (first == nullptr || pest_of(*first) == pest_of(*mix)) continue;
        context.out.error(
            "other-pest", change.mix->place,
            diag::say("'{}' is against {}, and '{}' against {}: counts of the one say nothing of "
                      "the other",
                      mix->id, *mix->against, first->id, *first->against),
            "end this station with until:, and add one of its own for the other pest");
    }
}

}  // namespace gallipot::job
