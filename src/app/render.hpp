#pragma once

#include <filesystem>
#include <functional>
#include <vector>

#include "app/papers.hpp"

namespace gallipot::app {

/// Draws all papers and puts them into `folder`, all of them or none; the caretaker's are for their
/// owner alone. `one_drawn` is called after each file, by one thread at a time. The files' names,
/// with the folder. Throws system::Error; then old files are as they were.
std::vector<std::filesystem::path> write_papers(const Papers& papers,
                                                const std::filesystem::path& folder,
                                                const Resources& resources,
                                                const std::function<void()>& one_drawn);

}  // namespace gallipot::app
