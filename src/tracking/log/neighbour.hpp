#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "tracking/log/zone.hpp"
#include "tracking/visit/visit.hpp"

namespace SQLite {
class Database;
}

/// What somebody who is not the caretaker reported of a station. It stands beside the visits: no
/// count, no state and no step comes of it.
namespace gallipot::log {

inline constexpr std::size_t longest_report = 300;  ///< characters

/// Unread reports of one station: a further one is not taken, so that whoever has a label cannot
/// fill the disk.
inline constexpr int maximum_unread = 50;

struct NeighbourReport {
    std::int64_t number = 0;  ///< from 1, in the order of recording
    std::string station;
    visit::LocalTime time{};
    bool spilt = false, missing = false, pests = false;
    std::string words;
    Instant recorded;
    bool read = false;  ///< the caretaker has looked at it

    bool operator==(const NeighbourReport&) const = default;
};

enum class ReportOutcome {
    recorded,
    already,  ///< the same form was recorded before
    too_many  ///< so many of this station wait to be read; nothing was recorded
};

// On a connection of the log. Private to this folder.
ReportOutcome insert_report(SQLite::Database& database, const NeighbourReport& report,
                            const std::string& token);
[[nodiscard]] bool has_report(SQLite::Database& database, const std::string& token);
void mark_read(SQLite::Database& database, std::int64_t number, Instant now);
/// Newest first. A row that cannot be read is left out.
std::vector<NeighbourReport> read_reports(SQLite::Database& database, std::size_t maximum);

}  // namespace gallipot::log
