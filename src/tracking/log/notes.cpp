#include "tracking/log/notes.hpp"

#include <SQLiteCpp/Statement.h>

namespace gallipot::log {
namespace {

using SQLite::Statement;

std::string word(Fact::Kind kind) {
    return kind == Fact::Kind::mix ? "mix" : "station";
}

std::optional<Fact::Kind> find_kind(const std::string& word) {
    if (word == "mix") return Fact::Kind::mix;
    if (word == "station") return Fact::Kind::station;
    return std::nullopt;
}

/// What is known of it now; none where nothing is.
std::optional<std::string> newest(SQLite::Database& database, const Fact& fact) {
    Statement select(database,
                     "SELECT content FROM note WHERE kind = ? AND name = ? ORDER BY number DESC "
                     "LIMIT 1");
    select.bind(1, word(fact.kind));
    select.bind(2, fact.name);
    if (!select.executeStep()) return std::nullopt;
    return select.getColumn(0).getString();
}

/// When the latest entry was made, those dated ahead of any clock left out: what is recorded after
/// it with an earlier date was done with what was known then.
std::string latest_entry(SQLite::Database& database, Instant now) {
    static const Zone utc = *Zone::find("UTC");
    constexpr std::chrono::hours foremost_clock{14};
    Statement select(database, "SELECT coalesce(max(time), '') FROM entry WHERE time <= ?");
    select.bind(1, print_time(utc.local(now + foremost_clock)));
    select.executeStep();
    return select.getColumn(0).getString();
}

}  // namespace

void note(SQLite::Database& database, const std::vector<Fact>& facts, std::optional<LocalTime> time,
          Instant now) {
    if (facts.empty()) return;
    const std::int64_t newest_entry =
        database.execAndGet("SELECT coalesce(max(number), 0) FROM entry").getInt64();
    std::string since;
    if (time) {
        since = std::max(print_time(*time), latest_entry(database, now));
    }
    for (const Fact& fact : facts) {
        const auto known = newest(database, fact);
        if (known == fact.content && time) continue;
        Statement insert(database,
                         "INSERT INTO note (kind, name, content, since, after_entry, recorded) "
                         "VALUES (?, ?, ?, ?, ?, ?)");
        insert.bind(1, word(fact.kind));
        insert.bind(2, fact.name);
        insert.bind(3, fact.content);
        insert.bind(4, known ? since : "");
        insert.bind(5, newest_entry);
        insert.bind(6, std::int64_t{now.time_since_epoch().count()});
        insert.exec();
    }
}

std::vector<Note> read_notes(SQLite::Database& database) {
    static const Zone utc = *Zone::find("UTC");
    Statement select(database,
                     "SELECT kind, name, content, since, after_entry, recorded FROM note "
                     "ORDER BY number");
    std::vector<Note> notes;
    while (select.executeStep()) {
        Note note;
        const auto kind = find_kind(select.getColumn(0).getString());
        if (!kind) continue;
        note.fact = {*kind, select.getColumn(1).getString(), select.getColumn(2).getString()};
        if (const std::string since = select.getColumn(3).getString(); !since.empty()) {
            note.since = parse_time(since, utc);
            if (!note.since) continue;
        }
        note.after_entry = select.getColumn(4).getInt64();
        note.recorded = Instant(std::chrono::seconds(select.getColumn(5).getInt64()));
        notes.push_back(std::move(note));
    }
    return notes;
}

}  // namespace gallipot::log
