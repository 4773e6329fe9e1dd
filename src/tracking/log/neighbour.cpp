#include "tracking/log/neighbour.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include "base/diag/utf8.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::log {
namespace {

using SQLite::Statement;

std::string print_what(const NeighbourReport& report) {
    std::string what;
    const auto add = [&](bool said, const char* word) {
        if (said) what += (what.empty() ? "" : " ") + std::string(word);
    };
    add(report.spilt, "spilt");
    add(report.missing, "missing");
    add(report.pests, "pests");
    return what;
}

bool says(const std::string& what, const std::string& word) {
    return (" " + what + " ").find(" " + word + " ") != std::string::npos;
}

}  // namespace

bool has_report(SQLite::Database& database, const std::string& token) {
    Statement select(database, "SELECT 1 FROM report WHERE token = ?");
    select.bind(1, token);
    return select.executeStep();
}

ReportOutcome insert_report(SQLite::Database& database, const NeighbourReport& report,
                            const std::string& token) {
    if (has_report(database, token)) return ReportOutcome::already;
    Statement waiting(database,
                      "SELECT count(*) FROM report WHERE station = ? AND NOT EXISTS (SELECT 1 FROM "
                      "report_read WHERE report_read.report = report.number)");
    waiting.bind(1, report.station);
    waiting.executeStep();
    if (waiting.getColumn(0).getInt() >= maximum_unread) return ReportOutcome::too_many;
    Statement insert(database,
                     "INSERT INTO report (token, station, time, what, words, recorded) VALUES (?, "
                     "?, ?, ?, ?, ?)");
    insert.bind(1, token);
    insert.bind(2, report.station);
    insert.bind(3, print_time(report.time));
    insert.bind(4, print_what(report));
    insert.bind(5, report.words);
    insert.bind(6, std::int64_t{report.recorded.time_since_epoch().count()});
    insert.exec();
    return ReportOutcome::recorded;
}

void mark_read(SQLite::Database& database, std::int64_t number, Instant now) {
    Statement insert(database,
                     "INSERT OR IGNORE INTO report_read (report, recorded) SELECT number, ? FROM "
                     "report WHERE number = ?");
    insert.bind(1, std::int64_t{now.time_since_epoch().count()});
    insert.bind(2, number);
    insert.exec();
}

std::vector<NeighbourReport> read_reports(SQLite::Database& database, std::size_t maximum) {
    static const Zone utc = *Zone::find("UTC");
    Statement select(
        database,
        "SELECT number, station, time, what, words, recorded, EXISTS (SELECT 1 FROM report_read "
        "WHERE report_read.report = report.number) FROM report ORDER BY number DESC");
    std::vector<NeighbourReport> reports;
    while (reports.size() < maximum && select.executeStep()) {
        NeighbourReport report;
        report.number = select.getColumn(0).getInt64();
        report.station = select.getColumn(1).getString();
        const auto time = parse_time(select.getColumn(2).getString(), utc);
        const std::string what = select.getColumn(3).getString();
        report.words = select.getColumn(4).getString();
        // A log from elsewhere is data: what our form would not have taken is left out.
        if (!time || find_fault(report.words, longest_report, true) != TextFault::none) continue;
        report.time = *time;
        report.spilt = says(what, "spilt");
        report.missing = says(what, "missing");
        report.pests = says(what, "pests");
        report.recorded = Instant(std::chrono::seconds(select.getColumn(5).getInt64()));
        report.read = select.getColumn(6).getInt() != 0;
        reports.push_back(std::move(report));
    }
    return reports;
}

}  // namespace gallipot::log
