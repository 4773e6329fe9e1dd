#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "tracking/log/zone.hpp"

namespace SQLite {
class Database;
}

/// Which phones are the caretaker's. The log holds no more than a name for each: what proves that a
/// phone is the one of that name is on the phone alone.
namespace gallipot::log {

struct Phone {
    std::string id;
    std::string kind;  ///< "Android"; empty when it did not say
    Instant since;
    bool ended = false;  ///< it is the caretaker's no more

    bool operator==(const Phone&) const = default;
};

// On a connection of the log. Private to this folder.
/// Nothing when it is there already.
void insert_phone(SQLite::Database& database, const std::string& id, const std::string& kind,
                  Instant now);
/// For good: a phone of that id is never the caretaker's again.
void end_phone(SQLite::Database& database, const std::string& id, Instant now);
[[nodiscard]] std::optional<Phone> find_phone(SQLite::Database& database, const std::string& id);
/// Newest first.
std::vector<Phone> read_phones(SQLite::Database& database, std::size_t maximum);

}  // namespace gallipot::log
