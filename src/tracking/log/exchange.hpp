#pragma once

#include <string>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/plan/plan.hpp"
#include "tracking/log/neighbour.hpp"
#include "tracking/log/zone.hpp"
#include "tracking/visit/visit.hpp"

/// Visits as text for other programs.
namespace gallipot::log {

/// "station,time,by,seen,dead,level_percent,state,did,note,minutes,young,trap_nights,feeding" and
/// its line end.
std::string csv_heading();

/// One visit as a line. A name or note that a spreadsheet would take for a formula (it begins with
/// = + - or @) gets an apostrophe before it; read_visits takes it off again. Characters that drive
/// a terminal or turn the text around them are shown as U+FFFD.
std::string csv_line(const visit::Visit& visit);

/// A CSV file of visits: the heading, then a visit a line. Everything that is wrong goes to `out`
/// with its line; with errors the list is not to be used. Stations are those of `plan`; times
/// without an offset are the zone's wall clock. A time that cannot be is an error, one that may be
/// a slip a warning: still to come by `clock`, before the station was set out, a second count of
/// the same minute. Files written before there were `minutes` and what follows may end with `note`.
std::vector<visit::Visit> read_visits(const diag::SourcePtr& csv, const plan::Plan& plan,
                                      const Zone& zone, LocalTime clock, diag::Diagnostics& out);

/// One visit as a JSON object on one line, the CSV's names as its keys. What was not looked at is
/// null; `state` and `did` are lists, `feeding` is a bool. Texts are exact, whatever is in them.
std::string json_object(const visit::Visit& visit);

/// The same of a neighbour's report: station, time, what (a list of "spilt", "missing", "pests"),
/// words, read.
std::string json_object(const NeighbourReport& report);

}  // namespace gallipot::log
