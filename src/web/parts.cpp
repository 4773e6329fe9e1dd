#include "web/parts.hpp"

#include <algorithm>

#include "base/diag/utf8.hpp"
#include "base/system/error.hpp"
#include "domain/plan/walk.hpp"
#include "domain/safety/first_aid.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/words.hpp"
#include "papers/text/phone_numbers.hpp"
#include "tracking/keys/link.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::web {
namespace {

/// The caretaker's way about.
Html caretaker_links(const Page& page) {
    if (!page.caretaker) return {};
    return element("nav", {{"class", "caretaker"}, {"aria-label", page.words("web.nav.label")}},
                   {element("a", {{"href", page.root + "ROUND" + page.language_query}},
                            {page.words("web.nav.round")}),
                    element("a", {{"href", page.root + "ALL" + page.language_query}},
                            {page.words("web.nav.all")})});
}

/// What the containers of a station hold. Where the log cannot be read: what the job says.
std::vector<document::Held> held(const Page& page, const Place& place) {
    try {
        const auto evidence = page.context.evidence_now();
        return document::held(page.context.job, page.context.plan,
                              evidence->report.stations.at(place.index), page.words);
    } catch (const system::SystemError&) {
        return {};
    }
}

/// Key of what the band says it is.
std::string what_it_is(const Page& page, const std::optional<Place>& place) {
    if (!place) return "web.band.job";
    if (place->mix == nullptr) return "web.band.control";
    if (place->mixed == nullptr) return "web.band.job";
    if (place->site.sprayed) return "web.band.spray";
    const bool poison = place->mixed->hazard.hazardous() ||
                        std::ranges::any_of(held(page, *place), &document::Held::hazardous);
    return poison ? "web.band.poison" : "web.band.bait";
}

const std::string& number_to_call(const safety::WhoToCall& who) {
    return who.phone.empty() ? who.emergency : who.phone;
}

Html call_link(const std::string& number, const Html& text) {
    return element("a", {{"href", text::phone_link(number)}}, {text});
}

/// "In one container: borax 0.49 g, sugar, water. Equals ..." - what a poison centre asks for.
Html contents_line(const Page& page, const std::string& what, const std::string& text,
                   const plan::Contents& contents, bool mixed) {
    const auto& words = page.words;
    return element(
        "p", {element("b", {what}), document::mark(words, document::Join::colon),
              document::sentence(
                  words, document::joined(
                             words, document::Join::semicolon,
                             {text, words("contents.equivalent",
                                          {{"acid", words.mass(contents.boric_acid_equivalent)},
                                           {"boron", words.mass(contents.boron)},
                                           {"mass", words.mass(contents.mass)}})})),
              mixed ? Html(" " + words("held.mixed")) : Html()});
}

Html contents(const Page& page, const Place& place) {
    if (place.mixed == nullptr || !place.planned.per_container) return {};
    const auto& words = page.words;
    const auto groups = held(page, place);
    const bool as_now = std::ranges::none_of(
        groups, [](const document::Held& one) { return one.older || one.mixed; });
    if (as_now) {
        const plan::Contents& contents = *place.planned.per_container;
        return contents_line(
            page, words(place.site.sprayed ? "web.facts.surface" : "web.facts.one"),
            document::contents(page.context.job, *place.mixed, contents, words), contents, false);
    }
    Html lines;
    for (const document::Held& one : groups)
        lines += contents_line(page, held_in(page, one), one.text, one.contents, one.mixed);
    return lines;
}

Html languages(const Page& page) {
    if (page.context.job.languages.size() < 2) return {};
    Html links;
    for (const auto& language : page.context.job.languages) {
        const text::Catalog& words = *page.context.words.at(*language);
        Attributes attributes{
            {"href", "?lang=" + *language}, {"hreflang", *language}, {"lang", words.tag()}};
        if (&words == &page.words) attributes.push_back({"aria-current", "true"});
        links += element("a", attributes, {words("web.language")});
    }
    return element("nav", {{"class", "languages"}, {"aria-label", page.words("web.languages")}},
                   {links});
}

template <class Mark>
std::string marks_text(const Page& page, visit::Marks<Mark> marks, std::span<const Mark> all,
                       const std::string& group) {
    std::vector<std::string> texts;
    for (const Mark mark : all)
        if (marks.has(mark)) texts.push_back(page.words(group + std::string(visit::word(mark))));
    return texts.empty() ? std::string() : page.words.list(texts);
}

}  // namespace

std::string held_in(const Page& page, const document::Held& held) {
    if (!held.filled) return page.words("held.in", {{"ids", page.words.list(held.ids)}});
    return page.words("held.in_filled",
                      {{"ids", page.words.list(held.ids)},
                       {"day", page.words.day(std::chrono::year_month_day(*held.filled))}});
}

Html band(const Page& page, const std::optional<Place>& place) {
    const std::string& number = number_to_call(page.context.who);
    Html call;
    if (!number.empty())
        call =
            element("a", {{"href", text::phone_link(number)}, {"class", "call"}},
                    {page.words.rich("web.band.swallowed", {{"phone", text::unbroken(number)}})});
    return element(
        "header", {{"class", "band"}},
        {element("p", {page.words(what_it_is(page, place))}), call,
         element("a", {{"href", "#first-aid"}, {"class", "aid"}}, {page.words("web.band.aid")})});
}

Html first_aid(const Page& page, const std::optional<Place>& place) {
    const auto& words = page.words;
    const safety::WhoToCall& who = page.context.who;
    const std::string& number = number_to_call(who);
    const text::Arguments arguments{{"name", who.name.in(words.tag())},
                                    {"phone", text::unbroken(number)},
                                    {"emergency", text::unbroken(who.emergency)}};
    const auto aid = safety::first_aid(safety::advice_for(page.context.job.help.region.value));
    Html swallowed;
    for (const std::string& key : aid.swallowed)
        swallowed += element("li", {words.rich(key, arguments)});
    Html eyes;
    for (const std::string& key : aid.eyes) eyes += element("li", {words.rich(key, arguments)});
    Html numbers;
    const std::string comma = document::mark(words, document::Join::comma);
    if (!who.phone.empty())
        numbers += element(
            "li", {call_link(who.phone, text::unbroken(who.phone)), " ", who.name.in(words.tag()),
                   who.hours.empty() ? Html() : Html(" (" + who.hours + ")")});
    if (!who.emergency.empty() && who.emergency != who.phone)
        numbers += element("li", {call_link(who.emergency, text::unbroken(who.emergency)), " ",
                                  words("web.aid.emergency")});
    if (!who.vet_phone.empty())
        numbers += element(
            "li", {call_link(who.vet_phone, text::unbroken(who.vet_phone)), " ",
                   who.vet_name.empty() ? Html() : Html(who.vet_name.in(words.tag()) + comma),
                   words("web.aid.vet")});
    if (const auto& contact = page.context.job.help.contact)
        numbers +=
            element("li", {call_link(*contact->phone, text::unbroken(*contact->phone)), " ",
                           in_its_language(page, *contact->name, contact->name->in(words.tag())),
                           comma, words("web.aid.contact")});
    return element(
        "section", {{"id", "first-aid"}, {"aria-labelledby", "first-aid-heading"}},
        {element("h2", {{"id", "first-aid-heading"}}, {words("sheet.swallowed.heading")}),
         element("p", {words.rich(aid.unconscious, arguments)}), element("ol", {swallowed}),
         element("p", {words.rich(aid.tell, arguments)}), place ? contents(page, *place) : Html(),
         element("h3", {words("sheet.other.eyes")}), element("ul", {eyes}),
         element("h3", {words("sheet.other.skin")}),
         element("p", {words.rich(aid.skin, arguments)}), element("h3", {words("sheet.other.pet")}),
         element("p", {words.rich(aid.pets, arguments)}), element("h3", {words("web.aid.numbers")}),
         element("ul", {{"class", "numbers"}}, {numbers})});
}

std::string Page::station_path(const std::string& id) const {
    return root + "S/" + keys::percent_encoded(id) + "/" + keys::station_key(context.secret(), id);
}

std::string Page::station_link(const std::string& id) const {
    return station_path(id) + language_query;
}

std::string subtitle(const Page& page, const Place& place) {
    if (place.mix == nullptr) return page.words("web.control");
    return page.words(
        "web.against",
        {{"title", place.mix->title->in(page.words.tag())},
         {"pests", document::pest_name(page.context.job, *place.mix->against, page.words)}});
}

Html in_its_language(const Page& page, const job::LocalText& text, const std::string& shown) {
    const auto primary = [](std::string_view tag) { return tag.substr(0, tag.find('-')); };
    const std::string& main = *page.context.job.languages.at(0);
    const bool own = !text.one_for_all() && text.has(page.words.tag());
    if (own || primary(main) == primary(page.words.tag())) return shown;
    return element("span", {{"lang", main}}, {shown});
}

Html floor_in_its_language(const Page& page, const std::string& floor) {
    const job::Job& job = page.context.job;
    const std::string shown = plan::floor_in(job, floor, page.words.tag());
    if (job.floor_plan)
        for (const job::Room& room : job.floor_plan->rooms)
            if (room.floor.main() == floor) return in_its_language(page, room.floor, shown);
    return in_its_language(page, job::LocalText(shown), shown);
}

Html station_heading(const Page& page, const Place& place) {
    return element("div", {{"class", "heading"}},
                   {element("h1", {place.planned.id, " · ",
                                   in_its_language(page, *place.asked.place,
                                                   place.asked.where(page.words.tag()))}),
                    element("p", {subtitle(page, place)})});
}

std::string trouble_title(const Page& page, const std::string& title) {
    return page.words("web.trouble.not_saved_title") + " " + title;
}

std::string station_title(const Page& page, const Place& place) {
    return place.planned.id + " · " + place.asked.where(page.words.tag());
}

std::string due_text(const Page& page, const analysis::Due& due, const Place& place) {
    const auto& words = page.words;
    const analysis::Day today = analysis::day_of(page.context.local_now());
    std::string day = words.day(std::chrono::year_month_day(due.on));
    if (due.overdue) return words("web.due.overdue", {{"day", day}});
    if (due.on != today) return day;
    if (!place.planned.placed) return words("web.due.today");
    const auto since = (today - analysis::day_of(*place.planned.placed)).count();
    return words("web.due.today_day", {{"n", std::int64_t(since)}});
}

Html facts(const std::vector<std::pair<std::string, Html>>& rows) {
    Html list;
    for (const auto& [term, what] : rows)
        list += element("div", {element("dt", {term}), element("dd", {what})});
    return element("dl", {list});
}

std::string states_text(const Page& page, visit::Marks<visit::State> states) {
    return marks_text(page, states, visit::all_states(), "flag.");
}

std::string dids_text(const Page& page, visit::Marks<visit::Did> dids) {
    return marks_text(page, dids, visit::all_dids(), "web.did.");
}

Html visit_facts(const Page& page, const visit::Visit& visit) {
    const auto& words = page.words;
    std::vector<std::pair<std::string, Html>> rows;
    const auto row = [&](const char* key, const std::string& what) {
        if (!what.empty()) rows.emplace_back(words(key), what);
    };
    const auto count = [&](const std::optional<int>& value) {
        return value ? words.number(*value, text::Figures::whole) : std::string();
    };
    if (visit.container != 0) row("web.form.station", diag::printable(log::print_target(visit)));
    row("web.form.time", words.date_time(visit.time));
    row("web.form.seen", count(visit.seen));
    row("web.form.dead", count(visit.dead));
    row("web.form.minutes", count(visit.minutes));
    row("web.form.trap_nights", count(visit.trap_nights));
    row("web.form.young", count(visit.young));
    if (visit.feeding)
        row("web.form.feeding", words(*visit.feeding ? "web.feeding.yes" : "web.feeding.no"));
    row("web.form.level", visit.level_percent ? words.percent(*visit.level_percent / 100.0) : "");
    row("web.form.state", states_text(page, visit.state));
    row("web.form.did", dids_text(page, visit.did));
    row("web.form.note", diag::printable_lines(visit.note));
    row("web.form.by", diag::printable(visit.by));
    return facts(rows);
}

Response answer(const Page& page, int status, const std::string& title,
                const std::optional<Place>& place, const Html& main, const std::string& script) {
    Html head;
    head +=
        lone("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    head += lone("meta", {{"name", "color-scheme"}, {"content", "light dark"}});
    // The answer's own header says no-referrer. With that alone a browser sends "Origin: null" with
    // a form, and so do pages of others that mean to hide: we could not tell them apart.
    head += lone("meta", {{"name", "referrer"}, {"content", "same-origin"}});
    head += lone("link", {{"rel", "icon"}, {"href", "data:,"}});
    head += element("title", {title});
    Html body = band(page, place) + caretaker_links(page);
    body += element("main", {element("div", {{"class", "page"}}, {main}), first_aid(page, place)});
    body += element("footer", {languages(page), element("p", {page.words("web.footer")})});
    Response response;
    response.status = status;
    response.scripted = !script.empty();
    response.body = page_markup(page.words.tag(), page.context.style, head, body, script);
    response.headers.emplace_back("Content-Language", page.words.tag());
    return response;
}

}  // namespace gallipot::web
