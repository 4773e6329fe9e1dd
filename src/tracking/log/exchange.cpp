#include "tracking/log/exchange.hpp"

#include <map>
#include <nlohmann/json.hpp>

#include "base/csv/csv.hpp"
#include "base/diag/utf8.hpp"
#include "tracking/log/fields.hpp"
#include "tracking/log/period.hpp"

namespace gallipot::log {
namespace {

using diag::say;

const std::vector<std::string> columns{"station",       "time",        "by",     "seen", "dead",
                                       "level_percent", "state",       "did",    "note", "minutes",
                                       "young",         "trap_nights", "feeding"};
/// Those that every file has: up to `note`.
constexpr std::size_t minimum_columns = 9;

/// Whether it begins, after any apostrophes, as a formula does.
bool looks_like_formula(const std::string& text) {
    const auto first = text.find_first_not_of('\'');
    return first != std::string::npos &&
           std::string_view("=+-@").find(text[first]) != std::string_view::npos;
}

/// As it may stand in a CSV.
std::string guarded(const std::string& text) {
    const std::string shown = diag::printable_lines(text);
    return looks_like_formula(shown) ? "'" + shown : shown;
}

std::string unguarded(const std::string& text) {
    return text.starts_with('\'') && looks_like_formula(text) ? text.substr(1) : text;
}

std::string print_count(const std::optional<int>& count) {
    return count ? std::to_string(*count) : std::string();
}

/// Reads the lines after the heading.
class VisitReader {
  public:
    VisitReader(const plan::Plan& plan, const Zone& zone, LocalTime clock, diag::Diagnostics& out)
        : plan_(plan), zone_(zone), period_(plan, clock), out_(out) {
        for (const plan::Station& station : plan.stations) names_.push_back(station.id);
    }

    visit::Visit read(const csv::Row& row) {
        visit::Visit visit;
        read_station(row[0], visit);
        const bool has_station = !visit.station.empty();
        const bool has_time = read_time(row[1], visit);
        visit.by = read_text(row[2], longest_name, false);
        visit.seen = read_count(row[3]);
        visit.dead = read_count(row[4]);
        read_level(row[5], visit);
        std::string stranger;
        if (const auto states = parse_states(row[6].text, stranger))
            visit.state = *states;
        else
            bad_word(row[6], stranger, state_words());
        if (const auto dids = parse_dids(row[7].text, stranger))
            visit.did = *dids;
        else
            bad_word(row[7], stranger, did_words());
        visit.note = read_text(row[8], longest_note, true);
        if (row.size() > minimum_columns) read_later_columns(row, visit);
        if (has_station && has_time) warn_of_slips(row, visit);
        if (!says_something(visit) && filled(row) == 0)
            out_.error("empty-visit", row[0].place, "this visit says nothing",
                       "give a count, a level, a state, what was done or a note, or leave the "
                       "line out");
        return visit;
    }

  private:
    /// Of the columns that say something: how long it took to find nothing is not one.
    static std::size_t filled(const csv::Row& row) {
        constexpr std::size_t minutes = 9;
        constexpr std::size_t trap_nights = 11;
        std::size_t count = 0;
        for (std::size_t i = 3; i < row.size(); ++i)
            if (i != minutes && i != trap_nights && !row[i].text.empty()) ++count;
        return count;
    }

    /// Those after `note`: of a file that has some, all that it has.
    void read_later_columns(const csv::Row& row, visit::Visit& visit) {
        const auto field = [&](std::size_t i) {
            return i < row.size() ? row[i] : csv::Field{{}, row.back().place};
        };
        visit.minutes = read_count(field(9), 1);
        visit.young = read_count(field(10));
        visit.trap_nights = read_count(field(11), 1);
        const csv::Field feeding = field(12);
        if (feeding.text.empty()) return;
        visit.feeding = parse_yes_no(feeding.text);
        if (!visit.feeding)
            out_.error("bad-feeding", feeding.place, say("'{}' is not yes or no", feeding.text),
                       "write yes, no, or leave it empty");
    }

    /// False when it is none, or cannot be.
    bool read_time(const csv::Field& field, visit::Visit& visit) {
        const auto time = parse_time(field.text, zone_);
        if (!time) {
            out_.error("bad-time", field.place, say("'{}' is not a time", field.text),
                       "write it like 2027-03-18 08:05");
            return false;
        }
        visit.time = *time;
        switch (period_.fault(*time)) {
            case TimeFault::none:
                return true;
            case TimeFault::too_early:
                out_.error("impossible-time", field.place,
                           say("{} is more than a year before the first station was set out",
                               print_time(*time)),
                           "mend the date, or leave the line out");
                return false;
            case TimeFault::too_late:
                out_.error("impossible-time", field.place,
                           say("{} is more than a year ahead", print_time(*time)),
                           "mend the date, or leave the line out");
                return false;
        }
        return false;
    }

    void warn_of_slips(const csv::Row& row, const visit::Visit& visit) {
        namespace ch = std::chrono;
        if (period_.is_to_come(visit.time))
            out_.warning("time-to-come", row[1].place,
                         say("{} is still to come by this machine's clock", print_time(visit.time)),
                         "mend the date if it is a slip");
        const plan::Station* station = plan_.station(visit.station);
        const auto doubt = station == nullptr ? Period::Doubt{} : period_.doubt(*station, visit);
        if (doubt.kind != DateDoubt::none)
            out_.warning("before-placing", row[1].place, explain(doubt, visit),
                         "mend the date if it is a slip");
        else if (station != nullptr && station->placed &&
                 ch::floor<ch::days>(visit.time) < ch::floor<ch::days>(*station->placed))
            out_.warning("before-placing", row[1].place,
                         say("{} was set out later, on {}", visit.station,
                             print_time(*station->placed).substr(0, 10)),
                         "mend the date if it is a slip; a count from before is what the bait is "
                         "compared with");
        if (station != nullptr && station->until &&
            ch::floor<ch::days>(visit.time) > ch::local_days(*station->until))
            out_.warning(
                "after-until", row[1].place,
                say("{} was taken up on {}, so that this counts for nothing", visit.station,
                    print_time(ch::local_days(*station->until)).substr(0, 10)),
                "mend the date if it is a slip, or `until` in the job");
        if (!visit.seen) return;
        const auto [earlier, is_first] =
            counted_.try_emplace({visit.station, visit.container, visit.time}, row[0].place.line);
        if (!is_first)
            out_.warning("counted-twice", row[0].place,
                         say("{} was counted in the same minute in line {}", print_target(visit),
                             earlier->second),
                         "leave one of the lines out, or mend its time");
    }

    void read_station(const csv::Field& field, visit::Visit& visit) {
        const std::string id = tidy(field.text);
        if (const auto target = find_target(plan_, id)) {
            visit.station = target->station;
            visit.container = target->container;
            return;
        }
        const std::string near = diag::nearest(id, names_);
        out_.error("unknown-station", field.place, say("the job has no station '{}'", id),
                   near.empty() ? "use an id of the job's stations, or add the station to the job"
                                : say("did you mean '{}'?", near));
    }

    std::optional<int> read_count(const csv::Field& field, int minimum = 0) {
        if (field.text.empty()) return std::nullopt;
        const auto count = parse_count(field.text);
        if (!count || *count < minimum)
            out_.error("bad-count", field.place, say("'{}' is not a count", field.text),
                       say("write a whole number from {} to {}, or leave it empty", minimum,
                           maximum_counted));
        return count;
    }

    void read_level(const csv::Field& field, visit::Visit& visit) {
        if (field.text.empty()) return;
        visit.level_percent = parse_level(field.text);
        if (!visit.level_percent)
            out_.error("bad-level", field.place, say("'{}' is not a level", field.text),
                       "write percent from 0 to 100, or full, 3/4, 1/2, 1/4 or empty");
    }

    void bad_word(const csv::Field& field, const std::string& stranger, const std::string& known) {
        out_.error("bad-word", field.place, say("'{}' is not known here", stranger),
                   say("use any of: {}", known));
    }

    std::string read_text(const csv::Field& field, std::size_t longest, bool lines) {
        std::string text = tidy(unguarded(field.text));
        switch (find_fault(text, longest, lines)) {
            case TextFault::none:
            case TextFault::not_utf8:  // reported where the file was split
                break;
            case TextFault::control_character:
                out_.error("control-character", field.place, "a character that cannot be shown",
                           "take it out");
                break;
            case TextFault::too_long:
                out_.error("too-long", field.place, "this text is too long",
                           say("shorten it to {} characters", longest));
                break;
        }
        return text;
    }

    const plan::Plan& plan_;
    const Zone& zone_;
    Period period_;
    diag::Diagnostics& out_;
    std::vector<std::string> names_;
    /// In which line a target was first counted at a time.
    std::map<std::tuple<std::string, int, LocalTime>, int> counted_;
};

bool is_heading(const csv::Row& row) {
    if (row.size() < minimum_columns || row.size() > columns.size()) return false;
    for (std::size_t i = 0; i < row.size(); ++i)
        if (tidy(row[i].text) != columns[i]) return false;
    return true;
}

}  // namespace

std::string csv_heading() {
    return csv::print(columns);
}

std::string csv_line(const visit::Visit& visit) {
    return csv::print({guarded(print_target(visit)), print_time(visit.time), guarded(visit.by),
                       print_count(visit.seen), print_count(visit.dead),
                       print_count(visit.level_percent), print_states(visit.state),
                       print_dids(visit.did), guarded(visit.note), print_count(visit.minutes),
                       print_count(visit.young), print_count(visit.trap_nights),
                       visit.feeding ? print_yes_no(*visit.feeding) : std::string()});
}

std::vector<visit::Visit> read_visits(const diag::SourcePtr& csv, const plan::Plan& plan,
                                      const Zone& zone, LocalTime clock, diag::Diagnostics& out) {
    const std::string heading = csv_heading();
    const diag::Text hint = say("begin the file with {}", heading.substr(0, heading.size() - 2));
    std::vector<visit::Visit> visits;
    VisitReader reader(plan, zone, clock, out);
    std::size_t width = 0;  // how many columns the heading has
    bool readable = true;
    csv::read(csv, out, [&](const csv::Row& row) {
        if (width == 0) {
            width = row.size();
            readable = is_heading(row);
            if (!readable)
                out.error("csv-heading", row[0].place, "the columns are not those of a visit log",
                          hint);
            return;
        }
        if (!readable) return;
        if (row.size() != width) {
            out.error("csv-columns", row[0].place,
                      say("this line has {} fields, not {}", row.size(), width),
                      "put a comma between fields, and quotes round a field that holds one");
            return;
        }
        visits.push_back(reader.read(row));
    });
    if (width == 0) out.error("csv-heading", {csv, 1, 1}, "there is nothing in this file", hint);
    return visits;
}

std::string json_object(const visit::Visit& visit) {
    using Json = nlohmann::ordered_json;
    const auto count = [](const std::optional<int>& value) {
        return value ? Json(*value) : Json();
    };
    Json states = Json::array();
    for (const visit::State state : visit::all_states())
        if (visit.state.has(state)) states.push_back(visit::word(state));
    Json dids = Json::array();
    for (const visit::Did did : visit::all_dids())
        if (visit.did.has(did)) dids.push_back(visit::word(did));
    std::string time = print_time(visit.time);
    time[10] = 'T';  // ISO 8601
    const Json object{{"station", print_target(visit)},
                      {"time", time},
                      {"by", visit.by},
                      {"seen", count(visit.seen)},
                      {"dead", count(visit.dead)},
                      {"level_percent", count(visit.level_percent)},
                      {"state", states},
                      {"did", dids},
                      {"note", visit.note},
                      {"minutes", count(visit.minutes)},
                      {"young", count(visit.young)},
                      {"trap_nights", count(visit.trap_nights)},
                      {"feeding", visit.feeding ? Json(*visit.feeding) : Json()}};
    return object.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string json_object(const NeighbourReport& report) {
    using Json = nlohmann::ordered_json;
    Json what = Json::array();
    if (report.spilt) what.push_back("spilt");
    if (report.missing) what.push_back("missing");
    if (report.pests) what.push_back("pests");
    std::string time = print_time(report.time);
    time[10] = 'T';  // ISO 8601
    const Json object{{"station", report.station},
                      {"time", time},
                      {"what", what},
                      {"words", report.words},
                      {"read", report.read}};
    return object.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace gallipot::log
