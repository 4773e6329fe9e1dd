#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "tracking/log/connection.hpp"
#include "tracking/log/log.hpp"

namespace SQLite {
class Transaction;
}

/// The log's file over a long time, in which it may be deleted, moved, replaced or overwritten by
/// others. Private to this folder.
namespace gallipot::log {

/// The file while it is written to.
class Writer {
  public:
    Writer(const std::string& file, Connection& connection)
        : file_(file), connection_(connection) {}

    [[nodiscard]] SQLite::Database& database() const { return connection_.database; }
    void allow_steps() { connection_.allow_steps(); }
    /// Commits, then reads the entries from `first` to `last` from the file by its name: what
    /// `same` does not find as it was added is not confirmed, and system::SystemError thrown.
    void commit(SQLite::Transaction& transaction, std::int64_t first, std::int64_t last,
                const std::function<bool(const Entry&)>& same);

  private:
    const std::string& file_;
    Connection& connection_;
};

/// Opens the file afresh for every write, so that neither a stale page nor a file without a name
/// takes an entry, and keeps one connection for reading, which follows the file at its path.
/// Errors are system::SystemError. May be shared between threads.
class Store {
  public:
    Store(std::string file, Opening opening);
    ~Store();

    [[nodiscard]] const std::string& file() const { return file_; }

    /// The result of `use(SQLite::Database&)`.
    template <class Use>
    auto read(Use use) const {
        const std::lock_guard lock(reading_);
        return guarded([&] { return use(reader().database); }, [&] { reader_.reset(); });
    }

    /// The result of `use(Writer&)`, given the file that was opened, read whole and in its place.
    template <class Use>
    auto write(Use use) {
        const std::lock_guard lock(writing_);
        return guarded(
            [&] {
                let_go_of_old_file();
                Connection connection(there(), Access::write);
                check_before_writing(connection);
                Writer writer(file_, connection);
                auto result = use(writer);
                known_ = newest(connection.database, maximum_entries);
                return result;
            },
            [] {});
    }

  private:
    /// Turns SQLite's errors into ours; `after_error` comes before.
    template <class Use, class AfterError>
    auto guarded(Use use, AfterError after_error) const {
        try {
            return use();
        } catch (const SQLite::Exception& error) {
            after_error();
            throw explain(error, file_);
        } catch (...) {
            after_error();
            throw;
        }
    }

    /// The file's name; throws when no file has it any more.
    [[nodiscard]] const std::string& there() const;
    Connection& reader() const;
    /// What the reader holds locked could be a file that was put in place of another meanwhile.
    void let_go_of_old_file();
    void check_before_writing(Connection& connection);
    void open_copy();

    std::string file_;
    std::filesystem::path copied_to_;  ///< a folder of ours, when the log lies where none can write
    mutable std::mutex reading_;
    mutable std::unique_ptr<Connection> reader_;
    mutable FileState read_state_;  ///< of the file when the reader was opened
    std::mutex writing_;
    /// What the last write, or the opening, left as the newest entry. A log that has another in its
    /// place, or none, is not the one that was open.
    struct Newest {
        std::int64_t number = 0;
        std::string token;
        bool operator==(const Newest&) const = default;
    };
    static Newest newest(SQLite::Database& database, std::int64_t up_to);
    Newest known_;
};

}  // namespace gallipot::log
