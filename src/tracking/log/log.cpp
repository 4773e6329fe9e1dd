#include "tracking/log/log.hpp"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <set>
#include <unordered_map>
#include <variant>

#include "base/diag/utf8.hpp"
#include "base/system/guard.hpp"
#include "base/system/process.hpp"
#include "tracking/log/entries.hpp"
#include "tracking/log/entry_reader.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/notes.hpp"
#include "tracking/log/store.hpp"

namespace gallipot::log {
namespace fs = std::filesystem;
using SQLite::Statement;
using SQLite::Transaction;
using SQLite::TransactionBehavior;

namespace {

/// Neither corrected nor withdrawn. Only a later entry corrects one.
const std::string stands =
    " withdrawn = 0 AND NOT EXISTS (SELECT 1 FROM entry later WHERE later.corrects = entry.number "
    "AND later.number > entry.number) ";

bool same_content(const Entry& entry, const Draft& draft) {
    visit::Visit wanted = draft.visit;
    if (draft.time_is_now) wanted.time = entry.visit.time;
    return entry.visit == wanted && entry.corrects == draft.corrects &&
           entry.withdrawn == draft.withdrawn && entry.photos == draft.photos;
}

/// How many of each visit there are, by its line in a CSV.
using Tally = std::unordered_map<std::string, std::size_t>;

/// Of the visits in `list`, how many the log has already.
Tally tally_of_log(SQLite::Database& database, const OldNames& names,
                   const std::vector<visit::Visit>& list) {
    Tally there;
    auto first = visit::LocalTime::max();
    auto last = visit::LocalTime::min();
    for (const visit::Visit& visit : list) {
        there.emplace(csv_line(visit), 0);
        first = std::min(first, visit.time);
        last = std::max(last, visit.time);
    }
    Statement select(database, "SELECT " + entry_columns +
                                   " FROM entry WHERE time BETWEEN ? AND ? AND withdrawn = 0");
    select.bind(1, print_time(first));
    select.bind(2, print_time(last));
    while (select.executeStep()) {
        const auto row = EntryReader(database, names).row(select);
        const auto* entry = std::get_if<Entry>(&row);
        if (entry == nullptr) continue;
        if (const auto found = there.find(csv_line(entry->visit)); found != there.end())
            ++found->second;
    }
    return there;
}

}  // namespace

namespace {

std::set<std::string> stations_of(const std::vector<visit::Visit>& visits) {
    std::set<std::string> stations;
    for (const visit::Visit& visit : visits) stations.insert(visit.station);
    return stations;
}

/// Those of mixes, and of these stations.
std::vector<Fact> facts_with(const std::vector<Fact>& facts,
                             const std::set<std::string>& stations) {
    std::vector<Fact> kept;
    for (const Fact& fact : facts)
        if (fact.kind == Fact::Kind::mix || stations.contains(fact.name)) kept.push_back(fact);
    return kept;
}

}  // namespace

namespace {

/// Commits what stands beside the entries: there is no new entry to be read again.
void commit_beside(Writer& writer, Transaction& transaction) {
    writer.commit(transaction, 1, 0, [](const Entry&) { return false; });
}

}  // namespace

struct Log::Impl {
    Impl(const std::string& file, Opening opening)
        : store(file, opening), photos(photos_beside(file)) {}

    /// `change(SQLite::Database&)` as one transaction.
    template <class Change>
    void write_beside(Change change) {
        store.write([&](Writer& writer) {
            Transaction transaction(writer.database(), TransactionBehavior::IMMEDIATE);
            change(writer.database());
            commit_beside(writer, transaction);
            return true;
        });
    }

    Store store;
    PhotoFiles photos;
    OldNames names;
};

Log::Log(const fs::path& file, Opening opening) {
    for (const char* end : {"", "-wal", "-shm", "-journal"}) {
        system::protect(file.string() + end, "the visit log");
        system::refuse_irregular(file.string() + end);  // SQLite would wait for a pipe
    }
    impl_ = std::make_unique<Impl>(file.string(), opening);
}
Log::~Log() = default;
Log::Log(Log&&) noexcept = default;

void Log::set_old_names(const std::map<std::string, std::string>& names) {
    impl_->names = OldNames(names);
}

namespace {

/// Adds the entry of one form, unless the form was recorded before or what it corrects is not
/// there.
Recorded record_one(SQLite::Database& database, const EntryReader& reader, const Draft& draft,
                    Instant now, const std::vector<Fact>& facts) {
    if (!draft.token.empty()) {
        const auto used = reader.one("token = ?", draft.token);
        if (used)
            return {same_content(*used, draft) ? Outcome::already : Outcome::form_used, *used};
    }
    if (draft.corrects) {
        const auto old = reader.by_number(*draft.corrects);
        if (!old || old->visit.station != draft.visit.station) return {Outcome::nothing_there, {}};
        Entry now_standing = reader.standing_for(*old);
        if (now_standing.number != old->number || old->withdrawn)
            return {Outcome::corrected_since, std::move(now_standing)};
    }
    note(database, facts_with(facts, {draft.visit.station}), draft.visit.time, now);
    return {Outcome::recorded,
            {Insert(database)(draft, now), draft.visit, draft.corrects, draft.withdrawn, now,
             draft.photos}};
}

}  // namespace

Recorded Log::record(const Draft& draft, Instant now, const std::vector<Fact>& facts) {
    return record(std::vector<Draft>{draft}, now, facts).front();
}

std::vector<Recorded> Log::record(const std::vector<Draft>& drafts, Instant now,
                                  const std::vector<Fact>& facts) {
    if (drafts.empty()) return {};
    return impl_->store.write([&](Writer& writer) {
        SQLite::Database& database = writer.database();
        Transaction transaction(database, TransactionBehavior::IMMEDIATE);
        const EntryReader reader(database, impl_->names);
        std::vector<Recorded> done;
        std::vector<Entry> added;
        for (const Draft& draft : drafts) {
            writer.allow_steps();
            done.push_back(record_one(database, reader, draft, now, facts));
            if (done.back().outcome == Outcome::recorded) added.push_back(done.back().entry);
        }
        if (added.empty()) return done;
        const std::int64_t first = added.front().number;
        writer.commit(transaction, first, added.back().number, [&](const Entry& read) {
            return read == added.at(static_cast<std::size_t>(read.number - first));
        });
        return done;
    });
}

std::size_t Log::add_all(const std::vector<visit::Visit>& visits, Instant now,
                         const std::vector<Fact>& facts) {
    if (visits.empty()) return 0;
    return impl_->store.write([&](Writer& writer) -> std::size_t {
        SQLite::Database& database = writer.database();
        Transaction transaction(database, TransactionBehavior::IMMEDIATE);
        Tally there = tally_of_log(database, impl_->names, visits);
        Insert insert(database);
        std::vector<const visit::Visit*> added;
        std::int64_t last = 0;
        for (const visit::Visit& visit : visits) {
            std::size_t& alike = there.at(csv_line(visit));
            if (alike > 0) {
                --alike;
                continue;
            }
            writer.allow_steps();
            if (added.empty())
                note(database, facts_with(facts, stations_of(visits)), visit.time, now);
            last = insert({visit, {}, {}, false, false, {}}, now);
            added.push_back(&visit);
        }
        if (added.empty()) return 0;
        const std::int64_t first = last - static_cast<std::int64_t>(added.size()) + 1;
        writer.commit(transaction, first, last, [&](const Entry& read) {
            const auto index = static_cast<std::size_t>(read.number - first);
            return read == Entry{read.number, *added.at(index), {}, false, now, {}};
        });
        return added.size();
    });
}

void Log::note_from_start(const std::vector<Fact>& facts, Instant now) {
    impl_->write_beside(
        [&](SQLite::Database& database) { note(database, facts, std::nullopt, now); });
}

std::vector<Note> Log::notes() const {
    return impl_->store.read([](SQLite::Database& database) { return read_notes(database); });
}

ReportOutcome Log::report(const NeighbourReport& report, const std::string& token) {
    const ReportOutcome outcome = impl_->store.write([&](Writer& writer) {
        Transaction transaction(writer.database(), TransactionBehavior::IMMEDIATE);
        const ReportOutcome done = insert_report(writer.database(), report, token);
        if (done == ReportOutcome::recorded) commit_beside(writer, transaction);
        return done;
    });
    if (outcome != ReportOutcome::recorded) return outcome;
    // Confirmed once it was read again, as an entry is.
    if (impl_->store.read([&](SQLite::Database& database) { return has_report(database, token); }))
        return outcome;
    throw system::SystemError{"a report cannot be read again from the visit log '" +
                              impl_->store.file() + "'"};
}

void Log::mark_report_read(std::int64_t number, Instant now) {
    impl_->write_beside([&](SQLite::Database& database) { mark_read(database, number, now); });
}

std::vector<NeighbourReport> Log::reports(std::size_t maximum) const {
    auto reports = impl_->store.read(
        [&](SQLite::Database& database) { return read_reports(database, maximum); });
    for (NeighbourReport& report : reports) {
        visit::Visit named;
        named.station = report.station;
        impl_->names.apply(named);
        report.station = named.station;
    }
    return reports;
}

void Log::add_phone(const std::string& id, const std::string& kind, Instant now) {
    impl_->write_beside([&](SQLite::Database& database) { insert_phone(database, id, kind, now); });
}

void Log::end_phone(const std::string& id, Instant now) {
    impl_->write_beside([&](SQLite::Database& database) { log::end_phone(database, id, now); });
}

std::optional<Phone> Log::find_phone(const std::string& id) const {
    return impl_->store.read(
        [&](SQLite::Database& database) { return log::find_phone(database, id); });
}

std::vector<Phone> Log::phones(std::size_t maximum) const {
    return impl_->store.read(
        [&](SQLite::Database& database) { return read_phones(database, maximum); });
}

std::optional<Entry> Log::find_form(const std::string& token) const {
    return impl_->store.read([&](SQLite::Database& database) {
        return EntryReader(database, impl_->names).one("token = ?", token);
    });
}

std::optional<Entry> Log::find(std::int64_t number) const {
    return impl_->store.read([&](SQLite::Database& database) {
        return EntryReader(database, impl_->names).by_number(number);
    });
}

std::optional<Entry> Log::active(std::int64_t number) const {
    return impl_->store.read([&](SQLite::Database& database) -> std::optional<Entry> {
        const EntryReader reader(database, impl_->names);
        auto entry = reader.by_number(number);
        if (entry) entry = reader.standing_for(*std::move(entry));
        return entry;
    });
}

std::vector<Entry> Log::last(const std::string& station, std::size_t maximum) const {
    return impl_->store.read([&](SQLite::Database& database) {
        const EntryReader reader(database, impl_->names);
        Statement select = reader.of_station(station, stands + "ORDER BY time DESC, number DESC");
        std::vector<Entry> entries;
        while (entries.size() < maximum && select.executeStep()) {
            auto row = reader.row(select);
            if (auto* entry = std::get_if<Entry>(&row)) entries.push_back(std::move(*entry));
        }
        return entries;
    });
}

std::optional<Entry> Log::first_count(const std::string& station,
                                      std::optional<LocalTime> placed) const {
    return impl_->store.read([&](SQLite::Database& database) {
        const EntryReader reader(database, impl_->names);
        const std::string counted = "seen IS NOT NULL AND" + stands;
        std::optional<Entry> before;
        if (placed)
            before =
                reader.first_of(station, counted + "AND time <= ?2 ORDER BY time DESC, number DESC",
                                print_time(*placed));
        return before ? before : reader.first_of(station, counted + "ORDER BY time, number");
    });
}

std::optional<Entry> Log::last_replaced(const std::string& station) const {
    return impl_->store.read([&](SQLite::Database& database) {
        return EntryReader(database, impl_->names)
            .first_of(station, "instr(did, 'replaced') > 0 AND" + stands +
                                   "ORDER BY time DESC, number DESC");
    });
}

std::string Log::version() const {
    return impl_->store.read([](SQLite::Database& database) {
        return database
            .execAndGet(
                "SELECT coalesce((SELECT number || ' ' || token FROM entry ORDER BY number DESC "
                "LIMIT 1), '') || ' ' || (SELECT coalesce(max(number), 0) FROM note)")
            .getString();
    });
}

void Log::each(Which which, const std::function<bool(const Entry&)>& use,
               const std::function<void(const Unreadable&)>& left_out) const {
    // Page by page, so that a slow reader keeps nobody waiting. Entries are only ever added, so
    // leaving out those above the highest number of the start is a picture of that moment.
    constexpr std::size_t page = 500;
    std::string query = "SELECT " + entry_columns +
                        " FROM entry WHERE (time, number) > (:time, :number) AND number <= :newest";
    if (which == Which::active)
        query +=
            " AND withdrawn = 0 AND NOT EXISTS (SELECT 1 FROM entry later WHERE later.corrects = "
            "entry.number AND later.number > entry.number AND later.number <= :newest)";
    query += " ORDER BY time, number LIMIT " + std::to_string(page);
    const auto newest = impl_->store.read([](SQLite::Database& database) {
        return database.execAndGet("SELECT coalesce(max(number), 0) FROM entry").getInt64();
    });
    std::string time;  // as the row has it, readable or not
    std::int64_t number = std::numeric_limits<std::int64_t>::min();
    for (;;) {
        const auto rows = impl_->store.read([&](SQLite::Database& database) {
            Statement select(database, query);
            select.bind(":time", time);
            select.bind(":number", number);
            select.bind(":newest", newest);
            std::vector<std::variant<Entry, Unreadable>> found;
            const EntryReader reader(database, impl_->names);
            while (select.executeStep()) {
                found.push_back(reader.row(select));
                number = select.getColumn("number").getInt64();
                time = select.getColumn("time").getString();
            }
            return found;
        });
        for (const auto& row : rows) {
            if (const auto* entry = std::get_if<Entry>(&row)) {
                if (!use(*entry)) return;
            } else {
                left_out(std::get<Unreadable>(row));
            }
        }
        if (rows.size() < page) return;
    }
}

std::optional<std::string> Log::damage() const {
    return impl_->store.read([&](SQLite::Database& database) -> std::optional<std::string> {
        try {
            check_whole(database, impl_->store.file());
        } catch (const system::SystemError& error) {
            return std::string(error.what());
        }
        return std::nullopt;
    });
}

std::vector<PhotoId> Log::back_up(const fs::path& copy) const {
    system::check_output_name(copy);
    std::error_code none;
    // Whoever opens the copy would take what lies beside it for a part of it.
    for (const char* end : {"-wal", "-journal"})
        if (fs::symlink_status(copy.string() + end, none).type() != fs::file_type::not_found)
            throw system::UsageError("cannot write " + diag::quoted(copy.string()) + ": " +
                                     diag::quoted(copy.string() + end) +
                                     " belongs to a file of that name; give another name");
    std::vector<PhotoId> missing;
    system::make_whole(copy, [&](const fs::path& unfinished) {
        // What SQLite leaves beside a copy that failed or was stopped.
        const system::TempFile journal(unfinished.string() + "-journal");
        const system::TempFile wal(unfinished.string() + "-wal");
        const system::TempFile shared(unfinished.string() + "-shm");
        try {
            // A connection of its own: the copy holds up neither readers nor writers.
            Connection source(impl_->store.file(), Access::read);
            SQLite::Database target(unfinished.string(), SQLite::OPEN_READWRITE);
            SQLite::Backup(target, source.database).executeStep(-1);
            // One file that can be carried away, with nothing beside it.
            target.exec("PRAGMA journal_mode = DELETE");
            check_whole(target, copy.string());
            // A photo is kept before the entry that names it: those of the copy are there.
            missing = impl_->photos.copy_to(photos_beside(copy), photos_named(target));
        } catch (const SQLite::Exception& error) {
            throw explain(error, copy.string());
        }
    });
    return missing;
}

const PhotoFiles& Log::photos() const {
    return impl_->photos;
}

fs::path file_beside(const fs::path& job_file) {
    return job_file.parent_path() / (job_file.stem().string() + ".visits.sqlite");
}

}  // namespace gallipot::log
