#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "cli/help_pages.hpp"

namespace gallipot::cli {

/// The manual page, gallipot(1), made from the options that --help tells of. The build writes what
/// `gallipot __man` prints.
std::string manual(const CLI::App& app, const std::string& version, const HelpPages& pages);

}  // namespace gallipot::cli
