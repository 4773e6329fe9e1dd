#include "papers/document/takeover_sheet.hpp"

#include <algorithm>
#include <map>
#include <optional>

#include "papers/document/notices.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/verdict_words.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

std::vector<StyledText> what_stands(const plan::Plan& plan, const analysis::Report& report,
                                    const Catalog& words) {
    std::int64_t treated = 0, controls = 0;
    std::vector<std::string> missing;
    for (const analysis::StationReport& station : report.stations) {
        ++(station.control ? controls : treated);
        if (station.has(analysis::Flag::missing)) missing.push_back(station.id);
    }
    std::vector<StyledText> lines;
    lines.push_back(
        words.rich("takeover.what.counts", {{"n", treated},
                                            {"count", static_cast<std::int64_t>(report.retired)},
                                            {"total", controls}}));
    std::optional<job::LocalTime> first;
    for (std::size_t i = 0; i < plan.all_stations(); ++i)
        if (const auto placed = plan.station_at(i).placed)
            first = std::min(first.value_or(*placed), *placed);
    if (first)
        lines.push_back(words.rich(
            "takeover.what.first",
            {{"day", words.date(std::chrono::year_month_day(analysis::day_of(*first)))}}));
    if (report.result_by)
        lines.push_back(
            words.rich("takeover.what.until",
                       {{"day", words.date(std::chrono::year_month_day(*report.result_by))}}));
    if (!missing.empty())
        lines.push_back(words.rich(
            "takeover.what.missing",
            {{"n", static_cast<std::int64_t>(missing.size())}, {"ids", words.list(missing)}}));
    return lines;
}

/// Every station that something still stands at, and the controls.
Table where_it_stands(const job::Job& job, const plan::Plan& plan, const analysis::Report& report,
                      const Catalog& words) {
    Table table;
    table.columns = {{words.rich("report.round.station"), Align::left, 0},
                     {words.rich("report.round.place"), Align::left, 3},
                     {words.rich("report.used.mix"), Align::left, 2}};
    for (const std::size_t i : plan.walk) {
        if (report.stations[i].retired) continue;
        const plan::Station& station = plan.stations[i];
        const job::Mix* mix = job.mix(station.mix);
        Cell stands{regular(mix == nullptr ? "–" : mix->title->in(words.tag())), {}};
        if (station.containers > 0)
            stands.note = words.rich("report.used.containers",
                                     {{"n", static_cast<std::int64_t>(station.containers)}});
        table.rows.push_back({{bold(station.id), {}},
                              {regular(job.stations[i].where(words.tag())), {}},
                              std::move(stands)});
    }
    return table;
}

/// Of many stations: for each mix, the stations that it stands at. Where each is, the placement
/// plan says.
Table by_mix(const job::Job& job, const plan::Plan& plan, const analysis::Report& report,
             const Catalog& words) {
    std::vector<std::pair<std::string, std::vector<std::string>>> mixes;
    std::map<std::string, std::int64_t> containers;
    for (const std::size_t i : plan.walk) {
        if (report.stations[i].retired) continue;
        const plan::Station& station = plan.stations[i];
        auto known =
            std::ranges::find(mixes, station.mix, [](const auto& each) { return each.first; });
        if (known == mixes.end()) known = mixes.insert(mixes.end(), {station.mix, {}});
        known->second.push_back(report.stations[i].id);
        containers[station.mix] += station.containers;
    }
    Table table;
    table.columns = {{words.rich("report.used.mix"), Align::left, 2},
                     {words.rich("report.by_verdict.stations"), Align::left, 5}};
    for (const auto& [id, stations] : mixes) {
        const job::Mix* mix = job.mix(id);
        Cell stands{
            regular(mix == nullptr ? words("verdict_name.control") : mix->title->in(words.tag())),
            {}};
        if (containers[id] > 0)
            stands.note = words.rich("report.used.containers", {{"n", containers[id]}});
        table.rows.push_back({std::move(stands), {regular(words.list(stations)), {}}});
    }
    return table;
}

std::vector<StyledText> lines_of(const Catalog& words, const std::string& section,
                                 std::initializer_list<const char*> keys,
                                 const text::Arguments& arguments = {}) {
    std::vector<StyledText> lines;
    for (const char* key : keys)
        lines.push_back(words.rich("takeover." + section + "." + key, arguments));
    return lines;
}

}  // namespace

Sheet takeover_sheet(const job::Job& job, const plan::Plan& plan, const analysis::Report& report,
                     const safety::WhoToCall& who, const Catalog& words) {
    namespace rules = analysis::rules;
    Sheet sheet;
    sheet.bookmark = words("takeover.bookmark");
    const std::string day = words.date(std::chrono::year_month_day(report.as_of));
    sheet.kicker = words.rich("report.kicker", {{"job", job.title->in(words.tag())}, {"day", day}});
    sheet.title = words.rich("takeover.title");
    const auto heading = [&](const std::string& section) {
        sheet.blocks.emplace_back(Heading{words.rich("takeover." + section + ".heading")});
    };
    heading("what");
    sheet.blocks.emplace_back(bullets(what_stands(plan, report, words)));
    constexpr std::size_t at_a_glance = 12;
    sheet.blocks.emplace_back(plan.walk.size() > at_a_glance
                                  ? by_mix(job, plan, report, words)
                                  : where_it_stands(job, plan, report, words));
    heading("visit");
    sheet.blocks.emplace_back(Checklist{
        lines_of(words, "visit", {"count", "level", "state", "write", "control", "no_sprays"})});
    heading("stop");
    std::vector<StyledText> stop;
    int gone_days = 0;  // the longest of the job's pests; none for what lives in wood
    for (const analysis::StationReport& station : report.stations)
        gone_days = std::max(gone_days, station.gone_days);
    if (gone_days > 0) {
        stop = lines_of(words, "stop", {"gone"}, {{"days", days_text(gone_days, words)}});
        std::ranges::move(lines_of(words, "stop", {"long"},
                                   {{"days", days_text(rules::long_enough_days, words)}}),
                          std::back_inserter(stop));
    }
    std::ranges::move(lines_of(words, "stop", {"worse"}), std::back_inserter(stop));
    sheet.blocks.emplace_back(bullets(std::move(stop)));
    heading("figures");
    sheet.blocks.emplace_back(
        bullets(lines_of(words, "figures", {"change", "half", "effect", "empty"})));
    heading("call");
    if (job.help.contact)
        sheet.blocks.emplace_back(Paragraph{words.rich(
            "sheet.ask.contact", {{"name", job.help.contact->name->in(words.tag())},
                                  {"phone", text::unbroken(*job.help.contact->phone)}})});
    if (!who.phone.empty())
        sheet.blocks.emplace_back(
            Paragraph{words.rich("sheet.ask.centre", {{"name", who.name.in(words.tag())},
                                                      {"phone", text::unbroken(who.phone)}})});
    sheet.footer_left = words.rich("report.footer");
    sheet.footer_right = words.rich("report.made", {{"day", day}});
    return sheet;
}

}  // namespace gallipot::document
