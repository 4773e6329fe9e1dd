#include "papers/calendar/visits.hpp"

#include <algorithm>
#include <cstdint>
#include <fmt/format.h>
#include <map>
#include <tuple>

#include "base/strings/fnv1a.hpp"
#include "domain/plan/rounds.hpp"
#include "papers/calendar/lines.hpp"
#include "papers/calendar/offsets.hpp"

namespace gallipot::calendar {

namespace {

namespace ch = std::chrono;
using job::LocalTime;

constexpr ch::minutes at_a_station(5);  // common practice, no source

std::string zone_lines(const std::string& zone, const std::vector<Offset>& offsets) {
    std::string text = line("BEGIN:VTIMEZONE") + line("TZID:" + zone);
    for (const Offset& offset : offsets) {
        const std::string kind = offset.daylight ? "DAYLIGHT" : "STANDARD";
        text += line("BEGIN:" + kind) + line("DTSTART:" + date_time(offset.from)) +
                line("TZOFFSETFROM:" + utc_offset(offset.before)) +
                line("TZOFFSETTO:" + utc_offset(offset.after)) +
                line("TZNAME:" + escaped(offset.name)) + line("END:" + kind);
    }
    return text + line("END:VTIMEZONE");
}

std::string day_of(LocalTime time) {
    return date_time(ch::floor<ch::days>(time)).substr(0, 8);
}

class Writer {
  public:
    Writer(const job::Job& job, const plan::Plan& plan, const text::Catalog& words)
        : job_(job), plan_(plan), words_(words) {}

    std::string write() {
        const std::vector<plan::Round> all = plan::rounds(plan_);
        if (all.empty()) return {};
        const std::vector<plan::Round> first = plan::placing_rounds(plan_);
        std::string text = line("BEGIN:VCALENDAR") + line("VERSION:2.0") +
                           line("PRODID:-//gallipot//visits//EN") + line("CALSCALE:GREGORIAN");
        if (job_.time_zone) {
            const auto known = offsets(
                **job_.time_zone,
                std::min(first.empty() ? all.front().time : first.front().time, all.front().time),
                all.back().time + ch::days(1));
            if (!known.empty()) {
                zone_ = ";TZID=" + **job_.time_zone;
                text += zone_lines(**job_.time_zone, known);
            }
        }
        const std::string day = date_time(ch::local_days(*job_.prepared)).substr(0, 8);
        stamp_ = day + "T000000Z";
        ours_ = identity(job_);
        for (const auto& [summary, kind, rounds] :
             {std::tuple("calendar.baseline", "-count", &first), {"calendar.summary", "", &all}}) {
            std::map<std::string, int> on_day;
            for (const plan::Round& round : *rounds) {
                const std::string day_of_round = day_of(round.time);
                const int number = ++on_day[day_of_round];
                text += event(round, summary, fmt::format("{}-{}{}", day_of_round, number, kind));
            }
        }
        return text + line("END:VCALENDAR");
    }

  private:
    /// `id` tells it from the other events of the job.
    [[nodiscard]] std::string event(const plan::Round& round, const char* summary_key,
                                    const std::string& id) const {
        std::string list;
        for (const plan::Due& due : round.stops) {
            const job::Station& station = job_.stations.at(due.station);
            if (!list.empty()) list += '\n';
            list += words_("calendar.line",
                           {{"station", *station.id}, {"place", station.where(words_.tag())}});
        }
        const auto stops = static_cast<std::int64_t>(round.stops.size());
        const std::string summary =
            words_(summary_key, {{"job", job_.title->in(words_.tag())}, {"n", stops}});
        return line("BEGIN:VEVENT") + line(fmt::format("UID:{}-{}@gallipot", id, ours_)) +
               line("DTSTAMP:" + stamp_) + line("DTSTART" + zone_ + ":" + date_time(round.time)) +
               line("DTEND" + zone_ + ":" + date_time(round.time + stops * at_a_station)) +
               line("SUMMARY:" + escaped(summary)) + line("DESCRIPTION:" + escaped(list)) +
               line("TRANSP:TRANSPARENT") + line("END:VEVENT");
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const text::Catalog& words_;
    std::string zone_;  ///< the parameter of times
    std::string stamp_, ours_;
};

}  // namespace

std::string identity(const job::Job& job) {
    const std::string day = date_time(ch::local_days(*job.prepared)).substr(0, 8);
    return fmt::format("{:016x}", strings::fnv1a<char>(job.title->main() + "\n" + day));
}

std::string visits(const job::Job& job, const plan::Plan& plan, const text::Catalog& words) {
    return Writer(job, plan, words).write();
}

}  // namespace gallipot::calendar
