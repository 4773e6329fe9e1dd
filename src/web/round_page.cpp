#include <algorithm>
#include <map>

#include "base/diag/utf8.hpp"
#include "domain/plan/walk.hpp"
#include "papers/document/joins.hpp"
#include "tracking/log/fields.hpp"
#include "web/counting.hpp"
#include "web/floor_map.hpp"
#include "web/form_context.hpp"
#include "web/form_parts.hpp"
#include "web/round_form.hpp"

namespace gallipot::web {
namespace {

Html level_list(const Page& page, const Fields& fields, const std::string& data) {
    const auto& words = page.words;
    std::vector<std::pair<std::string, std::string>> options{{"", words("web.level.not_looked")}};
    for (const Level& level : usual_levels()) options.emplace_back(level.value, words(level.key));
    return fields.list("level", options, data);
}

/// What is rarely needed of one stop.
Html more_of(const Page& page, const Place& place, const Fields& fields, const FormData& data,
             bool baited) {
    const auto& words = page.words;
    Html more;
    if (place.planned.container_ids.size() > 1) {
        std::vector<std::pair<std::string, std::string>> options{
            {place.planned.id, words("web.form.all")}};
        for (const std::string& id : place.planned.container_ids) options.emplace_back(id, id);
        more += fields.list("station", options, data.station);
    }
    if (baited) {
        const auto states = visit::states_of(place.site.powder);
        more += fields.ticks("state", std::span(states), data.state, "flag.");
        more += fields.ticks("did", visit::all_dids(), data.did, "web.did.");
    }
    more += fields.count("dead", data.dead);
    if (tells_young_apart(place)) more += fields.count("young", data.young);
    if (!place.site.timber)
        more += element(
            "div", {{"class", "pair"}},
            {fields.count("minutes", data.minutes), fields.count("trap_nights", data.trap_nights)});
    more += fields.lines("note", data.note, log::longest_note);
    const bool open = !data.state.empty() || !data.did.empty() || !data.dead.empty() ||
                      !data.note.empty() || !data.minutes.empty() || !data.trap_nights.empty() ||
                      !data.young.empty() || fields.faulty("state") || fields.faulty("did");
    return fold(words("web.round.more"), open, more);
}

/// What is the matter with a row, above its fields.
Html row_trouble(const Page& page, const RoundRow& row, const Place& place) {
    if (row.errors.faults.empty()) return {};
    Html lines;
    for (const Fault& fault : row.errors.faults)
        lines += element("li", {document::headed(page.words, page.words("web.form." + fault.field),
                                                 page.words(fault.key, fault.arguments))});
    Html html = element("div", {{"class", "trouble"}}, {element("ul", {lines})});
    if (row.errors.before)
        html += visit_facts(page, row.errors.before->visit) +
                element("p", {element("a",
                                      {{"href", page.station_path(place.planned.id) + "/CORRECT/" +
                                                    std::to_string(row.errors.before->number) +
                                                    page.language_query}},
                                      {page.words("web.saved.correct")})});
    return html;
}

/// Under the heading of its floor, or of the page where floors have no names.
enum class Below { page, floor };

Html row_title(const Page& page, const Place& place, Below below) {
    const Html text =
        element("a", {{"href", page.station_link(place.planned.id)}}, {place.planned.id}) + " · " +
        in_its_language(page, *place.asked.place, place.asked.where(page.words.tag()));
    return below == Below::floor ? element("h3", {text}) : element("h2", {text});
}

Html recorded_row(const Page& page, const RoundRow& row, const Place& place, Below below) {
    const std::string correct = page.station_path(place.planned.id) + "/CORRECT/" +
                                std::to_string(*row.recorded) + page.language_query;
    return element(
        "section", {{"class", "stop done"}, {"data-ack", row.data.token}},
        {row_title(page, place, below),
         element("p", {"✓ ", page.words("web.round.saved"), " · ",
                       element("a", {{"href", correct}}, {page.words("web.visits.correct")})})});
}

Html open_row(const Page& page, const RoundRow& row, const Place& place, Below below) {
    const auto& words = page.words;
    const Fields fields(page, row.errors, row.prefix);
    const bool baited = place.mixed != nullptr && !place.site.sprayed;
    Html content = fields.hidden("id", row.id) + fields.hidden("token", row.data.token) +
                   fields.hidden("time", row.data.time);
    content += row_title(page, place, below);
    if (!row.to_do.empty()) content += element("p", {{"class", "next"}}, {row.to_do});
    content += row_trouble(page, row, place);
    content += element("div", {{"class", "pair"}},
                       {fields.count("seen", row.data.seen),
                        baited ? level_list(page, fields, row.data.level) : Html()});
    if (row.errors.doubted_count)
        content += fields.choice(
            "checkbox", "sure_seen", std::to_string(*row.errors.doubted_count), false,
            words("web.form.sure_seen_yes", {{"n", std::int64_t{*row.errors.doubted_count}}}));
    if (row.errors.doubted)
        content += fields.choice("checkbox", "sure", log::print_time(*row.errors.doubted), false,
                                 words("web.form.sure"));
    if (const auto level = baited ? level_now(page.context, place) : Levels(); !level.empty())
        content += fields.choice("checkbox", "well", "yes", row.data.well, well_text(page, level));
    content += more_of(page, place, fields, row.data, baited);
    Attributes section{
        {"class", "stop"}, {"id", "stop-" + place.planned.id}, {"data-station", place.planned.id}};
    if (row.returned) section.push_back({"data-returned", "1"});
    return element("section", section, {content});
}

/// A row of a station that the job has no more: what was typed, so that it can be entered
/// elsewhere.
Html foreign_row(const Page& page, const RoundRow& row) {
    std::vector<std::pair<std::string, Html>> typed;
    const auto show = [&](const char* name, const std::string& value) {
        if (!value.empty()) typed.emplace_back(page.words(std::string("web.form.") + name), value);
    };
    show("seen", row.data.seen);
    show("level", row.data.level);
    show("dead", row.data.dead);
    show("note", row.data.note);
    return element(
        "section", {{"class", "stop"}},
        {element("h2", {diag::printable(row.id)}),
         element("div", {{"class", "trouble"}}, {page.words("web.round.unknown")}), facts(typed)});
}

/// What came of sending it.
Html result(const Page& page, const RoundForm& form) {
    const auto& words = page.words;
    if (!form.key.empty()) return trouble(page, form.key);
    const auto recorded = static_cast<std::int64_t>(form.recorded());
    const auto faulty = static_cast<std::int64_t>(form.faulty());
    Html html;
    if (recorded > 0)
        html += element(
            "div", {{"class", "saved"}, {"role", "status"}},
            {element("h2", {words("web.round.saved_n",
                                  {{"n", recorded}, {"count", std::int64_t(form.rows.size())}})})});
    if (faulty > 0)
        html +=
            trouble(page, {}, element("p", {words.rich("web.round.not_saved_n", {{"n", faulty}})}));
    return html;
}

std::optional<log::LocalTime> asked_opening(const RoundForm& form) {
    for (const RoundRow& row : form.rows)
        if (row.errors.opened && !row.errors.faults.empty()) return row.errors.opened;
    return std::nullopt;
}

/// Floor by floor in walking order, each with its map.
Html rows_by_floor(const Page& page, const RoundForm& form) {
    std::vector<std::string> floors;
    std::map<std::string, Html> rows;
    std::map<std::string, std::vector<std::size_t>> stations;
    Html foreign;
    for (const RoundRow& row : form.rows) {
        if (!row.station) {
            foreign += foreign_row(page, row);
            continue;
        }
        const Place place = place_at(page.context, *row.station);
        const std::string floor = plan::floor_of(page.context.job, place.asked);
        if (!rows.contains(floor)) floors.push_back(floor);
        const Below below = plan::floor_in(page.context.job, floor, page.words.tag()).empty()
                                ? Below::page
                                : Below::floor;
        rows[floor] += row.recorded ? recorded_row(page, row, place, below)
                                    : open_row(page, row, place, below);
        if (!row.recorded) stations[floor].push_back(*row.station);
    }
    Html html = foreign;
    for (const std::string& floor : floors) {
        const std::string name = plan::floor_in(page.context.job, floor, page.words.tag());
        if (!name.empty()) html += element("h2", {floor_in_its_language(page, floor)});
        html += floor_map(page, floor, stations[floor]);
        html += element("div", {{"class", "stops"}}, {rows.at(floor)});
    }
    return html;
}

}  // namespace

Response round_page(const Page& page, const RoundForm& form, int status) {
    const auto& words = page.words;
    const auto& zone = page.context.job.time_zone;
    const std::string title = words("web.round.heading");
    Html main = element(
        "div", {{"class", "heading"}},
        {element("h1", {title}),
         element("p", {form.on ? words("web.round.on",
                                       {{"day", words.day(std::chrono::year_month_day(*form.on))},
                                        {"n", std::int64_t(form.rows.size() + form.left_out)}})
                               : words("web.next.none")})});
    main += result(page, form);
    if (form.rows.empty()) return answer(page, status, title, std::nullopt, main);

    const FormErrors none;
    const Fields fields(page, none);
    Html content = hidden("opened", form.opened);
    if (const auto opened = asked_opening(form))
        content += when_group(fields, page, *opened, form.when);
    else if (!form.when.empty())
        content += hidden("when", form.when);
    content += rows_by_floor(page, form);
    if (form.left_out > 0)
        content +=
            element("p", {words("web.round.left_out", {{"n", std::int64_t(form.left_out)}})});
    content += fields.line("by", form.by, "name", "text", log::longest_name);
    const bool any_left =
        std::ranges::any_of(form.rows, [](const RoundRow& row) { return !row.recorded; });
    if (any_left)
        content += element("div", {{"class", "save"}},
                           {element("p", {{"id", "progress"}, {"aria-live", "polite"}}, {}),
                            element("button", {{"type", "submit"}}, {words("web.round.send")})});
    main += element("p", {{"class", "quiet"}}, {words("web.round.how")});
    main += element(
        "form",
        {{"method", "post"},
         {"action", page.root + "ROUND" + page.form_query},
         {"accept-charset", "utf-8"},
         {"novalidate", ""},
         {"id", "round"},
         {"data-job", keys::job_mark(page.context.secret())},
         {"data-zone", zone ? **zone : std::string()},
         {"data-progress", words("web.round.progress", {{"done", std::string("{done}")},
                                                        {"count", std::string("{count}")}})},
         {"data-kept", words("web.round.kept")},
         {"aria-label", title}},
        {content});
    return answer(page, status, status == 200 ? title : trouble_title(page, title), std::nullopt,
                  main, page.context.script);
}

}  // namespace gallipot::web
