#pragma once

#include <filesystem>
#include <string>
#include <sys/types.h>

/// What the system's refusals mean for the user. Private to this folder.
namespace gallipot::system {

/// Throws a SystemError of what was being done ("cannot write"), to which path, why not (an errno),
/// and what to do about it.
[[noreturn]] void throw_errno(const std::string& doing, const std::filesystem::path& path,
                              int error);

/// "a folder", "a pipe": what is no regular file, from st_mode.
std::string kind_of_file(mode_t mode);

/// The first head_size bytes of a file (guard.hpp), all of a shorter one. Throws SystemError.
std::string head_of(const std::filesystem::path& path);

/// "labels.pdf" lies in ".".
std::filesystem::path folder_of(const std::filesystem::path& path);

}  // namespace gallipot::system
