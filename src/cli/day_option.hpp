#pragma once

#include <optional>
#include <string>

#include "domain/job/job.hpp"

namespace CLI {
class App;
}

/// The day that a command tells of.
namespace gallipot::cli {

/// None for what is not a day written like 2027-03-18.
std::optional<job::Date> read_day(const std::string& text);

/// Adds --on DAY, which goes to `day`; what is no day is wrong usage. `what` is its help; empty: that
/// of commands that show the job as it is on a day.
void add_day_option(CLI::App& command, std::optional<job::Date>& day, std::string what = {});

}  // namespace gallipot::cli
