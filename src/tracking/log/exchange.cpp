#include "tracking/log/exchange.hpp"

#include <nlohmann/json.hpp>

#include "tracking/log/csv.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::log {
namespace {

const std::vector<std::string> columns{"station",       "time",  "by",  "seen", "dead",
                                       "level_percent", "state", "did", "note"};

/// Whether it begins, after any apostrophes, as a formula does.
bool looks_like_formula(const std::string& text) {
    const auto first = text.find_first_not_of('\'');
    return first != std::string::npos &&
           std::string_view("=+-@").find(text[first]) != std::string_view::npos;
}

std::string guarded(const std::string& text) {
    return looks_like_formula(text) ? "'" + text : text;
}

std::string unguarded(const std::string& text) {
    return text.starts_with('\'') && looks_like_formula(text) ? text.substr(1) : text;
}

std::string print_count(const std::optional<int>& count) {
    return count ? std::to_string(*count) : std::string();
}

std::string quoted(const std::string& text) {
    return "'" + text + "'";
}

/// Reads the lines after the heading.
class VisitReader {
  public:
    VisitReader(const plan::Plan& plan, const Zone& zone, diag::Diagnostics& out)
        : plan_(plan), zone_(zone), out_(out) {
        for (const plan::Station& station : plan.stations) names_.push_back(station.id);
    }

    visit::Visit read(const CsvRow& row) {
        visit::Visit visit;
        read_station(row[0], visit);
        if (const auto time = parse_time(row[1].text, zone_))
            visit.time = *time;
        else
            out_.error("bad-time", row[1].place, quoted(row[1].text) + " is not a time",
                       "write it like 2027-03-18 08:05");
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
        if (!says_something(visit) && filled(row) == 0)
            out_.error("empty-visit", row[0].place, "this visit says nothing",
                       "give a count, a level, a state, what was done or a note, or leave the "
                       "line out");
        return visit;
    }

  private:
    /// Of the columns that say something.
    static std::size_t filled(const CsvRow& row) {
        std::size_t count = 0;
        for (std::size_t i = 3; i < row.size(); ++i) count += row[i].text.empty() ? 0 : 1;
        return count;
    }

    void read_station(const CsvField& field, visit::Visit& visit) {
        const std::string id = tidy(field.text);
        if (const auto target = find_target(plan_, id)) {
            visit.station = target->station;
            visit.container = target->container;
            return;
        }
        const std::string near = diag::nearest(id, names_);
        out_.error("unknown-station", field.place, "the job has no station " + quoted(id),
                   near.empty() ? "use an id of the job's stations, or add the station to the job"
                                : "did you mean " + quoted(near) + "?");
    }

    std::optional<int> read_count(const CsvField& field) {
        if (field.text.empty()) return std::nullopt;
        const auto count = parse_count(field.text);
        if (!count)
            out_.error("bad-count", field.place, quoted(field.text) + " is not a count",
                       "write a whole number from 0 to " + std::to_string(most_counted) +
                           ", or leave it empty");
        return count;
    }

    void read_level(const CsvField& field, visit::Visit& visit) {
        if (field.text.empty()) return;
        visit.level_percent = parse_level(field.text);
        if (!visit.level_percent)
            out_.error("bad-level", field.place, quoted(field.text) + " is not a level",
                       "write percent from 0 to 100, or full, 3/4, 1/2, 1/4 or empty");
    }

    void bad_word(const CsvField& field, const std::string& stranger, const std::string& known) {
        out_.error("bad-word", field.place, quoted(stranger) + " is not known here",
                   "use any of: " + known);
    }

    std::string read_text(const CsvField& field, std::size_t longest, bool lines) {
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
                           "shorten it to " + std::to_string(longest) + " characters");
                break;
        }
        return text;
    }

    const plan::Plan& plan_;
    const Zone& zone_;
    diag::Diagnostics& out_;
    std::vector<std::string> names_;
};

bool is_heading(const CsvRow& row) {
    if (row.size() != columns.size()) return false;
    for (std::size_t i = 0; i < row.size(); ++i)
        if (tidy(row[i].text) != columns[i]) return false;
    return true;
}

}  // namespace

std::string csv_heading() {
    return print_csv(columns);
}

std::string csv_line(const visit::Visit& visit) {
    return print_csv({print_target(visit), print_time(visit.time), guarded(visit.by),
                      print_count(visit.seen), print_count(visit.dead),
                      print_count(visit.level_percent), print_states(visit.state),
                      print_dids(visit.did), guarded(visit.note)});
}

std::vector<visit::Visit> read_visits(const diag::SourcePtr& csv, const plan::Plan& plan,
                                      const Zone& zone, diag::Diagnostics& out) {
    const std::string heading = csv_heading();
    const std::string hint = "begin the file with " + heading.substr(0, heading.size() - 2);
    std::vector<visit::Visit> visits;
    VisitReader reader(plan, zone, out);
    bool first = true;
    read_csv(csv, out, [&](const CsvRow& row) {
        if (std::exchange(first, false)) {
            if (!is_heading(row))
                out.error("csv-heading", row[0].place, "the columns are not those of a visit log",
                          hint);
            return;
        }
        if (row.size() != columns.size()) {
            out.error("csv-columns", row[0].place,
                      "this line has " + std::to_string(row.size()) + " fields, not " +
                          std::to_string(columns.size()),
                      "put a comma between fields, and quotes round a field that holds one");
            return;
        }
        visits.push_back(reader.read(row));
    });
    if (first) out.error("csv-heading", {csv, 1, 1}, "there is nothing in this file", hint);
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
                      {"note", visit.note}};
    return object.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace gallipot::log
