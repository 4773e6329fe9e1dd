#include <algorithm>

#include "base/diag/utf8.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/verdict_words.hpp"
#include "papers/document/words.hpp"
#include "tracking/log/fields.hpp"
#include "web/counting.hpp"
#include "web/form_parts.hpp"
#include "web/neighbour_page.hpp"
#include "web/pages.hpp"
#include "web/photo_parts.hpp"
#include "web/plot.hpp"

namespace gallipot::web {
namespace {

constexpr std::size_t visits_listed = 8;

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

/// What is in it: as the job has it, or container by container where the log knows better.
void contents_facts(const Page& page, const Place& place, const analysis::StationReport& report,
                    std::vector<std::pair<std::string, Html>>& rows) {
    if (place.mixed == nullptr || !place.planned.per_container) return;
    const auto& words = page.words;
    const auto groups = document::held(page.context.job, page.context.plan, report, page.words);
    const bool as_now = std::ranges::none_of(
        groups, [](const document::Held& one) { return one.older || one.mixed; });
    if (as_now) {
        rows.emplace_back(words(place.site.sprayed ? "web.facts.surface" : "web.facts.one"),
                          document::contents(page.context.job, *place.mixed,
                                             *place.planned.per_container, words));
        return;
    }
    for (const document::Held& one : groups)
        rows.emplace_back(held_in(page, one),
                          one.mixed ? one.text + ". " + words("held.mixed") : one.text);
}

/// What was found and not put right, by container.
void open_facts(const Page& page, const analysis::StationReport& report,
                std::vector<std::pair<std::string, Html>>& rows) {
    if (report.containers.size() < 2) return;
    for (const analysis::ContainerState& container : report.containers) {
        std::string what = states_text(page, container.open);
        if (container.taken_up) what = page.words("web.facts.taken_up");
        if (!what.empty()) rows.emplace_back(report.container_id(container.number), what);
    }
}

Html station_facts(const Page& page, const Place& place, const StationState& station_state) {
    const auto& words = page.words;
    const analysis::StationReport& report = station_state.report();
    const analysis::Site& site = station_state.site();
    std::vector<std::pair<std::string, Html>> rows;
    contents_facts(page, place, report, rows);
    if (site.placed)
        rows.emplace_back(
            words("web.facts.placed"),
            site.placed_by_day
                ? words.date(job::Date(std::chrono::floor<std::chrono::days>(*site.placed)))
                : words.date_time(*site.placed));
    if (report.retired) {
        rows.emplace_back(words("web.facts.now"), words("web.facts.taken_up"));
        return facts(rows);
    }
    open_facts(page, report, rows);
    if (report.due)
        rows.emplace_back(words("web.facts.due"),
                          element("span", {{"class", report.due->overdue ? "overdue" : "due"}},
                                  {due_text(page, *report.due, place)}));
    if (report.replace_by)
        rows.emplace_back(words("web.facts.replace_by"),
                          words.day(std::chrono::year_month_day(*report.replace_by)));
    return facts(rows);
}

/// What to do here next: the same as the report and the round say.
Html next_steps(const Page& page, const StationState& station_state) {
    const auto sentences = document::step_sentences(
        station_state.report(), station_state.evidence->report.as_of, page.words);
    if (sentences.empty()) return {};
    Html items;
    for (const std::string& sentence : sentences) items += element("li", {sentence});
    return element("section", {{"class", "next"}},
                   {element("h2", {page.words("report.do.next")}), element("ul", {items})});
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
            note = element("p", {{"class", "note"}, {"dir", "auto"}},
                           {diag::printable_lines(visit.note)});
        rows += element(
            "li",
            {element("p", {element("b", {words.date_time(visit.time)}),
                           visit.by.empty() ? Html() : Html(" · " + diag::printable(visit.by))}),
             line.empty() ? Html() : element("p", {line}), note, photos_of(page, entry),
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

/// The stop of the next round that comes after `here` on the walk.
Html next_station(const Page& page, const Place& here) {
    const auto& words = page.words;
    const auto evidence = page.context.evidence_now();
    if (evidence->rounds.empty()) return element("p", {words("web.next.none")});
    const analysis::Round& round = evidence->rounds.front();
    const auto& walk = page.context.plan.walk;
    const auto place_in_walk = [&](std::size_t station) {
        return std::distance(walk.begin(), std::find(walk.begin(), walk.end(), station));
    };
    const analysis::Stop* next = nullptr;
    for (const analysis::Stop& stop : round.stops) {
        if (stop.station == here.index) continue;
        const bool after = place_in_walk(stop.station) > place_in_walk(here.index);
        if (next == nullptr || (after && place_in_walk(next->station) < place_in_walk(here.index)))
            next = &stop;
    }
    if (next == nullptr) return element("p", {words("web.next.none")});
    const Place place = place_at(page.context, next->station);
    const analysis::StationReport& report = evidence->report.stations.at(next->station);
    const std::string when = words.day(std::chrono::year_month_day(next->steps.front().on));
    return element("p", {when, ". ",
                         document::action_sentences(report, next->steps, evidence->report.as_of,
                                                    words)}) +
           element("p", {element("a",
                                 {{"href", page.station_link(place.planned.id)},
                                  {"class", "button next-station"}},
                                 {station_title(page, place)})});
}

/// What neighbours reported of this station and nobody has looked at.
Html told_here(const Page& page, const Place& place) {
    constexpr std::size_t looked_through = 500;
    Html items;
    for (const log::NeighbourReport& report : page.context.log.reports(looked_through))
        if (!report.read && report.station == place.planned.id)
            items += element("li", {element("p", {page.words.date_time(report.time)}),
                                    report_facts(page, report)});
    if (items.empty()) return {};
    return element("section", {{"class", "told"}},
                   {element("h2", {page.words("web.overview.told")}),
                    element("ul", {{"class", "visits"}}, {items})});
}

std::string title_of(const Page& page, const Place& place, int status) {
    const std::string title = station_title(page, place);
    return status == 200 ? title : trouble_title(page, title);
}

/// Of what was taken up for good: that it was, and what was seen there.
Html retired_main(const Page& page, const StationPage& station, const StationState& state) {
    const auto& words = page.words;
    const text::Arguments day{
        {"day", words.date(std::chrono::year_month_day(*station.place.site.until))}};
    Html main = station_heading(page, station.place);
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
    Html main = station_heading(page, place);
    main += trouble_box(page, errors);
    main += pest_warnings(page, place);
    const Html told = told_here(page, place);
    main += told;
    main += next_steps(page, station_state);
    const bool baseline = is_time_for_baseline(page.context, place, station_state);
    if (baseline) main += how_to_count(page, place, station_state);
    main += element("h2", {page.words("web.form.heading")});
    main += visit_form(page, place, form, errors, station.key + page.form_query);
    if (!baseline) main += how_to_count(page, place, station_state);
    main += element("section", {element("h2", {page.words("web.facts.heading")}),
                                station_facts(page, place, station_state)});
    main += element("section",
                    {element("h2", {page.words("web.visits.heading")}),
                     plot(station_state, page.words), visit_list(page, station, station_state)});
    Response response =
        answer(page, status, title_of(page, place, status), place, main, page.context.photo_script);
    response.others_words = !told.empty();
    return response;
}

Response correction_page(const Page& page, const StationPage& station, const log::Entry& entry,
                         const FormData& form, int status, const FormErrors& errors) {
    const Place& place = station.place;
    Html main = station_heading(page, place);
    main += trouble_box(page, errors);
    main += element("h2", {page.words("web.correction.heading")});
    main += element("p", {page.words("web.correction.stays")});
    main += element("h3", {page.words("web.correction.before")});
    main += visit_facts(page, entry.visit);
    main += photos_of(page, entry);
    // The page stands at .../KEY/CORRECT/7; while it is shown again after a fault, at .../KEY.
    const std::string up = status == 200 ? "../../" : "";
    main += visit_form(page, place, form, errors, up + station.key + page.form_query);
    return answer(page, status, title_of(page, place, status), place, main,
                  page.context.photo_script);
}

Response form_page(const Page& page, const StationPage& station, const FormData& form, int status,
                   const FormErrors& errors) {
    const Place& place = station.place;
    Html main = station_heading(page, place);
    main += trouble_box(page, errors);
    main += element("h2", {page.words("web.form.heading")});
    main += visit_form(page, place, form, errors, station.key + page.form_query);
    return answer(page, status, title_of(page, place, status), place, main,
                  page.context.photo_script);
}

Response saved_page(const Page& page, const StationPage& station, const log::Entry& entry,
                    const std::optional<log::Entry>& before) {
    const auto& words = page.words;
    const Place& place = station.place;
    const std::string title = words(entry.withdrawn ? "web.saved.withdrawn" : "web.saved.heading");
    Html main = station_heading(page, place);
    main += element("div", {{"class", "saved"}, {"role", "status"}},
                    {element("h2", {title}),
                     entry.withdrawn ? element("p", {words("web.saved.withdrawn_stays")})
                                     : visit_facts(page, entry.visit) + photos_of(page, entry)});
    main +=
        element("section", {element("h2", {words("web.next.heading")}), next_station(page, place)});
    if (before)
        main += element("section", {element("h2", {words("web.saved.before")}),
                                    visit_facts(page, before->visit), photos_of(page, *before)});
    if (!entry.withdrawn)
        main += element(
            "p",
            {element("a",
                     {{"href", "../CORRECT/" + std::to_string(entry.number) + page.language_query},
                      {"class", "button"}},
                     {words("web.saved.correct")})});
    main += element(
        "p",
        {element("a", {{"href", "../../" + station.key + page.language_query}, {"class", "button"}},
                 {words("web.saved.back", {{"station", place.planned.id}})})});
    const StationState station_state = station_state_of(page.context, place);
    main += plot(station_state, words);
    return answer(page, 200, title + " · " + place.planned.id, place, main);
}

}  // namespace gallipot::web
