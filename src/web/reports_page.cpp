#include "base/diag/utf8.hpp"
#include "web/form_parts.hpp"
#include "web/neighbour_page.hpp"
#include "web/overview_parts.hpp"

namespace gallipot::web {

Html reports_list(const Page& page, Reports which) {
    const auto& words = page.words;
    constexpr std::size_t looked_through = 500;
    constexpr std::size_t old_shown = 100;
    Html unread;
    Html read;
    std::size_t old = 0;
    for (const log::NeighbourReport& report : page.context.log.reports(looked_through)) {
        if (report.read && (which == Reports::unread || ++old > old_shown)) continue;
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
    Html html;
    if (!unread.empty())
        html += element("section", {{"class", "told"}},
                        {element("h2", {words("web.overview.told")}),
                         element("ul", {{"class", "visits"}}, {unread})});
    if (!read.empty())
        html += element("section", {element("h2", {words("web.overview.told_before")}),
                                    element("ul", {{"class", "visits"}}, {read})});
    return html;
}

Html small_form(const Page& page, const std::string& action, const std::string& name,
                const std::string& value, const std::string& text, const std::string& label) {
    return element("form",
                   {{"method", "post"},
                    {"action", page.root + "ALL/" + action + page.form_query},
                    {"class", "small"}},
                   {hidden(name, value),
                    element("button", {{"type", "submit"}, {"aria-label", label}}, {text})});
}

}  // namespace gallipot::web
