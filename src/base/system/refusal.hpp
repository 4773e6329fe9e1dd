#pragma once

#include <filesystem>
#include <string>

/// What the system's refusals mean for the user. Private to this folder.
namespace gallipot::system {

/// Throws a SystemError of what was being done ("cannot write"), to which path, why not (an errno),
/// and what to do about it.
[[noreturn]] void refuse(const std::string& doing, const std::filesystem::path& path, int error);

/// "labels.pdf" lies in ".".
std::filesystem::path folder_of(const std::filesystem::path& path);

}  // namespace gallipot::system
