#include "tracking/log/entries.hpp"

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Database.h>
#include <set>

#include "base/system/files.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::log {
namespace {

using SQLite::Statement;

// No text of ours takes more bytes.
constexpr std::size_t longest_character = 4;
constexpr std::size_t longest_station = 400;
constexpr int maximum_containers = 10'000;
constexpr std::size_t longest_photos = maximum_photos * (photo_id_length + 1);
constexpr std::int64_t latest_recorded = 100'000'000'000;  // some three thousand years

/// Takes one column after another. What does not fit is noted once, and reads as nothing.
class RowReader {
  public:
    explicit RowReader(Statement& row) : row_(row) {}

    std::int64_t whole(const char* what, std::int64_t minimum, std::int64_t maximum) {
        const SQLite::Column column = row_.getColumn(next_++);
        const std::int64_t value = column.getInt64();
        if (!column.isInteger() || value < minimum || value > maximum) {
            doubt(what);
            return minimum;
        }
        return value;
    }
    int count(const char* what, int minimum, int maximum) {
        return static_cast<int>(whole(what, minimum, maximum));
    }
    std::optional<int> optional_count(const char* what, int minimum, int maximum) {
        if (row_.getColumn(next_).isNull()) {
            ++next_;
            return std::nullopt;
        }
        return count(what, minimum, maximum);
    }
    std::optional<std::int64_t> optional_whole(const char* what, std::int64_t minimum,
                                               std::int64_t maximum) {
        if (row_.getColumn(next_).isNull()) {
            ++next_;
            return std::nullopt;
        }
        return whole(what, minimum, maximum);
    }
    std::string text(const char* what, std::size_t longest) {
        const SQLite::Column column = row_.getColumn(next_++);
        if (!column.isText() || static_cast<std::size_t>(column.getBytes()) > longest) {
            doubt(what);
            return {};
        }
        return column.getString();
    }
    void doubt(const char* what) {
        if (why_.empty()) why_ = what;
    }
    [[nodiscard]] const std::string& why() const { return why_; }

  private:
    Statement& row_;
    int next_ = 0;
    std::string why_;
};

void bind_count(Statement& statement, const char* name, const std::optional<int>& value) {
    if (value)
        statement.bind(name, *value);
    else
        statement.bind(name);
}

void bind_visit(Statement& statement, const visit::Visit& visit) {
    statement.bind(":station", visit.station);
    statement.bind(":container", visit.container);
    statement.bind(":time", print_time(visit.time));
    statement.bind(":by", visit.by);
    bind_count(statement, ":seen", visit.seen);
    bind_count(statement, ":dead", visit.dead);
    bind_count(statement, ":level", visit.level_percent);
    statement.bind(":state", print_states(visit.state));
    statement.bind(":did", print_dids(visit.did));
    statement.bind(":note", visit.note);
    bind_count(statement, ":minutes", visit.minutes);
    bind_count(statement, ":young", visit.young);
    bind_count(statement, ":trap_nights", visit.trap_nights);
    bind_count(statement, ":feeding",
               visit.feeding ? std::optional<int>(*visit.feeding ? 1 : 0) : std::nullopt);
}

}  // namespace

const std::string entry_columns =
    R"(number, station, container, time, "by", seen, dead, level_percent, state, did, note, )"
    R"(minutes, young, trap_nights, feeding, corrects, withdrawn, recorded, photos)";

std::variant<Entry, Unreadable> read_row(Statement& row) {
    static const Zone utc = *Zone::find("UTC");
    RowReader in(row);
    Entry entry;
    visit::Visit& visit = entry.visit;
    entry.number = row.getColumn(0).getInt64();
    in.whole("number", 1, maximum_entries);
    visit.station = in.text("station", longest_station);
    visit.container = in.count("container", 0, maximum_containers);
    // As print_time() writes it: the order of the texts is that of the times.
    const std::string written = in.text("time", 16);
    const auto time = parse_time(written, utc);
    if (time && print_time(*time) == written)
        visit.time = *time;
    else
        in.doubt("time");
    visit.by = in.text("by", longest_name * longest_character);
    visit.seen = in.optional_count("seen", 0, maximum_counted);
    visit.dead = in.optional_count("dead", 0, maximum_counted);
    visit.level_percent = in.optional_count("level_percent", 0, 100);
    std::string stranger;
    constexpr std::size_t longest_words = 200;
    const auto states = parse_states(in.text("state", longest_words), stranger);
    if (states)
        visit.state = *states;
    else
        in.doubt("state");
    const auto dids = parse_dids(in.text("did", longest_words), stranger);
    if (dids)
        visit.did = *dids;
    else
        in.doubt("did");
    visit.note = in.text("note", longest_note * longest_character);
    visit.minutes = in.optional_count("minutes", 1, maximum_counted);
    visit.young = in.optional_count("young", 0, maximum_counted);
    visit.trap_nights = in.optional_count("trap_nights", 1, maximum_counted);
    if (const auto feeding = in.optional_count("feeding", 0, 1)) visit.feeding = *feeding == 1;
    // Only what is older can be corrected: so no chain of corrections comes back to its start.
    entry.corrects = in.optional_whole("corrects", 1, entry.number - 1);
    entry.withdrawn = in.count("withdrawn", 0, 1) == 1;
    entry.recorded =
        Instant(std::chrono::seconds(in.whole("recorded", -latest_recorded, latest_recorded)));
    if (const auto photos = parse_photos(in.text("photos", longest_photos)))
        entry.photos = *photos;
    else
        in.doubt("photos");
    if (in.why().empty()) return entry;
    return Unreadable{entry.number, in.why()};
}

Entry read_entry(Statement& row) {
    auto read = read_row(row);
    if (auto* entry = std::get_if<Entry>(&read)) return std::move(*entry);
    const auto& bad = std::get<Unreadable>(read);
    throw system::SystemError{"entry " + std::to_string(bad.number) +
                              " of the visit log is damaged (" + bad.column +
                              "); put a backup in its place"};
}

std::vector<PhotoId> photos_named(SQLite::Database& database) {
    std::set<PhotoId> named;
    Statement select(database, "SELECT photos FROM entry WHERE photos <> ''");
    while (select.executeStep())
        if (const auto photos = parse_photos(select.getColumn(0).getString()))
            named.insert(photos->begin(), photos->end());
    return {named.begin(), named.end()};
}

Insert::Insert(SQLite::Database& database)
    : database_(database),
      statement_(
          database,
          "INSERT INTO entry (token, station, container, time, \"by\", seen, dead, "
          "level_percent, state, did, note, minutes, young, trap_nights, feeding, corrects, "
          "withdrawn, recorded, photos) VALUES (coalesce(:token, lower(hex(randomblob(16)))), "
          ":station, :container, :time, :by, :seen, :dead, :level, :state, :did, :note, "
          ":minutes, :young, :trap_nights, :feeding, :corrects, :withdrawn, :recorded, "
          ":photos)") {}

std::int64_t Insert::operator()(const Draft& draft, Instant now) {
    statement_.reset();
    if (draft.token.empty())
        statement_.bind(":token");
    else
        statement_.bind(":token", draft.token);
    bind_visit(statement_, draft.visit);
    if (draft.corrects)
        statement_.bind(":corrects", *draft.corrects);
    else
        statement_.bind(":corrects");
    statement_.bind(":withdrawn", draft.withdrawn ? 1 : 0);
    statement_.bind(":recorded", std::int64_t{now.time_since_epoch().count()});
    statement_.bind(":photos", print_photos(draft.photos));
    statement_.executeStep();
    return database_.getLastInsertRowid();
}

}  // namespace gallipot::log
