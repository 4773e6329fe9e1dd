#pragma once

#include <chrono>
#include <string>
#include <string_view>

/// The line format of RFC 5545 (Internet Calendaring and Scheduling Core Object Specification).
namespace gallipot::calendar {

/// One content line: folded so that none is longer than 75 octets (3.1), never within a
/// character, and ended by CR LF. `content` is name, parameters and value.
std::string line(std::string_view content);

/// A TEXT value (3.3.11): backslash, semicolon, comma and line breaks written so that they stay
/// part of it. Other control characters, which it cannot hold, become blanks.
std::string escaped(std::string_view text);

/// "20270302T193000", a DATE-TIME without a zone (3.3.5).
std::string date_time(std::chrono::local_seconds time);

/// "+1100": UTC-OFFSET (3.3.14), with seconds where there are any.
std::string utc_offset(std::chrono::seconds offset);

}  // namespace gallipot::calendar
