#pragma once

#include <SQLiteCpp/Database.h>
#include <string>

/// What the tables look like, and how an older log becomes a newer one.
namespace gallipot::log {

/// Kept in the file's user_version. A newer gallipot raises it; an older one then refuses the file.
int newest_schema();

/// In the file's application_id: tells our logs from other SQLite files ("gPot").
inline constexpr int application_id = 0x67506f74;

/// Throws system::SystemError for a file that is none of ours, not of the newest format, or holds
/// any table, index, view or trigger but our own: then nothing in it may be run.
void verify(SQLite::Database& database, const std::string& file);

/// Brings an empty file, or a log of an older format, to the newest one in one transaction. Throws
/// as verify() does, and SQLite::Exception.
void migrate(SQLite::Database& database, const std::string& file);

}  // namespace gallipot::log
