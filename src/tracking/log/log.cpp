#include "tracking/log/log.hpp"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <set>

#include "base/diag/utf8.hpp"
#include "base/system/guard.hpp"
#include "base/system/process.hpp"
#include "tracking/log/connection.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::log {
namespace fs = std::filesystem;
using SQLite::Statement;
using SQLite::Transaction;
using SQLite::TransactionBehavior;

namespace {

const std::string columns =
    R"(number, station, container, time, "by", seen, dead, level_percent, state, did, note, corrects, withdrawn, recorded)";

/// Neither corrected nor withdrawn.
const std::string stands =
    " withdrawn = 0 AND NOT EXISTS (SELECT 1 FROM entry later WHERE later.corrects = "
    "entry.number) ";

std::optional<int> optional_int(const SQLite::Column& column) {
    if (column.isNull()) return std::nullopt;
    return column.getInt();
}

/// A damaged or doctored row must not pass as a visit.
[[noreturn]] void refuse_row(std::int64_t number) {
    throw system::SystemError{"entry " + std::to_string(number) +
                              " of the visit log is damaged; put a backup in its place"};
}

Entry read_entry(Statement& row) {
    static const Zone utc = *Zone::find("UTC");
    Entry entry;
    std::string stranger;
    int i = 0;
    entry.number = row.getColumn(i++).getInt64();
    entry.visit.station = row.getColumn(i++).getString();
    entry.visit.container = row.getColumn(i++).getInt();
    const auto time = parse_time(row.getColumn(i++).getString(), utc);
    entry.visit.by = row.getColumn(i++).getString();
    entry.visit.seen = optional_int(row.getColumn(i++));
    entry.visit.dead = optional_int(row.getColumn(i++));
    entry.visit.level_percent = optional_int(row.getColumn(i++));
    const auto states = parse_states(row.getColumn(i++).getString(), stranger);
    const auto dids = parse_dids(row.getColumn(i++).getString(), stranger);
    entry.visit.note = row.getColumn(i++).getString();
    if (!time || !states || !dids) refuse_row(entry.number);
    entry.visit.time = *time;
    entry.visit.state = *states;
    entry.visit.did = *dids;
    const auto corrects = row.getColumn(i++);
    if (!corrects.isNull()) entry.corrects = corrects.getInt64();
    entry.withdrawn = row.getColumn(i++).getInt() != 0;
    entry.recorded = Instant(std::chrono::seconds(row.getColumn(i++).getInt64()));
    return entry;
}

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
}

std::optional<Entry> one(SQLite::Database& database, const std::string& where,
                         const std::function<void(Statement&)>& bind) {
    Statement select(database, "SELECT " + columns + " FROM entry WHERE " + where + " LIMIT 1");
    bind(select);
    if (!select.executeStep()) return std::nullopt;
    return read_entry(select);
}

std::optional<Entry> by_number(SQLite::Database& database, std::int64_t number) {
    return one(database, "number = ?", [&](Statement& select) { select.bind(1, number); });
}

/// The entry that stands where `number` once stood.
Entry standing_for(SQLite::Database& database, Entry entry) {
    for (;;) {
        auto later =
            one(database, "corrects = ?", [&](Statement& select) { select.bind(1, entry.number); });
        if (!later) return entry;
        entry = *std::move(later);
    }
}

/// One that is ready to be bound again and again.
class Insert {
  public:
    explicit Insert(SQLite::Database& database)
        : database_(database),
          statement_(database,
                     "INSERT INTO entry (token, station, container, time, \"by\", seen, dead, "
                     "level_percent, state, did, note, corrects, withdrawn, recorded) VALUES "
                     "(coalesce(:token, lower(hex(randomblob(16)))), :station, :container, :time, "
                     ":by, :seen, :dead, :level, :state, :did, :note, :corrects, :withdrawn, "
                     ":recorded)") {}

    std::int64_t operator()(const Draft& draft, Instant now) {
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
        statement_.bind(":recorded", static_cast<std::int64_t>(now.time_since_epoch().count()));
        statement_.exec();
        return database_.getLastInsertRowid();
    }

  private:
    SQLite::Database& database_;
    Statement statement_;
};

bool same_content(const Entry& entry, const Draft& draft) {
    visit::Visit wanted = draft.visit;
    if (draft.time_is_now) wanted.time = entry.visit.time;
    return entry.visit == wanted && entry.corrects == draft.corrects &&
           entry.withdrawn == draft.withdrawn;
}

void look_over(SQLite::Database& database, const std::string& file) {
    Statement check(database, "PRAGMA quick_check(1)");
    const std::string finding = check.executeStep() ? check.getColumn(0).getString() : "no answer";
    if (finding != "ok")
        throw system::SystemError{"the visit log " + diag::quoted(file) + " is damaged (" +
                                  finding +
                                  "); keep the file as it is, and put a backup in its place"};
}

}  // namespace

struct Log::Impl {
    explicit Impl(std::string name)
        : file(std::move(name)), writer(file, Access::write), reader(file, Access::read) {}

    std::string file;
    Connection writer;
    Connection reader;

    /// Every use of SQLite goes through here, so that its errors are ours.
    template <class Use>
    auto with(Connection& connection, Use use) const {
        const std::lock_guard lock(connection.mutex);
        try {
            return use(connection.database);
        } catch (const SQLite::Exception& error) {
            throw explain(error, file);
        }
    }
};

Log::Log(const fs::path& file, Check check) {
    try {
        for (const char* end : {"", "-wal", "-shm", "-journal"}) {
            system::protect(file.string() + end, "the visit log");
            system::refuse_irregular(file.string() + end);  // SQLite would wait for a pipe
        }
        impl_ = std::make_unique<Impl>(file.string());
        if (check == Check::whole) look_over(impl_->reader.database, impl_->file);
    } catch (const SQLite::Exception& error) {
        throw explain(error, file.string());
    }
}
Log::~Log() = default;
Log::Log(Log&&) noexcept = default;

Recorded Log::record(const Draft& draft, Instant now) {
    return impl_->with(impl_->writer, [&](SQLite::Database& database) -> Recorded {
        Transaction transaction(database, TransactionBehavior::IMMEDIATE);
        if (!draft.token.empty()) {
            const auto used =
                one(database, "token = ?", [&](Statement& select) { select.bind(1, draft.token); });
            if (used)
                return {same_content(*used, draft) ? Outcome::already : Outcome::form_used, *used};
        }
        if (draft.corrects) {
            const auto old = by_number(database, *draft.corrects);
            if (!old || old->visit.station != draft.visit.station)
                return {Outcome::nothing_there, {}};
            Entry now_standing = standing_for(database, *old);
            if (now_standing.number != old->number || old->withdrawn)
                return {Outcome::corrected_since, std::move(now_standing)};
        }
        Insert insert(database);
        Entry entry{insert(draft, now), draft.visit, draft.corrects, draft.withdrawn, now};
        transaction.commit();
        return {Outcome::recorded, std::move(entry)};
    });
}

std::size_t Log::add_all(const std::vector<visit::Visit>& visits, Instant now) {
    return impl_->with(impl_->writer, [&](SQLite::Database& database) {
        Transaction transaction(database, TransactionBehavior::IMMEDIATE);
        Statement alike(database,
                        "SELECT number FROM entry WHERE station = :station AND time = :time AND "
                        "container = :container AND \"by\" = :by AND seen IS :seen AND dead IS "
                        ":dead AND level_percent IS :level AND state = :state AND did = :did AND "
                        "note = :note AND withdrawn = 0 ORDER BY number");
        Insert insert(database);
        std::set<std::int64_t> taken;  // entries that a visit of this list already stands for
        std::size_t added = 0;
        for (const visit::Visit& visit : visits) {
            alike.reset();
            bind_visit(alike, visit);
            bool there = false;
            while (!there && alike.executeStep())
                there = taken.insert(alike.getColumn(0).getInt64()).second;
            if (there) continue;
            taken.insert(insert({visit, {}, {}, false}, now));
            ++added;
        }
        transaction.commit();
        return added;
    });
}

std::optional<Entry> Log::find(std::int64_t number) const {
    return impl_->with(impl_->reader,
                       [&](SQLite::Database& database) { return by_number(database, number); });
}

std::vector<Entry> Log::last(const std::string& station, std::size_t most) const {
    return impl_->with(impl_->reader, [&](SQLite::Database& database) {
        Statement select(database, "SELECT " + columns + " FROM entry WHERE station = ? AND" +
                                       stands + "ORDER BY time DESC, number DESC LIMIT ?");
        select.bind(1, station);
        select.bind(2, static_cast<std::int64_t>(most));
        std::vector<Entry> entries;
        while (select.executeStep()) entries.push_back(read_entry(select));
        return entries;
    });
}

std::optional<Entry> Log::first_count(const std::string& station) const {
    return impl_->with(impl_->reader, [&](SQLite::Database& database) {
        return one(database,
                   "station = ? AND seen IS NOT NULL AND" + stands + "ORDER BY time, number",
                   [&](Statement& select) { select.bind(1, station); });
    });
}

std::optional<Entry> Log::last_replaced(const std::string& station) const {
    return impl_->with(impl_->reader, [&](SQLite::Database& database) {
        return one(database,
                   "station = ? AND instr(did, 'replaced') > 0 AND" + stands +
                       "ORDER BY time DESC, number DESC",
                   [&](Statement& select) { select.bind(1, station); });
    });
}

void Log::each(Which which, const std::function<bool(const Entry&)>& use) const {
    // Page by page, so that a slow reader keeps nobody waiting. Entries are only ever added, so
    // leaving out those above the highest number of the start is a picture of that moment.
    constexpr std::size_t page = 500;
    const std::string filter =
        which == Which::all
            ? ""
            : " AND withdrawn = 0 AND NOT EXISTS (SELECT 1 FROM entry later WHERE later.corrects = "
              "entry.number AND later.number <= :newest)";
    const auto newest = impl_->with(impl_->reader, [](SQLite::Database& database) {
        return database.execAndGet("SELECT coalesce(max(number), 0) FROM entry").getInt64();
    });
    std::string time;
    std::int64_t number = 0;
    for (;;) {
        const auto entries = impl_->with(impl_->reader, [&](SQLite::Database& database) {
            std::string query = "SELECT ";
            query += columns;
            query += " FROM entry WHERE (time, number) > (:time, :number) AND number <= :newest";
            query += filter;
            query += " ORDER BY time, number LIMIT ";
            query += std::to_string(page);
            Statement select(database, query);
            select.bind(":time", time);
            select.bind(":number", number);
            select.bind(":newest", newest);
            std::vector<Entry> found;
            while (select.executeStep()) found.push_back(read_entry(select));
            return found;
        });
        for (const Entry& entry : entries)
            if (!use(entry)) return;
        if (entries.size() < page) return;
        time = print_time(entries.back().visit.time);
        number = entries.back().number;
    }
}

void Log::back_up(const fs::path& copy) const {
    // Whoever opens the copy would take what lies beside it for a part of it.
    for (const char* end : {"-wal", "-journal"})
        if (std::error_code none;
            fs::symlink_status(copy.string() + end, none).type() != fs::file_type::not_found)
            throw system::UsageError("cannot write " + diag::quoted(copy.string()) + ": " +
                                     diag::quoted(copy.string() + end) +
                                     " belongs to a file of that name; give another name");
    system::make_whole(copy, [&](const fs::path& unfinished) {
        // What SQLite leaves beside a copy that failed or was stopped.
        const system::Leftover journal(unfinished.string() + "-journal");
        const system::Leftover wal(unfinished.string() + "-wal");
        const system::Leftover shared(unfinished.string() + "-shm");
        try {
            // A connection of its own: the copy holds up neither readers nor writers.
            Connection source(impl_->file, Access::read);
            SQLite::Database target(unfinished.string(), SQLite::OPEN_READWRITE);
            SQLite::Backup(target, source.database).executeStep(-1);
            // One file that can be carried away, with nothing beside it.
            target.exec("PRAGMA journal_mode = DELETE");
            look_over(target, copy.string());
        } catch (const SQLite::Exception& error) {
            throw explain(error, copy.string());
        }
    });
}

fs::path file_beside(const fs::path& job_file) {
    return job_file.parent_path() / (job_file.stem().string() + ".visits.sqlite");
}

}  // namespace gallipot::log
