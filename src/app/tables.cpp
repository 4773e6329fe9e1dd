#include "app/tables.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <memory>
#include <string>
#include <system_error>

#include "base/system/files.hpp"
#include "base/system/guard.hpp"

namespace gallipot::app {
namespace fs = std::filesystem;
namespace {

/// Whether a file that is there lies in the folder once all links are followed.
bool is_inside(const fs::path& folder, const fs::path& file) {
    std::error_code unknown;
    const fs::path inside = fs::canonical(file, unknown);
    if (unknown) return false;
    const fs::path home = fs::canonical(folder, unknown);
    if (unknown) return false;
    return std::mismatch(home.begin(), home.end(), inside.begin(), inside.end()).first ==
           home.end();
}

job::TableFile open_table(const fs::path& folder, const std::string& name) {
    const fs::path path = folder / name;
    system::protect(path, "a table of this job");
    if (const auto unreadable = system::why_unreadable(path))
        return {nullptr, unreadable->why, unreadable->remedy};
    if (!is_inside(folder.empty() ? "." : folder, path))
        return {nullptr, "it is a link that leads out of the job's folder",
                "copy the table into the folder of the job"};
    std::error_code unknown;
    const auto bytes = fs::file_size(path, unknown);
    if (!unknown && bytes > job::maximum_bytes)
        return {nullptr,
                diag::say("it holds {} bytes, and at most {} are read", bytes, job::maximum_bytes),
                "split the job into several files"};
    return {std::make_shared<const diag::Source>(
                diag::Source{path.string(), system::read_file(path, job::maximum_bytes)}),
            {},
            {}};
}

}  // namespace

job::OpenTable tables_beside(const fs::path& job_file) {
    return [folder = job_file.parent_path()](const std::string& name) {
        return open_table(folder, name);
    };
}

}  // namespace gallipot::app
