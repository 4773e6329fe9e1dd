#include "tracking/log/entry_reader.hpp"

#include "base/strings/ascii.hpp"

namespace gallipot::log {

using SQLite::Statement;

OldNames::OldNames(const std::map<std::string, std::string>& names) {
    for (const auto& [older, name] : names) names_[strings::to_lower(older)] = name;
}

void OldNames::apply(visit::Visit& visit) const {
    if (names_.empty()) return;
    const auto found = names_.find(strings::to_lower(visit.station));
    if (found != names_.end()) visit.station = found->second;
}

std::vector<std::string> OldNames::older(const std::string& station) const {
    std::vector<std::string> all;
    for (const auto& [older, name] : names_)
        if (name == station) all.push_back(older);
    return all;
}

std::variant<Entry, Unreadable> EntryReader::row(Statement& select) const {
    auto read = read_row(select);
    if (auto* entry = std::get_if<Entry>(&read)) names_.apply(entry->visit);
    return read;
}

Statement EntryReader::of_station(const std::string& station, const std::string& where) const {
    constexpr std::size_t first_older = 3;  // ?2 may be a time
    const std::vector<std::string> older = names_.older(station);
    std::string names = "station = ?1";
    for (std::size_t i = 0; i < older.size(); ++i)
        names += " OR lower(station) = ?" + std::to_string(first_older + i);
    Statement select(database_,
                     "SELECT " + entry_columns + " FROM entry WHERE (" + names + ") AND " + where);
    select.bind(1, station);
    for (std::size_t i = 0; i < older.size(); ++i)
        select.bind(static_cast<int>(first_older + i), older[i]);
    return select;
}

std::optional<Entry> EntryReader::first_of(const std::string& station, const std::string& where,
                                           const std::string& until) const {
    Statement select = of_station(station, where);
    if (!until.empty()) select.bind(2, until);
    while (select.executeStep()) {
        auto read = row(select);
        if (auto* entry = std::get_if<Entry>(&read)) return std::move(*entry);
    }
    return std::nullopt;
}

std::optional<Entry> EntryReader::by_number(std::int64_t number) const {
    return one("number = ?", number);
}

Entry EntryReader::standing_for(Entry entry) const {
    for (;;) {
        // Only a later one counts, so this ends whatever the file says.
        auto later = one("corrects = ?1 AND number > ?1", entry.number);
        if (!later) return entry;
        entry = *std::move(later);
    }
}

}  // namespace gallipot::log
