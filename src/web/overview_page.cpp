#include <algorithm>
#include <set>

#include "base/diag/utf8.hpp"
#include "domain/plan/rooms.hpp"
#include "domain/plan/walk.hpp"
#include "papers/document/verdict_words.hpp"
#include "web/form_parts.hpp"
#include "web/neighbour_page.hpp"
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
    const std::string place = row.spot.empty() ? row.room : row.spot;
    return element(
        "li",
        {element("a", {{"href", page.station_link(id)}},
                 {element("b", {id}), " ", in_its_language(page, *row.place.asked.place, place)}),
         due, element("p", {line}), flags,
         to_do.empty() ? Html() : element("p", {{"class", "next"}}, {to_do})});
}

/// A button that sends one thing to an address below the overview.
Html small_form(const Page& page, const std::string& action, const std::string& name,
                const std::string& value, const std::string& text, const std::string& label) {
    return element("form",
                   {{"method", "post"},
                    {"action", page.root + "ALL/" + action + page.form_query},
                    {"class", "small"}},
                   {hidden(name, value),
                    element("button", {{"type", "submit"}, {"aria-label", label}}, {text})});
}

/// What neighbours reported: what nobody has looked at yet, then the rest folded away.
Html told(const Page& page) {
    const auto& words = page.words;
    constexpr std::size_t looked_through = 500;
    constexpr std::size_t old_shown = 20;
    Html unread;
    Html read;
    std::size_t old = 0;
    for (const log::NeighbourReport& report : page.context.log.reports(looked_through)) {
        if (report.read && ++old > old_shown) continue;
        Html item = element("p", {element("b", {diag::printable(report.station)}), " · ",
                                  words.date_time(report.time)}) +
                    report_facts(page, report);
        if (!report.read)
            item += small_form(
                page, "READ", "report", std::to_string(report.number),
                words("web.overview.looked_at"),
                words("web.overview.looked_at_one", {{"station", diag::printable(report.station)},
                                                     {"time", words.date_time(report.time)}}));
        (report.read ? read : unread) += element("li", {item});
    }
    if (unread.empty() && read.empty()) return {};
    Html section = element("h2", {words("web.overview.told")});
    if (!unread.empty()) section += element("ul", {{"class", "visits"}}, {unread});
    if (!read.empty())
        section += fold(words("web.overview.told_before"), false,
                        element("ul", {{"class", "visits"}}, {read}));
    return element("section", {{"class", "told"}}, {section});
}

/// The phones of the caretaker, each with a button that ends it.
Html phones(const Page& page, const std::string& own) {
    const auto& words = page.words;
    constexpr std::size_t shown = 100;
    Html items;
    for (const log::Phone& phone : page.context.log.phones(shown)) {
        if (phone.ended) continue;
        const std::string since = words.date_time(page.context.zone.local(phone.since));
        const std::string kind =
            phone.kind.empty() ? words("web.phones.unnamed") : diag::printable(phone.kind);
        Html item =
            element("p", {element("b", {kind}), " · ", words("web.phones.since", {{"time", since}}),
                          phone.id == own ? Html(" · " + words("web.phones.this_one")) : Html()});
        item += small_form(page, "END", "phone", phone.id, words("web.phones.end"),
                           words("web.phones.end_one", {{"kind", kind}, {"time", since}}));
        items += element("li", {item});
    }
    return fold(
        words("web.phones.heading"), false,
        element("p", {words("web.phones.what")}) + element("ul", {{"class", "visits"}}, {items}));
}

}  // namespace

Response overview_page(const Page& page, const std::string& phone, bool fresh) {
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
    const std::int64_t done = count([&](const Row& row) {
        const auto& visits = row.station_state.visits;
        return !visits.empty() && analysis::day_of(visits.front().visit.time) == today;
    });
    const std::int64_t flagged = count([](const Row& row) { return row.flagged(); });

    Html main;
    if (fresh)
        main += element("div", {{"class", "saved"}, {"role", "status"}},
                        {element("h2", {words("web.phones.yours")}),
                         element("p", {words("web.phones.yours_what")})});
    main += element(
        "div", {{"class", "heading"}},
        {element("h1", {in_its_language(page, *page.context.job.title,
                                        page.context.job.title->in(words.tag()))}),
         element("p", {words("web.overview.counts",
                             {{"overdue", overdue}, {"due", due}, {"flagged", flagged}})}),
         done == 0 ? Html() : element("p", {words("web.overview.done_today", {{"n", done}})})});
    main += told(page);
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

    // Floor by floor as it is walked, on each room by room.
    std::vector<std::pair<std::string, std::string>> rooms;
    std::set<std::string> floors;
    const auto floor_of = [&](const Row& row) {
        return plan::floor_in(page.context.job, plan::floor_of(page.context.job, row.place.asked),
                              words.tag());
    };
    for (const Row& row : rows) {
        const std::pair here{floor_of(row), row.room};
        floors.insert(here.first);
        if (std::find(rooms.begin(), rooms.end(), here) == rooms.end()) rooms.push_back(here);
    }
    left = maximum_rows;
    for (const auto& [floor, room] : rooms) {
        std::vector<ToDo> list;
        for (const Row& row : rows)
            if (row.room == room && floor_of(row) == floor) list.push_back({&row, {}});
        const bool named = floors.size() > 1 && !floor.empty() && floor != room;
        section(named ? floor + " · " + room : room, list, left);
    }
    if (rows.size() > maximum_rows)
        main += element(
            "p", {words("web.overview.more", {{"n", std::int64_t(rows.size() - maximum_rows)}})});
    main += phones(page, phone);
    main +=
        element("p", {element("a", {{"href", page.root + "ALL/VISITS.CSV"}, {"class", "button"}},
                              {words("web.overview.csv")})});
    return answer(page, 200, page.context.job.title->in(words.tag()), std::nullopt, main);
}

Response plain_page(const Page& page, int status, const std::string& key) {
    const std::string title = page.words("web.trouble.title");
    return answer(page, status, title, std::nullopt, element("h1", {title}) + trouble(page, key));
}

}  // namespace gallipot::web
