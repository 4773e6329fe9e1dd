#pragma once

#include <chrono>
#include <string>

namespace gallipot::strings {

/// "2027-03-02" (ISO 8601).
std::string iso_date(std::chrono::year_month_day date);

}  // namespace gallipot::strings
