#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "tracking/log/log.hpp"

/// The photos of the visits as files for other programs.
namespace gallipot::app {

struct PhotoExport {
    std::size_t written = 0;
    std::size_t there_before = 0;
    std::vector<std::string> gone;  ///< "2027-03-18_0805_K1_7-1.jpg": not in the log any more
};

/// Those of all visits that stand, each as DAY_TIME_STATION_ENTRY-NUMBER.jpg in `folder`, which is
/// made. A file of that name that holds the same photo stays, any other ends it before anything is
/// written: system::UsageError. Throws system::SystemError too.
PhotoExport export_photos(const log::Log& visits, const std::filesystem::path& folder);

}  // namespace gallipot::app
