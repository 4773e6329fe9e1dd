#pragma once

#include <SQLiteCpp/Statement.h>
#include <string>
#include <variant>

#include "tracking/log/log.hpp"

/// Entries as rows of the table, and rows as entries. Private to this folder.
namespace gallipot::log {

/// What read_row() wants selected, in this order.
extern const std::string entry_columns;

/// The entry in the row that `row` stands at, or why there is none in it.
std::variant<Entry, Unreadable> read_row(SQLite::Statement& row);

/// The same for who cannot go on without: throws system::SystemError.
Entry read_entry(SQLite::Statement& row);

/// Every photo that any entry names, corrected since or not; each once.
std::vector<PhotoId> photos_named(SQLite::Database& database);

/// Adds one entry after another.
class Insert {
  public:
    explicit Insert(SQLite::Database& database);
    /// The number it was given.
    std::int64_t operator()(const Draft& draft, Instant now);

  private:
    SQLite::Database& database_;
    SQLite::Statement statement_;
};

}  // namespace gallipot::log
