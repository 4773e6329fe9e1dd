#include <algorithm>
#include <ranges>
#include <set>

#include "base/diag/utf8.hpp"
#include "domain/plan/rooms.hpp"
#include "domain/plan/walk.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/verdict_words.hpp"
#include "tracking/keys/link.hpp"
#include "tracking/log/fields.hpp"
#include "web/form_parts.hpp"
#include "web/overview_parts.hpp"
#include "web/pages.hpp"
#include "web/photo_parts.hpp"

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
    std::string floor;  ///< as the job has it
    StationState station_state;
    std::string to_do;  ///< on the round that is due; empty where nothing is

    [[nodiscard]] const analysis::StationReport& report() const { return station_state.report(); }
    [[nodiscard]] bool overdue() const { return report().due && report().due->overdue; }
    [[nodiscard]] bool due(analysis::Day today) const {
        return report().due && report().due->on <= today;
    }
    [[nodiscard]] bool flagged() const { return !report().flags.empty(); }
};

const char* word_of(OverviewFilter::Show show) {
    switch (show) {
        case OverviewFilter::Show::due:
            return "due";
        case OverviewFilter::Show::flagged:
            return "flagged";
        case OverviewFilter::Show::photos:
            return "photos";
        case OverviewFilter::Show::told:
            return "told";
        default:
            return "";
    }
}

/// "?lang=es&show=due"
std::string query_of(const Page& page, const OverviewFilter& filter) {
    std::string asked;
    if (filter.show == OverviewFilter::Show::floor)
        asked = "floor=" + keys::percent_encoded(filter.floor);
    else if (filter.show != OverviewFilter::Show::all)
        asked = std::string("show=") + word_of(filter.show);
    if (asked.empty()) return page.language_query;
    return page.language_query + (page.language_query.empty() ? "?" : "&") + asked;
}

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
        due = element("span", {{"class", row.overdue() ? "overdue" : "due"}},
                      {document::headed(words, words("web.facts.due"),
                                        due_text(page, *row.report().due, row.place))});
    Html flags;
    if (row.flagged()) flags = element("p", {{"class", "flags"}}, {flags_text(page, row)});
    const std::string place = row.spot.empty() ? row.room : row.spot;
    return element(
        "li",
        {element("a", {{"href", page.station_link(id)}},
                 {element("b", {id}), " ", in_its_language(page, *row.place.asked.place, place)}),
         due, element("p", {line}), flags,
         visits.empty() ? Html() : photos_of(page, visits.front()),
         to_do.empty() ? Html() : element("p", {{"class", "next"}}, {to_do})});
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

namespace {

std::vector<Row> rows_of(const Page& page) {
    std::vector<Row> rows;
    for (const std::size_t i : page.context.plan.walk) {
        const Place place = place_at(page.context, i);
        auto where = plan::whereabouts(page.context.job, place.asked, page.words.tag());
        rows.push_back({place,
                        std::move(where.room),
                        std::move(where.place),
                        plan::floor_of(page.context.job, place.asked),
                        station_state_of(page.context, place, visits_shown),
                        {}});
    }
    return rows;
}

/// What the round that is due asks for, by station.
void add_steps(const Page& page, std::vector<Row>& rows, analysis::Day today) {
    const auto evidence = page.context.evidence_now();
    if (evidence->rounds.empty() || evidence->rounds.front().on > today) return;
    for (const analysis::Stop& stop : evidence->rounds.front().stops)
        for (Row& row : rows)
            if (row.place.index == stop.station)
                row.to_do = document::action_sentences(row.report(), stop.steps, today, page.words);
}

std::string floor_name(const Page& page, const std::string& floor) {
    return plan::floor_in(page.context.job, floor, page.words.tag());
}

Html list_of(const Page& page, const Html& heading, const std::vector<const Row*>& rows,
             bool with_steps) {
    if (rows.empty()) return {};
    Html items;
    for (const Row* row : rows)
        items += station_item(page, *row, with_steps ? row->to_do : std::string());
    return element("section",
                   {element("h2", {heading}), element("ul", {{"class", "stations"}}, {items})});
}

/// Floor by floor as it is walked, on each room by room.
Html by_room(const Page& page, const std::vector<const Row*>& rows, bool with_steps) {
    std::vector<std::pair<std::string, std::string>> rooms;
    std::set<std::string> floors;
    for (const Row* row : rows) {
        const std::pair here{floor_name(page, row->floor), row->room};
        floors.insert(here.first);
        if (std::find(rooms.begin(), rooms.end(), here) == rooms.end()) rooms.push_back(here);
    }
    Html html;
    for (const auto& [floor, room] : rooms) {
        std::vector<const Row*> list;
        for (const Row* row : rows)
            if (row->room == room && floor_name(page, row->floor) == floor) list.push_back(row);
        const bool named = floors.size() > 1 && !floor.empty() && floor != room;
        const Row& first = *list.front();
        Html heading = named ? floor_in_its_language(page, first.floor) + " · " : Html();
        heading += in_its_language(page, *first.place.asked.place, room);
        html += list_of(page, heading, list, with_steps);
    }
    return html;
}

/// The visits with photos, newest first.
Html photos_list(const Page& page, const std::vector<Row>& rows) {
    constexpr std::size_t shown = 60;
    std::vector<log::Entry> visits;
    for (const Row& row : rows)
        for (log::Entry& entry :
             page.context.log.last(row.place.planned.id, StationState::visits_kept))
            if (!entry.photos.empty()) visits.push_back(std::move(entry));
    std::ranges::stable_sort(visits, [](const log::Entry& a, const log::Entry& b) {
        return a.visit.time > b.visit.time;
    });
    Html items;
    for (const log::Entry& entry : visits | std::views::take(shown))
        items += element(
            "li", {element("p", {element("a", {{"href", page.station_link(entry.visit.station)}},
                                         {element("b", {log::print_target(entry.visit)})}),
                                 " · ", page.words.date_time(entry.visit.time)}),
                   photos_of(page, entry)});
    if (items.empty()) return element("p", {page.words("web.overview.show_none")});
    return element("section", {element("h2", {page.words("web.overview.show_photos")}),
                               element("ul", {{"class", "visits"}}, {items})});
}

/// A link for each way to look at the list.
Html filter_links(const Page& page, const std::vector<Row>& rows, const OverviewFilter& filter,
                  analysis::Day today) {
    using Show = OverviewFilter::Show;
    const auto& words = page.words;
    const auto counted = [&](const char* key, auto which) {
        return words(
            "web.overview.show_n",
            {{"what", words(key)}, {"n", std::int64_t(std::ranges::count_if(rows, which))}});
    };
    Html links;
    const auto link = [&](const OverviewFilter& to, const Html& text) {
        Attributes attributes{{"href", page.root + "ALL" + query_of(page, to)}};
        if (to == filter) attributes.push_back({"aria-current", "page"});
        links += element("a", attributes, {text});
    };
    link({Show::all, {}}, counted("web.overview.show_all", [](const Row&) { return true; }));
    link({Show::due, {}}, counted("web.overview.show_due",
                                  [&](const Row& row) { return row.overdue() || row.due(today); }));
    link({Show::flagged, {}},
         counted("web.overview.show_flagged", [](const Row& row) { return row.flagged(); }));
    std::vector<std::string> floors;
    for (const Row& row : rows)
        if (!row.floor.empty() && std::ranges::find(floors, row.floor) == floors.end())
            floors.push_back(row.floor);
    if (floors.size() > 1)
        for (const std::string& floor : floors)
            link({Show::floor, floor}, floor_in_its_language(page, floor));
    link({Show::photos, {}}, words("web.overview.show_photos"));
    link({Show::told, {}}, words("web.overview.show_told"));
    return element("nav", {{"class", "filter"}, {"aria-label", words("web.overview.show")}},
                   {links});
}

Html overview_heading(const Page& page, const std::vector<Row>& rows, analysis::Day today) {
    const auto& words = page.words;
    const auto count = [&](auto which) { return std::int64_t(std::ranges::count_if(rows, which)); };
    const std::int64_t overdue = count([](const Row& row) { return row.overdue(); });
    const std::int64_t due = count([&](const Row& row) { return row.due(today); }) - overdue;
    const std::int64_t done = count([&](const Row& row) {
        const auto& visits = row.station_state.visits;
        return !visits.empty() && analysis::day_of(visits.front().visit.time) == today;
    });
    const std::int64_t flagged = count([](const Row& row) { return row.flagged(); });
    return element(
        "div", {{"class", "heading"}},
        {element("h1", {in_its_language(page, *page.context.job.title,
                                        page.context.job.title->in(words.tag()))}),
         element("p", {words("web.overview.counts",
                             {{"overdue", overdue}, {"due", due}, {"flagged", flagged}})}),
         done == 0 ? Html() : element("p", {words("web.overview.done_today", {{"n", done}})})});
}

}  // namespace

OverviewFilter overview_filter(const Request& request) {
    using Show = OverviewFilter::Show;
    if (const std::string floor = request.query_value("floor"); !floor.empty())
        return {Show::floor, floor};
    const std::string asked = request.query_value("show");
    for (const Show show : {Show::due, Show::flagged, Show::photos, Show::told})
        if (asked == word_of(show)) return {show, {}};
    return {};
}

Response overview_page(const Page& page, const OverviewFilter& filter, const std::string& phone,
                       bool fresh) {
    using Show = OverviewFilter::Show;
    const auto& words = page.words;
    const analysis::Day today = analysis::day_of(page.context.local_now());
    std::vector<Row> rows = rows_of(page);
    add_steps(page, rows, today);
    Html main;
    if (fresh)
        main += element("div", {{"class", "saved"}, {"role", "status"}},
                        {element("h2", {words("web.phones.yours")}),
                         element("p", {words("web.phones.yours_what")})});
    main += overview_heading(page, rows, today);
    main += filter_links(page, rows, filter, today);
    Html reports;
    if (filter.show == Show::all) reports = reports_list(page, Reports::unread);
    if (filter.show == Show::told) reports = reports_list(page, Reports::all);
    main += reports;
    const auto chosen = [&](auto which) {
        std::vector<const Row*> list;
        for (const Row& row : rows)
            if (list.size() < maximum_rows && which(row)) list.push_back(&row);
        return list;
    };
    std::vector<const Row*> list;
    switch (filter.show) {
        case Show::all:
            main += list_of(page, words("web.overview.to_do"),
                            chosen([](const Row& row) { return !row.to_do.empty(); }), true);
            main += by_room(page, chosen([](const Row&) { return true; }), false);
            break;
        case Show::due:
            list = chosen([&](const Row& row) { return row.overdue() || row.due(today); });
            main += by_room(page, list, true);
            break;
        case Show::flagged:
            list = chosen([](const Row& row) { return row.flagged(); });
            main += by_room(page, list, true);
            break;
        case Show::floor:
            list = chosen([&](const Row& row) { return row.floor == filter.floor; });
            main += by_room(page, list, true);
            break;
        case Show::photos:
            main += photos_list(page, rows);
            break;
        case Show::told:
            break;
    }
    const bool nothing = filter.show == Show::told ? reports.empty()
                                                   : list.empty() && filter.show != Show::all &&
                                                         filter.show != Show::photos;
    if (nothing) main += element("p", {words("web.overview.show_none")});
    if (filter.show == Show::all) {
        if (rows.size() > maximum_rows)
            main += element("p", {words("web.overview.more",
                                        {{"n", std::int64_t(rows.size() - maximum_rows)}})});
        main += phones(page, phone);
        main += element("p",
                        {element("a", {{"href", page.root + "ALL/VISITS.CSV"}, {"class", "button"}},
                                 {words("web.overview.csv")})});
    }
    Response response =
        answer(page, 200, page.context.job.title->in(words.tag()), std::nullopt, main);
    // The page holds the keys of all stations too; the list of reports alone holds none.
    response.others_words = !reports.empty() && filter.show != Show::told;
    return response;
}

Response plain_page(const Page& page, int status, const std::string& key) {
    const std::string title = page.words("web.trouble.title");
    return answer(page, status, title, std::nullopt, element("h1", {title}) + trouble(page, key));
}

}  // namespace gallipot::web
