#pragma once

#include <chrono>
#include <memory>
#include <string>
#include <unicode/smpdtfmt.h>

namespace gallipot::text {

/// Dates and local times written by an ICU date pattern ("d MMMM y") in a locale's words. No time
/// zone takes part: a local time is shown as it stands.
class DateWriter {
  public:
    DateWriter(const std::string& pattern, const icu::Locale& locale);
    [[nodiscard]] std::string write(std::chrono::local_time<std::chrono::minutes> time) const;
    [[nodiscard]] std::string write(std::chrono::year_month_day date) const;

    /// Whether ICU can read the pattern.
    static bool valid(const std::string& pattern, const icu::Locale& locale);

  private:
    std::unique_ptr<icu::SimpleDateFormat> format_;
};

}  // namespace gallipot::text
