#pragma once

#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>

#include "papers/text/catalog.hpp"

namespace gallipot::tests {

/// The catalogs as shipped.
inline std::string templates() {
    return std::string(GALLIPOT_SOURCE_DIR) + "/templates";
}

/// A templates folder of a test's own, gone when the test ends.
class TextFolder {
  public:
    TextFolder() {
        static int count = 0;
        path_ = std::filesystem::temp_directory_path() /
                ("gallipot-text-" + std::to_string(::getpid()) + "-" + std::to_string(++count));
        std::filesystem::create_directories(path_ / "text");
    }
    ~TextFolder() { std::filesystem::remove_all(path_); }
    TextFolder(const TextFolder&) = delete;
    TextFolder& operator=(const TextFolder&) = delete;

    void put(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / "text" / name, std::ios::binary) << text;
    }
    [[nodiscard]] std::string path() const { return path_.string(); }

  private:
    std::filesystem::path path_;
};

}  // namespace gallipot::tests
