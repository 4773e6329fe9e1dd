#include <algorithm>

#include "base/diag/utf8.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/words.hpp"
#include "tracking/log/fields.hpp"
#include "web/counting.hpp"
#include "web/form_parts.hpp"
#include "web/pages.hpp"
#include "web/plot.hpp"

namespace gallipot::web {
namespace {

constexpr std::size_t visits_listed = 8;

std::string subtitle(const Page& page, const Place& place) {
    if (place.mix == nullptr) return page.words("web.control");
    return page.words(
        "web.against",
        {{"title", place.mix->title->in(page.words.tag())},
         {"pests", document::pest_name(page.context.job, *place.mix->against, page.words)}});
}

/// Of what lives in wood: that it may go on out of sight, and what not to do.
Html pest_warnings(const Page& page, const Place& place) {
    if (place.mix == nullptr) return {};
    const reference::Pest* pest = reference::find_pest(*place.mix->against);
    if (pest == nullptr || !pest->lives_in_wood) return {};
    Html lines;
    for (const text::StyledText& sentence :
         document::advice_on(*pest, reference::Topic::warning, page.context.job, page.words))
        lines += element("p", {element("b", {text::plain(sentence)})});
    return lines;
}

Html station_facts(const Page& page, const Place& place, const StationState& station_state) {
    const auto& words = page.words;
    std::vector<std::pair<std::string, Html>> rows;
    if (place.mixed != nullptr && place.planned.per_container) {
        const char* key = place.site.sprayed ? "web.facts.surface" : "web.facts.one";
        rows.emplace_back(words(key), document::contents(page.context.job, *place.mixed,
                                                         *place.planned.per_container, words));
    }
    if (place.planned.placed)
        rows.emplace_back(words("web.facts.placed"),
                          place.asked.placed_by_day
                              ? words.date(job::Date(
                                    std::chrono::floor<std::chrono::days>(*place.planned.placed)))
                              : words.date_time(*place.planned.placed));
    if (station_state.retired) {
        rows.emplace_back(words("web.facts.now"), words("web.facts.taken_up"));
    } else {
        if (station_state.due)
            rows.emplace_back(
                words("web.facts.due"),
                element("span", {{"class", station_state.due->overdue ? "overdue" : "due"}},
                        {due_text(page, *station_state.due, place)}));
        if (station_state.replace_by)
            rows.emplace_back(words("web.facts.replace_by"),
                              words.day(std::chrono::year_month_day(*station_state.replace_by)));
    }
    return facts(rows);
}

/// The last visits, newest first, each with a way to correct it.
Html visit_list(const Page& page, const StationPage& station, const StationState& station_state) {
    const auto& words = page.words;
    if (station_state.visits.empty()) return element("p", {words("web.visits.none")});
    Html rows;
    for (std::size_t i = 0; i < std::min(station_state.visits.size(), visits_listed); ++i) {
        const log::Entry& entry = station_state.visits[i];
        const visit::Visit& visit = entry.visit;
        std::vector<std::string> said;
        if (visit.container != 0) said.push_back(log::print_target(visit));
        if (visit.seen)
            said.push_back(words("web.visits.seen", {{"n", std::int64_t(*visit.seen)}}));
        if (visit.young)
            said.push_back(words("web.visits.young", {{"n", std::int64_t(*visit.young)}}));
        if (visit.minutes)
            said.push_back(words("web.visits.minutes", {{"n", std::int64_t(*visit.minutes)}}));
        if (visit.trap_nights)
            said.push_back(
                words("web.visits.trap_nights", {{"n", std::int64_t(*visit.trap_nights)}}));
        if (visit.dead)
            said.push_back(words("web.visits.dead", {{"n", std::int64_t(*visit.dead)}}));
        if (visit.feeding)
            said.push_back(
                words(*visit.feeding ? "web.visits.feeding_yes" : "web.visits.feeding_no"));
        if (visit.level_percent)
            said.push_back(words("web.visits.level",
                                 {{"level", words.percent(*visit.level_percent / 100.0)}}));
        if (const auto states = states_text(page, visit.state); !states.empty())
            said.push_back(states);
        if (const auto dids = dids_text(page, visit.did); !dids.empty()) said.push_back(dids);
        std::string line;
        for (const std::string& part : said) line += (line.empty() ? "" : " · ") + part;
        Html note;
        if (!visit.note.empty())
            note = element("p", {{"class", "note"}}, {diag::printable_lines(visit.note)});
        rows += element(
            "li",
            {element("p", {element("b", {words.date_time(visit.time)}),
                           visit.by.empty() ? Html() : Html(" · " + diag::printable(visit.by))}),
             line.empty() ? Html() : element("p", {line}), note,
             element("a",
                     {{"href", station.key + "/CORRECT/" + std::to_string(entry.number) +
                                   page.language_query},
                      {"class", "small"},
                      {"aria-label",
                       words("web.visits.correct_one", {{"time", words.date_time(visit.time)}})}},
                     {words("web.visits.correct")})});
    }
    return element("ol", {{"class", "visits"}}, {rows});
}

Html heading(const Page& page, const Place& place) {
    return element(
        "div", {{"class", "heading"}},
        {element("h1", {station_title(page, place)}), element("p", {subtitle(page, place)})});
}

/// The station that is to be looked at next, other than `here`: the longest due first, and of
/// those the next one on the walk.
Html next_station(const Page& page, const Place& here) {
    const auto& words = page.words;
    std::optional<std::size_t> best;
    std::optional<analysis::Due> soonest;
    const analysis::Day today = analysis::day_of(page.context.local_now());
    const auto& stations = page.context.plan.stations;
    std::vector<std::size_t> walk = page.context.plan.walk;
    const auto at = std::find_if(walk.begin(), walk.end(),
                                 [&](std::size_t i) { return stations[i].id == here.planned.id; });
    if (at != walk.end()) std::rotate(walk.begin(), at + 1, walk.end());
    for (const std::size_t i : walk) {
        const Place place = place_at(page.context, i);
        if (place.planned.id == here.planned.id) continue;
        // The last visit is all that decides, but for what was taken up.
        const auto last = page.context.log.last(place.planned.id, 1);
        if (!last.empty() && last[0].visit.did.has(visit::Did::removed) &&
            (last[0].visit.container == 0 || place.planned.containers < 2))
            continue;
        const auto due = analysis::next_due(
            place.site, last.empty() ? std::nullopt : std::optional(last[0].visit.time), today);
        if (due && (!soonest || due->on < soonest->on)) {
            soonest = due;
            best = i;
        }
    }
    if (!best) return element("p", {words("web.next.none")});
    const Place place = place_at(page.context, *best);
    return element(
        "p", {element("b", {station_title(page, place)}), ": ", due_text(page, *soonest, place)});
}

/// Of what was taken up for good: that it was, and what was seen there.
Html retired_main(const Page& page, const StationPage& station, const StationState& state) {
    const auto& words = page.words;
    const text::Arguments day{
        {"day", words.date(std::chrono::year_month_day(*station.place.site.until))}};
    Html main = heading(page, station.place);
    main += element("div", {{"class", "saved"}},
                    {element("h2", {words("web.retired.on", day)}),
                     element("p", {words("web.retired.what", day)})});
    main += element("section", {element("h2", {words("web.visits.heading")}), plot(state, words),
                                visit_list(page, station, state)});
    return main;
}

}  // namespace

Response gone_page(const Page& page, const std::string& id) {
    const std::string title = page.words("web.retired.unknown", {{"id", diag::printable(id)}});
    return answer(
        page, 410, title, std::nullopt,
        element("div", {{"class", "saved"}},
                {element("h1", {title}), element("p", {page.words("web.retired.unknown_what")})}));
}

Response station_page(const Page& page, const StationPage& station, const FormData& form,
                      int status, const FormErrors& errors) {
    const Place& place = station.place;
    const StationState station_state = station_state_of(page.context, place);
    // A form that was opened before and sent later comes back as it was typed.
    if (status == 200 && place.site.over(analysis::day_of(page.context.local_now())))
        return answer(page, status, station_title(page, place), place,
                      retired_main(page, station, station_state));
    Html main = heading(page, place);
    main += trouble_box(page, errors);
    main += pest_warnings(page, place);
    main += station_facts(page, place, station_state);
    main += how_to_count(page, place, station_state);
    main += element("h2", {page.words("web.form.heading")});
    main += visit_form(page, place, form, errors, station.key + page.form_query);
    main += element("section",
                    {element("h2", {page.words("web.visits.heading")}),
                     plot(station_state, page.words), visit_list(page, station, station_state)});
    return answer(page, status, station_title(page, place), place, main);
}

Response correction_page(const Page& page, const StationPage& station, const log::Entry& entry,
                         const FormData& form, int status, const FormErrors& errors) {
    const Place& place = station.place;
    Html main = heading(page, place);
    main += trouble_box(page, errors);
    main += element("h2", {page.words("web.correction.heading")});
    main += element("p", {page.words("web.correction.stays")});
    main += element("h3", {page.words("web.correction.before")});
    main += visit_facts(page, entry.visit);
    // The page stands at .../KEY/CORRECT/7; while it is shown again after a fault, at .../KEY.
    const std::string up = status == 200 ? "../../" : "";
    main += visit_form(page, place, form, errors, up + station.key + page.form_query);
    return answer(page, status, station_title(page, place), place, main);
}

Response form_page(const Page& page, const StationPage& station, const FormData& form, int status,
                   const FormErrors& errors) {
    const Place& place = station.place;
    Html main = heading(page, place);
    main += trouble_box(page, errors);
    main += element("h2", {page.words("web.form.heading")});
    main += visit_form(page, place, form, errors, station.key + page.form_query);
    return answer(page, status, station_title(page, place), place, main);
}

Response saved_page(const Page& page, const StationPage& station, const log::Entry& entry,
                    const std::optional<log::Entry>& before) {
    const auto& words = page.words;
    const Place& place = station.place;
    const std::string title = words(entry.withdrawn ? "web.saved.withdrawn" : "web.saved.heading");
    Html main = heading(page, place);
    main += element("div", {{"class", "saved"}, {"role", "status"}},
                    {element("h2", {title}),
                     entry.withdrawn ? element("p", {words("web.saved.withdrawn_stays")})
                                     : visit_facts(page, entry.visit)});
    if (before)
        main += element("section", {element("h2", {words("web.saved.before")}),
                                    visit_facts(page, before->visit)});
    if (!entry.withdrawn)
        main += element(
            "p",
            {element("a",
                     {{"href", "../CORRECT/" + std::to_string(entry.number) + page.language_query},
                      {"class", "button"}},
                     {words("web.saved.correct")})});
    main += element(
        "section",
        {element("h2", {words("web.next.heading")}), next_station(page, place),
         element("p", {element("a",
                               {{"href", "../../" + station.key + page.language_query},
                                {"class", "button"}},
                               {words("web.saved.back", {{"station", place.planned.id}})})})});
    const StationState station_state = station_state_of(page.context, place);
    main += plot(station_state, words);
    return answer(page, 200, title + " · " + place.planned.id, place, main);
}

}  // namespace gallipot::web
