#include "papers/document/round_calendar.hpp"

#include <algorithm>
#include <cstdint>
#include <fmt/format.h>

#include "papers/calendar/lines.hpp"
#include "papers/calendar/visits.hpp"
#include "papers/document/verdict_words.hpp"

namespace gallipot::document {

namespace {

using analysis::Day;
using calendar::line;

/// "20270302", a DATE (RFC 5545, 3.3.4).
std::string date(Day day) {
    return calendar::date_time(day).substr(0, 8);
}

}  // namespace

std::string rounds_calendar(const job::Job& job, const analysis::Report& report,
                            const std::vector<analysis::Round>& walks, const text::Catalog& words) {
    if (walks.empty()) return {};
    std::string text = line("BEGIN:VCALENDAR") + line("VERSION:2.0") +
                       line("PRODID:-//gallipot//report//EN") + line("CALSCALE:GREGORIAN");
    // A later report says it anew: its number must be higher (3.8.7.4).
    const auto sequence = std::max<std::int64_t>((report.as_of - Day()).count(), 0);
    for (std::size_t i = 0; i < walks.size(); ++i) {
        const analysis::Round& walk = walks[i];
        std::string list;
        for (const analysis::Stop& stop : walk.stops) {
            const analysis::StationReport& station = report.stations[stop.station];
            const std::string what = action_sentences(station, stop.steps, report.as_of, words);
            if (!list.empty()) list += '\n';
            list +=
                words("calendar.stop", {{"station", station.id},
                                        {"place", job.stations[stop.station].where(words.tag())},
                                        {"what", what}});
        }
        const std::string summary =
            words("calendar.summary", {{"job", job.title->in(words.tag())},
                                       {"n", static_cast<std::int64_t>(walk.stops.size())}});
        text += line("BEGIN:VEVENT") +
                line(fmt::format("UID:round-{}-{}@gallipot", i + 1, calendar::identity(job))) +
                line(fmt::format("SEQUENCE:{}", sequence)) +
                line("DTSTAMP:" + date(report.as_of) + "T000000Z") +
                line("DTSTART;VALUE=DATE:" + date(walk.on)) +
                line("DTEND;VALUE=DATE:" + date(walk.on + std::chrono::days(1))) +
                line("SUMMARY:" + calendar::escaped(summary)) +
                line("DESCRIPTION:" + calendar::escaped(list)) + line("TRANSP:TRANSPARENT") +
                line("END:VEVENT");
    }
    return text + line("END:VCALENDAR");
}

}  // namespace gallipot::document
