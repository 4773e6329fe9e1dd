#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <set>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "base/strings/ascii.hpp"
#include "domain/job/on_day.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

using yaml::Kind;
using yaml::Node;

constexpr int maximum_containers = 200'000;

/// What stations may name, and what the ones read so far are called.
class Names {
  public:
    Names(const Fields& top, ReadContext& context)
        : reading_(context), mixes_(top, "mixes"), containers_(top, "containers") {}

    /// Without any mixes that is said once, for the job.
    void check_mix(const At<std::string>& id) const {
        if (!mixes_.all.empty()) check(id, mixes_, "mix", "mixes");
    }
    void check_container(const At<std::string>& id) const {
        check(id, containers_, "container", "containers");
    }

    /// Ids are one when they differ only in letter case: links are in capitals. An older name is
    /// one too.
    void add(const Station& station) {
        const int containers = most_containers(station);
        add(station.id, containers,
            "give each station an id of its own; letter case makes no difference");
        for (const At<std::string>& name : station.was)
            add(name, containers, "leave an older name to the one station that had it");
    }

    /// Two containers at K1 are K1-1 and K1-2: nobody else may be called so.
    void check_numbered(const std::vector<Station>& stations) const {
        for (const Station& station : stations) {
            check_numbered(station.id);
            for (const At<std::string>& name : station.was) check_numbered(name);
        }
    }

  private:
    struct Seen {
        Place place;
        int count = 1;
    };

    void add(const At<std::string>& name, int containers, diag::Text hint) {
        const auto [first, is_new] =
            stations_.emplace(strings::to_lower(*name), Seen{name.place, containers});
        if (is_new) return;
        reading_.out.error(
            "duplicate-id", name.place,
            diag::say("the id '{}' is taken; first on line {}", *name, first->second.place.line),
            std::move(hint));
    }

    void check_numbered(const At<std::string>& name) const {
        const std::string id = strings::to_lower(*name);
        const auto hyphen = id.rfind('-');
        if (hyphen == std::string::npos) return;
        const auto base = stations_.find(id.substr(0, hyphen));
        if (base == stations_.end()) return;
        const std::string digits = id.substr(hyphen + 1);
        int number = 0;
        const char* end = digits.data() + digits.size();
        const auto parsed = std::from_chars(digits.data(), end, number);
        const bool is_number = parsed.ptr == end && digits[0] != '0';
        const Seen& other = base->second;
        if (!is_number || other.count < 2 || number > other.count) return;
        reading_.out.error("duplicate-id", name.place,
                           diag::say("'{}' is also container {} of the station on line {}", *name,
                                     number, other.place.line),
                           "give this station another id");
    }

    /// The names in a section. A section with too many is wrong already: only some are listed.
    struct Known {
        Known(const Fields& top, std::string_view section) {
            const Node* node = top.find(section);
            if (node == nullptr) return;
            for (const auto& [id, unused] : node->entries) {
                all.insert(id.text);
                if (static_cast<double>(listed.size()) < top.rule(section).maximum) {
                    listed.push_back(id.text);
                }
            }
        }
        std::unordered_set<std::string> all;
        std::vector<std::string> listed;
    };

    void check(const At<std::string>& id, const Known& known, std::string_view what,
               std::string_view section) const {
        if (known.all.contains(*id)) return;
        const diag::Text otherwise =
            known.listed.empty() ? diag::say("add it under {}", section)
                                 : diag::say("name one of: {}", fmt::join(known.listed, ", "));
        reading_.out.error(fmt::format("unknown-{}", what), id.place,
                           what == "mix" ? diag::say("there is no mix '{}'", *id)
                                         : diag::say("there is no container '{}'", *id),
                           did_you_mean(*id, known.listed, otherwise, reading_));
    }

    ReadContext& reading_;
    Known mixes_, containers_;
    std::unordered_map<std::string, Seen> stations_;
};

void read_near(const Fields& fields, Station& station, ReadContext& context) {
    const Key& rule = *find_key("stations.*.near.*");
    std::set<std::size_t> seen;
    for (const Node& item : fields.list("near")) {
        const auto near = read_choice(item, rule, context);
        if (!near) continue;
        if (!seen.insert(**near).second) {
            context.out.error("duplicate-name", item.place,
                              diag::say("'{}' is there twice", item.text), "keep one of the two");
            continue;
        }
        station.near.push_back({static_cast<Near>(**near), near->place});
    }
}

std::optional<Inspected> read_inspected(const Fields& station, ReadContext& context) {
    const Node* node = station.find("inspected");
    if (node == nullptr) return {};
    const Fields fields(*node, "stations.*.inspected", "inspected", context);
    const auto by = fields.text("by");
    const auto on = fields.date("on");
    if (!by || !on) return {};
    return Inspected{*by, *on};
}

/// A control has nothing set out; any other station has a mix, in a container or on a surface.
void check_kind(const Fields& fields, const Station& station, ReadContext& context) {
    const diag::Text who = diag::say("the station '{}'", *station.id);
    const auto misplaced = [&](std::string_view key, diag::Text message, diag::Text hint) {
        context.out.error("misplaced-key", fields.node().find_key(key)->place, std::move(message),
                          std::move(hint));
    };
    if (station.control) {
        std::vector<std::string> wrong;
        for (const std::string_view key :
             {"mix", "container", "area", "count", "coats", "locked", "inspected"})
            if (fields.has(key)) wrong.emplace_back(key);
        if (wrong.empty()) return;
        misplaced(
            wrong.front(),
            diag::say("an unbaited station (control: true) cannot have {}, because no bait is "
                      "placed there",
                      diag::chained(quoted(wrong), "{} or {}")),
            diag::say("take out {}, or take out control", diag::chained(wrong, "{} and {}")));
        return;
    }
    if (fields.has("against")) {
        misplaced("against", "what a bait is against stands with its mix", "take it out");
    }
    const bool container = fields.has("container");
    const bool area = fields.has("area");
    if (fields.lacks("mix") && !fields.misspelt("control")) {
        context.out.error("missing-key", station.id.place, diag::say("{} needs 'mix'", who),
                          "add mix: and the name of a mix, or control: true");
    }
    if (fields.lacks("container") && fields.lacks("area") && !fields.misspelt("control")) {
        context.out.error("missing-key", station.id.place,
                          diag::say("{} needs 'container' or 'area'", who),
                          "add container: with the name of one for a bait, or area: for a sprayed "
                          "surface");
    }
    if (container && area) {
        misplaced("area", "a station has a container or a sprayed area, not both",
                  "make two stations of it, or take one of the two out");
    }
    if (fields.lacks("container") && fields.has("count")) {
        misplaced("count", "'count' goes with a container", "take it out");
    }
    if (fields.lacks("container") && fields.has("locked")) {
        misplaced("locked", "'locked' goes with a container", "take it out");
    }
    if (fields.lacks("area") && fields.has("coats")) {
        misplaced("coats", "'coats' goes with a sprayed area", "take it out");
    }
}

void check_form(const Fields& fields, const Station& station, const Job& job,
                ReadContext& context) {
    const Mix* mix = station.mix ? job.mix(**station.mix) : nullptr;
    if (mix == nullptr || !was_read(mix->form)) return;
    const bool spray = *mix->form == Form::spray;
    if (fields.has("area") == fields.has("container")) return;
    if (fields.has("area") && !spray) {
        context.out.error(
            "wrong-form", station.mix->place,
            diag::say("'{}' is no spray, so it cannot be spread over an area", mix->id),
            "name a mix with form: spray, or give the station a container");
    }
    if (fields.has("container") && spray) {
        context.out.error(
            "wrong-form", station.mix->place,
            diag::say("'{}' is a spray, which is not set out in a container", mix->id),
            "name another mix, or give the station an area");
    }
}

Station read_station(const Node& node, Job& job, const Names& names, ReadContext& context) {
    const Node* id = node.find("id");
    const bool named = id != nullptr && id->kind == Kind::scalar;
    const Fields fields(node, "stations.*",
                        named ? diag::say("the station '{}'", id->text) : "the station", context);
    Station station;
    if (node.kind != Kind::mapping) return station;
    station.id.place = named ? id->place : node.place;
    keep(station.id, fields.id("id"));
    keep(station.place, fields.local_text("place"));
    station.room = fields.local_text("room");
    station.unit = fields.local_text("unit");
    const auto control = fields.flag("control");
    station.control = control && **control;
    station.against = fields.text("against");
    station.mix = fields.text("mix");
    station.container = fields.text("container");
    if (const auto count = fields.whole("count")) station.count = **count;
    if (const auto coats = fields.whole("coats")) station.coats = **coats;
    station.placed = fields.time("placed");
    station.placed_by_day = station.placed && is_day_alone(fields.find("placed")->text);
    read_near(fields, station, context);
    const auto locked = fields.flag("locked");
    station.locked = locked && **locked;
    station.inspected = read_inspected(fields, context);
    station.coldest = fields.temperature("coldest");
    station.at = fields.point("at");
    station.floor = fields.text("floor");
    station.area = fields.area("area");
    station.area_unit = fields.unit("area");
    if (auto visits = fields.visits("visits")) station.visits = std::move(visits->every);
    read_changes(fields, station, context);
    read_accepted(fields, "stations.*", false, node.place, job, context);
    if (control) check_kind(fields, station, context);
    if (station.mix && !station.control) names.check_mix(*station.mix);
    if (station.container && !station.control) names.check_container(*station.container);
    check_form(fields, station, job, context);
    for (const Change& change : station.changes) {
        if (station.control) break;
        if (change.mix) names.check_mix(*change.mix);
        if (change.container) names.check_container(*change.container);
    }
    check_mixes_of_changes(station, job, context);
    return station;
}

/// Whether the floor is there; a name in another language is put in the main one. `at`: a point on
/// it, null for none.
void check_floor(const Job& job, std::optional<At<std::string>>& floor, const At<Point>* at,
                 const std::vector<std::string>& floors, ReadContext& context) {
    if (!job.floor_plan || job.floor_plan->rooms.empty()) return;
    if (floor) {
        const auto& rooms = job.floor_plan->rooms;
        const auto room = std::find_if(rooms.begin(), rooms.end(),
                                       [&](const Room& r) { return r.floor.says(**floor); });
        if (room != rooms.end()) {
            floor->value = room->floor.main();
            return;
        }
        context.out.error(
            "unknown-floor", floor->place, diag::say("no room is on the floor '{}'", **floor),
            did_you_mean(**floor, floors, diag::say("name one of: {}", fmt::join(floors, ", ")),
                         context));
    }
    if (!floor && at != nullptr && floors.size() > 1) {
        context.out.error("missing-key", at->place,
                          "there are several floors, and it is not said which this is",
                          diag::say("add floor: {}", floors.front()));
    }
}

/// The floors of a station and of its changes.
void check_floors(const Job& job, Station& station, const std::vector<std::string>& floors,
                  ReadContext& context) {
    check_floor(job, station.floor, station.at ? &*station.at : nullptr, floors, context);
    bool known = station.floor.has_value();
    for (Change& change : station.changes) {
        known = known || change.floor;
        if (change.floor || !known)
            check_floor(job, change.floor, change.at ? &*change.at : nullptr, floors, context);
    }
}

}  // namespace

void read_stations(const Fields& top, Job& job, ReadContext& context) {
    if (context.unread.contains("stations")) return;
    const auto& list = top.list("stations");
    Names names(top, context);
    std::vector<std::string> floors;
    if (job.floor_plan) {
        for (const Room& room : job.floor_plan->rooms) {
            if (std::find(floors.begin(), floors.end(), room.floor.main()) != floors.end())
                continue;
            floors.push_back(room.floor.main());
        }
    }
    job.stations.reserve(list.size());
    int containers = 0;
    for (const Node& node : list) {
        Station station = read_station(node, job, names, context);
        if (node.kind != Kind::mapping) continue;
        if (!station.id->empty()) names.add(station);
        check_floors(job, station, floors, context);
        const int before = containers;
        containers += station.container ? most_containers(station) : 0;
        if (before <= maximum_containers && containers > maximum_containers) {
            context.out.error("too-many", station.id.place,
                              diag::say("more than {} containers up to here", maximum_containers),
                              "split the job into several files");
        }
        job.stations.push_back(std::move(station));
    }
    names.check_numbered(job.stations);
    const bool bait = std::any_of(job.stations.begin(), job.stations.end(),
                                  [](const Station& s) { return !s.control; });
    const Node* mixes = top.find("mixes");
    const bool none = mixes == nullptr || (mixes->kind == Kind::mapping && mixes->entries.empty());
    if (bait && none) {
        context.out.error("missing-key", mixes != nullptr ? mixes->place : top.node().place,
                          "the job needs 'mixes'",
                          "add mixes:, with a name and what goes into each");
    }
}

}  // namespace gallipot::job
