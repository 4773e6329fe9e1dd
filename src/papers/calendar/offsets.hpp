#pragma once

#include <chrono>
#include <string>
#include <vector>

namespace gallipot::calendar {

/// A UTC-offset transition: from when on, and how far ahead of UTC.
struct Offset {
    std::chrono::local_seconds from;  ///< on the clock as it was before
    std::chrono::seconds before{}, after{};
    bool daylight = false;  ///< summer time begins, else standard time
    std::string name;       ///< "AEST", "GMT+10"
};

/// The offset in force at `first`, before it the one of standard time where that is summer time,
/// and every change up to `last`, in order. Empty when ICU knows no zone of that name. `zone` is an
/// IANA name.
std::vector<Offset> offsets(const std::string& zone, std::chrono::local_seconds first,
                            std::chrono::local_seconds last);

}  // namespace gallipot::calendar
