#pragma once

#include <chrono>
#include <string_view>
#include <vector>

namespace gallipot::job {

/// The dates that a text not written year-month-day may mean, with all their digits in it: one of
/// "15.04.2027", of "2027/04/15", of "2 March 2027" and "March 2nd, 2027"; two of "02/03/2027".
/// None where a digit may be lost, as in "2027-3-12" or "2.3.2027", or where there is no such day.
std::vector<std::chrono::year_month_day> dates_meant(std::string_view text);

/// "January" to "December".
std::string_view month_name(unsigned month);

}  // namespace gallipot::job
