#pragma once

#include <SQLiteCpp/Database.h>
#include <vector>

#include "tracking/log/log.hpp"

/// What mixes were made of and stations were, as rows of their table. Private to this folder.
namespace gallipot::log {

/// Notes those of `facts` that the log does not have as its newest, as holding since `time` (none:
/// from the start); one that it knows nothing of yet held from the start. Before the entry that
/// they are noted with is added.
void note(SQLite::Database& database, const std::vector<Fact>& facts, std::optional<LocalTime> time,
          Instant now);

/// In the order of noting. Rows that cannot be read are left out.
std::vector<Note> read_notes(SQLite::Database& database);

}  // namespace gallipot::log
