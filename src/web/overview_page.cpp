#include <algorithm>

#include "domain/plan/rooms.hpp"
#include "papers/document/verdict_words.hpp"
#include "tracking/keys/link.hpp"
#include "web/pages.hpp"

namespace gallipot::web {
namespace {

/// More would be a page that no phone shows; the rest is counted, and in the CSV.
constexpr std::size_t maximum_rows = 400;
/// The last one.
constexpr std::size_t visits_shown = 1;

struct Row {
    Place place;
    std::string room;
    std::string spot;
    StationState station_state;

    [[nodiscard]] const analysis::StationReport& report() const { return station_state.report(); }
    [[nodiscard]] bool overdue() const { return report().due && report().due->overdue; }
    [[nodiscard]] bool due(analysis::Day today) const {
        return report().due && report().due->on <= today;
    }
    [[nodiscard]] bool flagged() const { return !report().flags.empty(); }
};

std::string flags_text(const Page& page, const Row& row) {
    std::vector<std::string> texts;
    for (const analysis::Flag flag : row.report().flags)
        texts.push_back(document::flag_name(flag, page.words));
    return texts.empty() ? std::string() : page.words.list(texts);
}

/// `to_do`: what is to be done there on this round; empty in a list of all stations.
Html station_item(const Page& page, const Row& row, const std::string& to_do) {
    const auto& words = page.words;
    const std::string& id = row.place.planned.id;
    std::vector<std::string> said;
    const auto& visits = row.station_state.visits;
    if (visits.empty()) {
        said.push_back(words("web.overview.no_visit"));
    } else {
        const visit::Visit& last = visits.front().visit;
        said.push_back(words("web.overview.last",
                             {{"day", words.day(std::chrono::year_month_day(
                                          std::chrono::floor<std::chrono::days>(last.time)))}}));
        if (last.seen) said.push_back(words("web.visits.seen", {{"n", std::int64_t(*last.seen)}}));
        if (last.level_percent)
            said.push_back(
                words("web.visits.level", {{"level", words.percent(*last.level_percent / 100.0)}}));
    }
    std::string line;
    for (const std::string& part : said) line += (line.empty() ? "" : " · ") + part;

    Html due;
    if (row.report().retired)
        due = element("span", {{"class", "due"}}, {words("web.facts.taken_up")});
    else if (row.report().due)
        due =
            element("span", {{"class", row.overdue() ? "overdue" : "due"}},
                    {words("web.facts.due") + ": " + due_text(page, *row.report().due, row.place)});
    Html flags;
    if (row.flagged()) flags = element("p", {{"class", "flags"}}, {flags_text(page, row)});
    const std::string key = keys::station_key(page.context.secret(), id);
    const std::string place = row.spot.empty() ? row.room : row.spot;
    return element(
        "li",
        {element("a",
                 {{"href", "../S/" + keys::percent_encoded(id) + "/" + key + page.language_query}},
                 {element("b", {id}), " " + place}),
         due, element("p", {line}), flags,
         to_do.empty() ? Html() : element("p", {{"class", "next"}}, {to_do})});
}

}  // namespace

Response overview_page(const Page& page, const std::string& key) {
    const auto& words = page.words;
    const analysis::Day today = analysis::day_of(page.context.local_now());
    std::vector<Row> rows;
    for (const std::size_t i : page.context.plan.walk) {
        const Place place = place_at(page.context, i);
        auto where = plan::whereabouts(page.context.job, place.asked, words.tag());
        rows.push_back({place, std::move(where.room), std::move(where.place),
                        station_state_of(page.context, place, visits_shown)});
    }
    const auto count = [&](auto which) {
        return std::int64_t(std::count_if(rows.begin(), rows.end(), which));
    };
    const std::int64_t overdue = count([](const Row& row) { return row.overdue(); });
    const std::int64_t due = count([&](const Row& row) { return row.due(today); }) - overdue;
    const std::int64_t flagged = count([](const Row& row) { return row.flagged(); });

    Html main = element(
        "div", {{"class", "heading"}},
        {element("h1", {page.context.job.title->in(words.tag())}),
         element("p", {words("web.overview.counts",
                             {{"overdue", overdue}, {"due", due}, {"flagged", flagged}})})});
    // The round that is due, as it is walked; then every room.
    struct ToDo {
        const Row* row;
        std::string what;
    };
    std::vector<ToDo> to_do;
    const auto evidence = page.context.evidence_now();
    if (!evidence->rounds.empty() && evidence->rounds.front().on <= today)
        for (const analysis::Stop& stop : evidence->rounds.front().stops)
            for (const Row& row : rows)
                if (row.place.index == stop.station)
                    to_do.push_back(
                        {&row, document::action_sentences(row.report(), stop.steps, today, words)});
    const auto section = [&](const std::string& heading, const std::vector<ToDo>& list,
                             std::size_t& left) {
        if (list.empty() || left == 0) return;
        Html items;
        for (const ToDo& each : list) {
            if (left == 0) break;
            --left;
            items += station_item(page, *each.row, each.what);
        }
        main += element(
            "section", {element("h2", {heading}), element("ul", {{"class", "stations"}}, {items})});
    };
    std::size_t left = maximum_rows / 2;
    section(words("web.overview.to_do"), to_do, left);

    std::vector<std::string> rooms;
    for (const Row& row : rows)
        if (std::find(rooms.begin(), rooms.end(), row.room) == rooms.end())
            rooms.push_back(row.room);
    left = maximum_rows;
    for (const std::string& room : rooms) {
        std::vector<ToDo> list;
        for (const Row& row : rows)
            if (row.room == room) list.push_back({&row, {}});
        section(room, list, left);
    }
    if (rows.size() > maximum_rows)
        main += element(
            "p", {words("web.overview.more", {{"n", std::int64_t(rows.size() - maximum_rows)}})});
    main += element("p", {element("a", {{"href", key + "/VISITS.CSV"}, {"class", "button"}},
                                  {words("web.overview.csv")})});
    return answer(page, 200, page.context.job.title->in(words.tag()), std::nullopt, main);
}

Response plain_page(const Page& page, int status, const std::string& key) {
    const Html main =
        element("div", {{"class", "trouble"}}, {element("p", {page.words.rich(key)})});
    return answer(page, status, page.words("web.trouble.title"), std::nullopt, main);
}

}  // namespace gallipot::web
