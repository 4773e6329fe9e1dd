#include "tracking/log/phones.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <cstdint>

#include "base/diag/utf8.hpp"

namespace gallipot::log {
namespace {

using SQLite::Statement;

const char* const columns =
    "SELECT id, kind, recorded, EXISTS (SELECT 1 FROM phone_ended WHERE phone_ended.id = phone.id) "
    "FROM phone ";

Phone row(Statement& select) {
    return {select.getColumn(0).getString(), select.getColumn(1).getString(),
            Instant(std::chrono::seconds(select.getColumn(2).getInt64())),
            select.getColumn(3).getInt() != 0};
}

}  // namespace

void insert_phone(SQLite::Database& database, const std::string& id, const std::string& kind,
                  Instant now) {
    Statement insert(database, "INSERT OR IGNORE INTO phone (id, kind, recorded) VALUES (?, ?, ?)");
    insert.bind(1, id);
    insert.bind(2, kind);
    insert.bind(3, std::int64_t{now.time_since_epoch().count()});
    insert.exec();
}

void end_phone(SQLite::Database& database, const std::string& id, Instant now) {
    Statement insert(database, "INSERT OR IGNORE INTO phone_ended (id, recorded) VALUES (?, ?)");
    insert.bind(1, id);
    insert.bind(2, std::int64_t{now.time_since_epoch().count()});
    insert.exec();
}

std::optional<Phone> find_phone(SQLite::Database& database, const std::string& id) {
    Statement select(database, std::string(columns) + "WHERE id = ?");
    select.bind(1, id);
    if (!select.executeStep()) return std::nullopt;
    return row(select);
}

std::vector<Phone> read_phones(SQLite::Database& database, std::size_t maximum) {
    Statement select(database, std::string(columns) + "ORDER BY number DESC");
    std::vector<Phone> phones;
    while (phones.size() < maximum && select.executeStep()) phones.push_back(row(select));
    return phones;
}

}  // namespace gallipot::log
