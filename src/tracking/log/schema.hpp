#pragma once

#include <SQLiteCpp/Database.h>

/// What the tables look like, and how an older log becomes a newer one.
namespace gallipot::log {

/// Kept in the file's user_version. A newer gallipot raises it; an older one then refuses the file.
int newest_schema();

/// In the file's application_id: tells our logs from other SQLite files ("gPot").
inline constexpr int application_id = 0x67506f74;

/// Brings the file to the newest schema, in one transaction. Throws SQLite::Exception, and
/// system::SystemError for a file that is none of ours or newer than this program.
void migrate(SQLite::Database& database, const std::string& file);

}  // namespace gallipot::log
