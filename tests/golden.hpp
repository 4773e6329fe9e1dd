#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <unistd.h>

#include "catch_all.hpp"

/// Golden texts: tests/golden/<name>. Run with GALLIPOT_UPDATE_GOLDEN=1 to write them anew, then
/// read the difference in review.
namespace gallipot::tests {

inline std::string slurp(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

/// `diff -u` of two texts, its first lines: what a person reads when they are not the same.
inline std::string difference(const std::string& wanted, const std::string& got) {
    const auto folder =
        std::filesystem::temp_directory_path() / ("gallipot-golden-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "wanted", std::ios::binary) << wanted;
    std::ofstream(folder / "got", std::ios::binary) << got;
    const std::string command =
        "cd '" + folder.string() + "' && diff -u wanted got | head -n 60 >difference";
    const int ignored = std::system(command.c_str());
    static_cast<void>(ignored);
    std::string text = slurp(folder / "difference");
    std::filesystem::remove_all(folder);
    return text;
}

inline void check_golden(const std::string& name, const std::string& got) {
    const auto path = std::filesystem::path(GALLIPOT_SOURCE_DIR) / "tests/golden" / name;
    if (std::getenv("GALLIPOT_UPDATE_GOLDEN") != nullptr) {
        std::filesystem::create_directories(path.parent_path());
        std::ofstream(path, std::ios::binary) << got;
    }
    INFO("golden text " << path
                        << (std::filesystem::exists(path)
                                ? ""
                                : " is not there: write it with GALLIPOT_UPDATE_GOLDEN=1, "
                                  "read it, and commit it"));
    REQUIRE(std::filesystem::exists(path));
    const std::string wanted = slurp(path);
    const bool same = got == wanted;
    if (!same) UNSCOPED_INFO(difference(wanted, got));
    CHECK(same);
}

}  // namespace gallipot::tests
