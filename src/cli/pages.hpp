#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace gallipot::cli {

/// The manual page, gallipot(1), for man.
std::string manual(const CLI::App& app, const std::string& version);

}  // namespace gallipot::cli
