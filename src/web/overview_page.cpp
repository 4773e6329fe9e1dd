#include <algorithm>

#include "domain/plan/rooms.hpp"
#include "tracking/keys/link.hpp"
#include "web/pages.hpp"

namespace gallipot::web {
namespace {

/// More would be a page that no phone shows; the rest is counted, and in the CSV.
constexpr std::size_t maximum_rows = 400;
/// Enough to see a rebound and a state that was left open.
constexpr std::size_t visits_looked_at = 30;

struct Row {
    Place place;
    std::string room;
    std::string spot;
    StationState station_state;

    [[nodiscard]] bool due(analysis::Day today) const {
        return station_state.due && station_state.due->on <= today;
    }
    [[nodiscard]] bool flagged() const { return !station_state.report.flags.empty(); }
};

std::string flags_text(const Page& page, const Row& row) {
    std::vector<std::string> texts;
    for (const analysis::Flag flag : row.station_state.report.flags) {
        std::string key = "flag." + std::string(analysis::word(flag));
        std::replace(key.begin(), key.end(), ' ', '_');
        texts.push_back(page.words(key));
    }
    return texts.empty() ? std::string() : page.words.list(texts);
}

Html station_item(const Page& page, const Row& row) {
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
    if (row.station_state.retired)
        due = element("span", {{"class", "due"}}, {words("web.facts.taken_up")});
    else if (row.station_state.due)
        due = element(
            "span", {{"class", row.station_state.due->overdue ? "overdue" : "due"}},
            {words("web.facts.due") + ": " + due_text(page, *row.station_state.due, row.place)});
    Html flags;
    if (row.flagged()) flags = element("p", {{"class", "flags"}}, {flags_text(page, row)});
    const std::string key = keys::station_key(page.context.secret(), id);
    const std::string place = row.spot.empty() ? row.room : row.spot;
    return element(
        "li",
        {element("a",
                 {{"href", "../S/" + keys::percent_encoded(id) + "/" + key + page.language_query}},
                 {element("b", {id}), " " + place}),
         due, element("p", {line}), flags});
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
                        station_state_of(page.context, place, visits_looked_at)});
    }
    const auto count = [&](auto which) {
        return std::int64_t(std::count_if(rows.begin(), rows.end(), which));
    };
    const std::int64_t overdue = count(
        [](const Row& row) { return row.station_state.due && row.station_state.due->overdue; });
    const std::int64_t due = count([&](const Row& row) { return row.due(today); }) - overdue;
    const std::int64_t flagged = count([](const Row& row) { return row.flagged(); });

    Html main = element(
        "div", {{"class", "heading"}},
        {element("h1", {page.context.job.title->in(words.tag())}),
         element("p", {words("web.overview.counts",
                             {{"overdue", overdue}, {"due", due}, {"flagged", flagged}})})});
    // What is to be done first, the longest due before the rest; then every room; each in the
    // order of the walk.
    std::vector<const Row*> to_do;
    for (const Row& row : rows)
        if (row.due(today)) to_do.push_back(&row);
    std::stable_sort(to_do.begin(), to_do.end(), [](const Row* a, const Row* b) {
        return a->station_state.due->on < b->station_state.due->on;
    });
    const auto section = [&](const std::string& heading, const std::vector<const Row*>& list,
                             std::size_t& left) {
        if (list.empty() || left == 0) return;
        Html items;
        for (const Row* row : list) {
            if (left == 0) break;
            --left;
            items += station_item(page, *row);
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
        std::vector<const Row*> list;
        for (const Row& row : rows)
            if (row.room == room) list.push_back(&row);
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
