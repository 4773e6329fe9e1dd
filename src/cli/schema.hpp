#pragma once

#include <filesystem>
#include <string>

namespace gallipot::cli {

/// A job file's first line, which tells editors where the schema lies so that they complete and
/// check while one types: a comment with its whole path, good offline and from any folder.
/// `templates` is the folder beside which it is installed; empty where it is not there.
std::string line_for_editors(const std::filesystem::path& templates);

}  // namespace gallipot::cli
