#include "domain/job/reader.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <utility>

#include "base/strings/ascii.hpp"
#include "domain/job/language.hpp"
#include "domain/job/on_day.hpp"
#include "domain/job/region_habits.hpp"
#include "domain/job/sections.hpp"
#include "domain/job/tables.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::job {

namespace {

using yaml::Kind;
using yaml::Node;

// Room for 100,000 stations of seven keys; nothing that is read takes more than 300 MB.
constexpr yaml::Limits job_limits{
    .bytes = maximum_bytes, .line = 100'000, .depth = 40, .nodes = 1'750'000, .text_length = 4000};

constexpr std::array papers = {Paper::a4, Paper::letter};
constexpr std::array kitchens = {KitchenSystem::us, KitchenSystem::us_label, KitchenSystem::metric,
                                 KitchenSystem::australian, KitchenSystem::imperial};

constexpr std::array systems = {units::UnitSystem::metric, units::UnitSystem::us};

/// Of one language there is one set of papers: "en" and "en-US" would be the same files.
void read_languages(const Fields& top, Job& job, ReadContext& context) {
    const Key& rule = *find_key("languages.*");
    const std::vector<Node> items =
        top.has("languages") ? top.list("languages") : top.fallback_items(top.rule("languages"));
    for (const Node& item : items) {
        const auto tag = read_text(item, rule, context);
        if (!tag) continue;
        const auto before =
            std::find_if(job.languages.begin(), job.languages.end(),
                         [&](const auto& other) { return same_language(*other, **tag); });
        if (!is_language_tag(**tag)) {
            context.out.error("bad-language", item.place,
                              diag::say("'{}' is no language tag", **tag),
                              "write a tag like en, es or pt-BR");
        } else if (before == job.languages.end()) {
            job.languages.push_back(*tag);
        } else if (same_tag(**before, **tag)) {
            context.out.error("duplicate-name", item.place, diag::say("'{}' is there twice", **tag),
                              "list each language once");
        } else {
            context.out.error("duplicate-name", item.place,
                              diag::say("'{}' and '{}' are one language, and the papers of "
                                        "both would be the same files",
                                        **before, **tag),
                              "keep one of the two; help.region chooses how dates and numbers are "
                              "written");
        }
    }
    if (!job.languages.empty()) context.main_language = *job.languages.front();
}

void read_currency(const Fields& top, Job& job, ReadContext& context) {
    const Node* node = top.find("currency");
    if (node == nullptr) return;
    const std::string& code = node->text;
    constexpr std::size_t letters = 3;
    const bool code_like = code.size() == letters && std::ranges::all_of(code, strings::is_letter);
    if (node->kind != Kind::scalar || strings::trimmed(code).empty() ||
        (code_like && std::ranges::all_of(code, strings::is_upper))) {
        if (const auto currency = top.text("currency")) job.currency = **currency;
        return;
    }
    context.out.error("bad-currency", node->place,
                      diag::say("currency must be a 3-letter code such as AUD, not '{}'", code),
                      code_like ? diag::say("write {}", strings::to_upper(code))
                                : "write the ISO 4217 code of the money that your prices are in");
}

void read_time_zone(const Fields& top, Job& job, ReadContext& context) {
    const auto zone = top.text("time_zone");
    if (!zone) return;
    // Whether there is such a zone is known to whoever reckons with it.
    const bool fine =
        strings::is_letter(zone->value.front()) &&
        std::all_of(zone->value.begin(), zone->value.end(), [](char c) {
            return strings::is_letter_or_digit(c) || c == '/' || c == '_' || c == '-' || c == '+';
        });
    if (fine) {
        job.time_zone = zone;
        return;
    }
    context.out.error("bad-time-zone", zone->place,
                      diag::say("'{}' is no time zone's name", **zone),
                      "write an IANA name, like Australia/Sydney");
}

/// Paper, labels, spoons and units, which the region decides where the job does not.
void read_habits(const Fields& top, Job& job, ReadContext& context) {
    const Place whole{job.source, 0, 0, 1};
    job.paper = {usual_paper(*job.help.region), whole};
    if (const auto paper = top.choice("paper")) job.paper = {papers.at(**paper), paper->place};
    job.labels = {*job.paper == Paper::a4 ? "a4-2x4" : "letter-2x3", whole};
    keep(job.labels, top.text("labels"));
    job.kitchen = usual_kitchen(*job.help.region);
    if (const auto spoons = top.choice("spoons")) job.kitchen = kitchens.at(**spoons);
    context.kitchen = job.kitchen;
    job.units = usual_units(*job.help.region);
    if (const auto units = top.choice("units")) {
        const units::UnitSystem system = systems.at(**units);
        job.units.amounts = system;
        job.units.sizes = system;
    }
}

}  // namespace

std::string Station::room_and_place(std::string_view language) const {
    return room ? (*room)->in(language) + ", " + place->in(language) : place->in(language);
}

std::string Station::where(std::string_view language) const {
    const std::string spot = room_and_place(language);
    return unit ? (*unit)->in(language) + ": " + spot : spot;
}

const Mix* Job::mix(const std::string& id) const {
    for (const auto* some : {&mixes, &idle_mixes})
        if (const auto found = std::ranges::find(*some, id, &Mix::id); found != some->end())
            return &*found;
    return nullptr;
}

const Container* Job::container(const std::string& id) const {
    for (const auto* some : {&containers, &idle_containers})
        if (const auto found = std::ranges::find(*some, id, &Container::id); found != some->end())
            return &*found;
    return nullptr;
}

std::optional<Job> read_job(const diag::SourcePtr& source, diag::Diagnostics& out,
                            const OpenTable& open_table) {
    const std::size_t errors_before = out.errors();
    Node root = yaml::read(source, out, job_limits);
    if (root.kind == Kind::null) {
        if (out.errors() == errors_before) {
            out.error("empty-file", {source, 1, 1, 1}, "the job file is empty",
                      "write a starter job with `gallipot new`, then edit it");
        }
        return {};
    }
    ReadContext context{out};
    put_tables_in(root, open_table, job_limits, context);
    const Fields top(root, "", "the job", context);
    if (root.kind != Kind::mapping) return {};

    Job job;
    job.source = source;
    read_languages(top, job, context);
    keep(job.title, top.local_text("title"));
    keep(job.prepared, top.date("prepared"));
    job.by = top.local_text("by");
    read_currency(top, job, context);
    read_time_zone(top, job, context);
    read_premises(top, job, context);
    read_help(top, job, context);
    read_log(top, job, context);
    read_habits(top, job, context);
    read_measures(top, job, context);
    read_supplies(top, job, context);
    read_mixes(top, job, context);
    read_containers(top, job, context);
    read_floor_plan(top, job, context);
    read_stations(top, job, context);
    if (auto visits = top.visits("visits")) {
        job.visits = std::move(visits->every);
        keep(job.round_within, visits->within);
    }
    job.no_sprays_for = top.duration("no_sprays_for");
    read_accepted(top, "", true, root.place, job, context);
    if (out.errors() > errors_before) return {};
    // What changes in the course of the job is advised on as it is on a day.
    if (!changes_over_time(job)) advise(job, out);
    return job;
}

}  // namespace gallipot::job
