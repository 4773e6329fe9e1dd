#include "web/neighbour_page.hpp"

#include "base/diag/utf8.hpp"
#include "base/system/error.hpp"
#include "papers/document/words.hpp"
#include "web/form_parts.hpp"

namespace gallipot::web {
namespace {

/// The day on which it was last looked after; none where nobody was there or the log cannot be
/// read.
std::optional<std::chrono::year_month_day> last_visit(const Page& page, const Place& place) {
    try {
        const auto evidence = page.context.evidence_now();
        const auto& last = evidence->report.stations.at(place.index).last_visit;
        if (last) return std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(*last));
    } catch (const system::SystemError&) {
    }
    return std::nullopt;
}

Html tell_form(const Page& page, const StationPage& station, const ReportForm& form,
               bool up_to_key) {
    const auto& words = page.words;
    const FormErrors none;
    const Fields fields(page, none);
    Html choices;
    for (const auto& [word, on] :
         {std::pair("spilt", form.spilt), std::pair("missing", form.missing),
          std::pair("pests", form.pests)})
        choices +=
            fields.choice("checkbox", "told", word, on, words("web.tell." + std::string(word)));
    const std::string action = up_to_key ? "TELL" : station.key + "/TELL";
    return element(
        "form",
        {{"method", "post"},
         {"action", action + page.form_query},
         {"accept-charset", "utf-8"},
         {"aria-label", words("web.tell.heading")}},
        {hidden("token", form.token), fields.group("told", words("web.form.told"), choices),
         fields.lines("words", form.words, log::longest_report),
         element("button", {{"type", "submit"}}, {words("web.tell.send")})});
}

}  // namespace

ReportForm report_form(const Form& form) {
    ReportForm typed;
    typed.token = form.value("token");
    typed.words = form.value("words");
    for (const std::string& word : form.values("told")) {
        typed.spilt = typed.spilt || word == "spilt";
        typed.missing = typed.missing || word == "missing";
        typed.pests = typed.pests || word == "pests";
    }
    return typed;
}

ReportForm empty_report() {
    ReportForm form;
    form.token = new_token();
    return form;
}

Response neighbour_page(const Page& page, const StationPage& station, const ReportForm& form,
                        int status, const std::string& key) {
    const auto& words = page.words;
    const Place& place = station.place;
    Html main = station_heading(page, place);
    if (!key.empty()) main += trouble(page, key);
    const bool over = place.site.over(analysis::day_of(page.context.local_now()));
    std::vector<std::pair<std::string, Html>> rows;
    if (over)
        main += element("div", {{"class", "saved"}},
                        {element("p", {words("web.retired.what",
                                             {{"day", words.date(std::chrono::year_month_day(
                                                          *place.site.until))}})})});
    else if (place.mix != nullptr)
        main += element("p", {words("web.neighbour.leave")});
    if (const auto day = last_visit(page, place))
        rows.emplace_back(words("web.neighbour.last"), words.date(*day));
    if (const auto& contact = page.context.job.help.contact)
        rows.emplace_back(words("web.neighbour.caretaker"),
                          in_its_language(page, *contact->name, contact->name->in(words.tag())));
    if (!rows.empty()) main += facts(rows);
    main += element("h2", {words("web.tell.heading")});
    main += element("p", {words("web.tell.what")});
    main += tell_form(page, station, form, status != 200);
    main += element("p", {{"class", "quiet"}}, {words("web.neighbour.are_you")});
    const std::string title = station_title(page, place);
    return answer(page, status, key.empty() ? title : trouble_title(page, title), place, main);
}

Response told_page(const Page& page, const StationPage& station) {
    const auto& words = page.words;
    const Place& place = station.place;
    Html main = station_heading(page, place);
    main += element(
        "div", {{"class", "saved"}, {"role", "status"}},
        {element("h2", {words("web.tell.thanks")}), element("p", {words("web.tell.will_see")})});
    main += element(
        "p",
        {element("a", {{"href", "../" + station.key + page.language_query}, {"class", "button"}},
                 {words("web.saved.back", {{"station", place.planned.id}})})});
    return answer(page, 200, words("web.tell.thanks") + " · " + place.planned.id, place, main);
}

Html report_facts(const Page& page, const log::NeighbourReport& report) {
    std::vector<std::string> what;
    for (const auto& [word, said] :
         {std::pair("spilt", report.spilt), std::pair("missing", report.missing),
          std::pair("pests", report.pests)})
        if (said) what.push_back(page.words("web.tell." + std::string(word)));
    Html html;
    if (!what.empty()) html += element("p", {element("b", {page.words.list(what)})});
    if (!report.words.empty())
        html += element("p", {{"class", "note"}, {"dir", "auto"}},
                        {diag::printable_lines(report.words)});
    return html;
}

}  // namespace gallipot::web
