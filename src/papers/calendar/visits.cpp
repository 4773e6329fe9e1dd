#include "papers/calendar/visits.hpp"

#include <algorithm>
#include <cstdint>
#include <fmt/format.h>
#include <map>

#include "base/strings/fnv1a.hpp"
#include "domain/plan/due.hpp"
#include "papers/calendar/lines.hpp"
#include "papers/calendar/offsets.hpp"

namespace gallipot::calendar {

namespace {

namespace ch = std::chrono;
using job::LocalTime;

constexpr ch::minutes longest_pause = ch::hours(2);
constexpr ch::minutes at_a_station(10);  // common practice, no source

/// What is seen to on one walk.
struct Walk {
    LocalTime from{}, to{};
    std::vector<plan::Due> stops;  ///< in walking order
    int of_day = 1;
};

std::vector<Walk> walks(const plan::DueDay& day) {
    std::vector<LocalTime> times;
    for (const plan::Due& due : day.visits) times.push_back(due.time);
    std::sort(times.begin(), times.end());
    std::vector<Walk> all;
    for (const LocalTime time : times) {
        if (all.empty() || time - all.back().to > longest_pause)
            all.push_back({time, time, {}, static_cast<int>(all.size()) + 1});
        all.back().to = time;
    }
    for (const plan::Due& due : day.visits)
        for (Walk& walk : all)
            if (due.time >= walk.from && due.time <= walk.to) walk.stops.push_back(due);
    return all;
}

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
        std::vector<Walk> all;
        for (const plan::DueDay& day : plan::due_days(plan_))
            for (Walk& walk : walks(day)) all.push_back(std::move(walk));
        if (all.empty()) return {};
        std::vector<Walk> first = baselines();
        std::string text = line("BEGIN:VCALENDAR") + line("VERSION:2.0") +
                           line("PRODID:-//gallipot//visits//EN") + line("CALSCALE:GREGORIAN");
        if (job_.time_zone) {
            const auto known = offsets(
                **job_.time_zone,
                std::min(first.empty() ? all.front().from : first.front().from, all.front().from),
                all.back().to + ch::days(1));
            if (!known.empty()) {
                zone_ = ";TZID=" + **job_.time_zone;
                text += zone_lines(**job_.time_zone, known);
            }
        }
        const std::string day = date_time(ch::local_days(*job_.prepared)).substr(0, 8);
        stamp_ = day + "T000000Z";
        ours_ = identity(job_);
        for (const Walk& walk : first) text += event(walk, "calendar.baseline", "-count");
        for (const Walk& walk : all) text += event(walk, "calendar.summary", "");
        return text + line("END:VCALENDAR");
    }

  private:
    /// The count that everything is compared with, just before each walk of setting out.
    [[nodiscard]] std::vector<Walk> baselines() const {
        std::map<job::Date, plan::DueDay> days;
        for (const std::size_t i : plan_.walk) {
            if (!plan_.stations[i].placed) continue;
            const LocalTime placed = *plan_.stations[i].placed;
            plan::DueDay& day = days[job::Date(ch::floor<ch::days>(placed))];
            day.visits.push_back({i, placed});
        }
        std::vector<Walk> all;
        for (const auto& [date, day] : days)
            for (Walk& walk : walks(day)) all.push_back(std::move(walk));
        return all;
    }

    [[nodiscard]] std::string event(const Walk& walk, const char* summary_key,
                                    std::string_view kind) const {
        std::string list;
        for (const plan::Due& due : walk.stops) {
            const job::Station& station = job_.stations.at(due.station);
            if (!list.empty()) list += '\n';
            list += words_("calendar.line", {{"time", words_.time_of_day(due.time)},
                                             {"station", *station.id},
                                             {"place", station.where(words_.tag())}});
        }
        const std::string summary =
            words_(summary_key, {{"job", job_.title->in(words_.tag())},
                                 {"n", static_cast<std::int64_t>(walk.stops.size())}});
        return line("BEGIN:VEVENT") +
               line(fmt::format("UID:{}-{}{}-{}@gallipot", day_of(walk.from), walk.of_day, kind,
                                ours_)) +
               line("DTSTAMP:" + stamp_) + line("DTSTART" + zone_ + ":" + date_time(walk.from)) +
               line("DTEND" + zone_ + ":" + date_time(walk.to + at_a_station)) +
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
