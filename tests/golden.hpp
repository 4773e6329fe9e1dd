#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

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

inline void check_golden(const std::string& name, const std::string& got) {
    const auto path = std::filesystem::path(GALLIPOT_SOURCE_DIR) / "tests/golden" / name;
    if (std::getenv("GALLIPOT_UPDATE_GOLDEN") != nullptr) {
        std::filesystem::create_directories(path.parent_path());
        std::ofstream(path, std::ios::binary) << got;
    }
    INFO("golden text " << path);
    REQUIRE(std::filesystem::exists(path));
    CHECK(got == slurp(path));
}

}  // namespace gallipot::tests
