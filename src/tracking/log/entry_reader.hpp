#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "tracking/log/entries.hpp"

/// Entries as they are read from the table. Private to this folder.
namespace gallipot::log {

/// What stations were called before.
class OldNames {
  public:
    OldNames() = default;
    /// Today's name by the older one, whose letter case makes no difference.
    explicit OldNames(const std::map<std::string, std::string>& names);

    void apply(visit::Visit& visit) const;
    /// Older names of a station, in small letters.
    [[nodiscard]] std::vector<std::string> older(const std::string& station) const;

  private:
    std::map<std::string, std::string> names_;
};

/// Reads entries; those logged under an older name of a station are the station's.
class EntryReader {
  public:
    EntryReader(SQLite::Database& database, const OldNames& names)
        : database_(database), names_(names) {}

    /// The row that `select` stands at; it selects `entry_columns`.
    std::variant<Entry, Unreadable> row(SQLite::Statement& select) const;
    /// Selects those of a station for which `where` holds.
    [[nodiscard]] SQLite::Statement of_station(const std::string& station,
                                               const std::string& where) const;
    /// The first of those that can be read. `until` is bound as ?2 where it is given.
    [[nodiscard]] std::optional<Entry> first_of(const std::string& station,
                                                const std::string& where,
                                                const std::string& until = {}) const;
    /// With `value` bound as ?1. Throws for one that cannot be read.
    template <class Value>
    std::optional<Entry> one(const std::string& where, const Value& value) const {
        SQLite::Statement select(database_,
                                 "SELECT " + entry_columns + " FROM entry WHERE " + where);
        select.bind(1, value);
        if (!select.executeStep()) return std::nullopt;
        Entry entry = read_entry(select);
        names_.apply(entry.visit);
        return entry;
    }
    [[nodiscard]] std::optional<Entry> by_number(std::int64_t number) const;
    /// The entry that stands where `entry` once stood.
    [[nodiscard]] Entry standing_for(Entry entry) const;

  private:
    SQLite::Database& database_;
    const OldNames& names_;
};

}  // namespace gallipot::log
