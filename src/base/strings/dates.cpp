#include "base/strings/dates.hpp"

#include <fmt/format.h>

namespace gallipot::strings {

std::string iso_date(std::chrono::year_month_day date) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

}  // namespace gallipot::strings
