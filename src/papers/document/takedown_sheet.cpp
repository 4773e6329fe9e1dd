#include "papers/document/takedown_sheet.hpp"

#include <algorithm>

#include "papers/document/held_words.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/round_sheet.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

Cell ticked(const Catalog& words, const std::string& key) {
    return {words.rich("takedown." + key), {}, true};
}

std::vector<Column> columns(const Catalog& words) {
    return {{words.rich("takedown.column.number"), Align::left, 22},
            {words.rich("takedown.column.place"), Align::left, 44},
            {words.rich("takedown.column.held"), Align::left, 44},
            {{}, Align::left, 21},
            {{}, Align::left, 21},
            {words.rich("takedown.column.left"), Align::left, 22}};
}

/// What a container holds: by the log where that was read, else by the job.
StyledText held_text(const job::Job& job, const plan::Plan& plan, const plan::Station& planned,
                     const std::string& id, const std::vector<Held>& by_log, const Catalog& words) {
    for (const Held& held : by_log)
        if (std::ranges::find(held.ids, id) != held.ids.end())
            return regular(held.mixed ? held.text + ". " + words("held.mixed") : held.text);
    return regular(contents(job, *plan.mix(planned.mix), *planned.per_container, words));
}

/// What the log says of where it is; empty when nothing stands out.
StyledText noted(const analysis::StationReport* station, std::size_t container,
                 const Catalog& words) {
    if (station == nullptr || container >= station->containers.size()) return {};
    const analysis::ContainerState& state = station->containers[container];
    if (state.taken_up) return bold(words.capital(words("visits.did.removed")));
    return bold(words.capital(states_text(state.open, words)));
}

Table containers(const job::Job& job, const plan::Plan& plan, const analysis::Report* report,
                 const Catalog& words) {
    Table table;
    table.to_write = true;
    table.columns = columns(words);
    std::vector<StyledText> said;  // what is in containers alike stands at the first of them
    for (const std::size_t i : plan.walk) {
        const job::Station& station = job.stations.at(i);
        const plan::Station& planned = plan.stations.at(i);
        const analysis::StationReport* known =
            report == nullptr ? nullptr : &report->stations.at(i);
        std::vector<Held> by_log;
        if (known != nullptr) by_log = held(job, plan, *known, words);
        for (std::size_t n = 0; n < planned.container_ids.size(); ++n) {
            const std::string& id = planned.container_ids[n];
            const std::string mix = job.mix(planned.mix)->title->in(words.tag());
            StyledText held = held_text(job, plan, planned, id, by_log, words);
            StyledText both = regular(mix);
            add_sentence(both, held);
            if (std::ranges::find(said, both) != said.end())
                held.clear();
            else
                said.push_back(std::move(both));
            table.rows.push_back({{bold(id), noted(known, n, words)},
                                  {regular(words.capital(station.where(words.tag()))), {}},
                                  {regular(mix), std::move(held)},
                                  ticked(words, "found"),
                                  ticked(words, "missing"),
                                  {}});
        }
    }
    return table;
}

/// The mixing bottle or jar and the leftovers of each mix, a row for each mix.
Table vessels(const job::Job& job, const plan::Plan& plan, const Catalog& words) {
    Table table;
    table.to_write = true;
    table.columns = {{words.rich("takedown.column.held"), Align::left, 44},
                     {{}, Align::left, 44},
                     {words.rich("takedown.column.left"), Align::left, 22},
                     {{}, Align::left, 44},
                     {words.rich("takedown.column.left"), Align::left, 22}};
    const auto vessel = [&](const char* key) {
        Cell cell{words.rich(std::string("takedown.vessel.") + key), {}};
        cell.choices = {words.rich("takedown.found"), words.rich("takedown.missing")};
        return cell;
    };
    for (const plan::Mix& mix : plan.mixes) {
        const auto form = *job.mix(mix.id)->form;
        const bool dry = form == job::Form::dry || form == job::Form::paste;
        table.rows.push_back({{bold(job.mix(mix.id)->title->in(words.tag())), {}},
                              vessel(form == job::Form::spray ? "sprayer"
                                     : dry                    ? "jar"
                                                              : "bottle"),
                              {},
                              vessel("leftovers"),
                              {}});
    }
    return table;
}

/// Sprayed wood is not taken up: whoever works on it later has to know.
std::vector<StyledText> surfaces(const job::Job& job, const plan::Plan& plan,
                                 const Catalog& words) {
    std::vector<StyledText> lines;
    for (const std::size_t i : plan.walk) {
        const job::Station& station = job.stations.at(i);
        if (!station.sprayed()) continue;
        const plan::Station& planned = plan.stations.at(i);
        const plan::Mix& mix = *plan.mix(planned.mix);
        std::string what;
        if (planned.per_container) what = contents(job, mix, *planned.per_container, words);
        lines.push_back(
            words.rich("takedown.surface", {{"station", *station.id},
                                            {"place", station.where(words.tag())},
                                            {"area", words.area(**station.area, station.area_unit)},
                                            {"contents", what}}));
    }
    return lines;
}

std::vector<StyledText> lines(const Catalog& words, const std::string& section,
                              std::initializer_list<const char*> keys) {
    std::vector<StyledText> all;
    for (const char* key : keys) all.push_back(words.rich("takedown." + section + "." + key));
    return all;
}

}  // namespace

Sheet takedown_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                     const Catalog& words, const analysis::Report* report) {
    std::int64_t total = 0;
    for (const plan::Station& station : plan.stations) total += station.containers;
    Sheet sheet;
    sheet.bookmark = words("takedown.bookmark");
    sheet.kicker = words.rich("takedown.kicker", {{"job", job.title->in(words.tag())}});
    sheet.title = words.rich("takedown.title");
    auto& blocks = sheet.blocks;
    blocks.emplace_back(Banner{words.rich("takedown.banner", {{"n", total}}), call(who, words)});
    add_warnings(wood_pests(job), job, words, blocks);
    blocks.emplace_back(Heading{words.rich("takedown.before.heading")});
    blocks.emplace_back(Checklist{lines(words, "before", {"gloves", "look", "missing"})});
    if (total > 0) {
        blocks.emplace_back(
            Heading{words.rich("takedown.containers"),
                    {words.rich("takedown.done.by"), words.rich("takedown.done.date")}});
        blocks.emplace_back(containers(job, plan, report, words));
    }
    // Where the containers leave too little room, all the rest goes to the next page.
    Group rest;
    if (!plan.mixes.empty()) {
        rest.blocks.emplace_back(Heading{words.rich("takedown.vessels")});
        rest.blocks.emplace_back(vessels(job, plan, words));
    }
    if (auto stays = surfaces(job, plan, words); !stays.empty()) {
        rest.blocks.emplace_back(Heading{words.rich("takedown.stays")});
        rest.blocks.emplace_back(bullets(std::move(stays)));
    }
    Group dispose;
    dispose.blocks.emplace_back(Heading{words.rich("takedown.dispose.heading")});
    dispose.blocks.emplace_back(
        Checklist{lines(words, "dispose", {"ask", "close", "never", "empty", "wash"})});
    std::vector<StyledText> after;
    for (const reference::Pest* pest : treated_pests(job))
        for (StyledText& sentence : advice_on(*pest, reference::Topic::after, job, words))
            if (std::ranges::find(after, sentence) == after.end())
                after.push_back(std::move(sentence));
    if (after.empty()) {
        rest.blocks.emplace_back(std::make_shared<const Group>(std::move(dispose)));
    } else {
        Group stay_away;
        stay_away.blocks.emplace_back(Heading{words.rich("takedown.after.heading")});
        stay_away.blocks.emplace_back(bullets(std::move(after)));
        rest.blocks.emplace_back(Beside{std::make_shared<const Group>(std::move(dispose)),
                                        std::make_shared<const Group>(std::move(stay_away)), 0.4});
    }
    rest.blocks.emplace_back(FillIn{{{words.rich("takedown.done.found"), Align::left, 2},
                                     {words.rich("takedown.done.where"), Align::left, 3}},
                                    1});
    blocks.emplace_back(std::make_shared<const Group>(std::move(rest)));
    sheet.footer_left = words.rich("report.footer");
    sheet.footer_right = words.rich("card.made", {{"made", *job.prepared}});
    return sheet;
}

}  // namespace gallipot::document
