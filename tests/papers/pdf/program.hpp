#pragma once

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

/// Running the independent programs that read our files back.
namespace gallipot::tests {

struct Ran {
    int status = 0;
    std::string output;
};

enum class Errors { with_output, dropped };

/// Runs a command line of the shell.
inline Ran run(const std::string& command, Errors errors = Errors::with_output) {
    const std::string where = errors == Errors::with_output ? " 2>&1" : " 2>/dev/null";
    FILE* pipe = popen((command + where).c_str(), "r");
    if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
    Ran ran;
    std::array<char, 4096> buffer{};
    while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), pipe)) {
        ran.output.append(buffer.data(), got);
    }
    const int status = pclose(pipe);
    ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return ran;
}

/// A file of these bytes that goes away with the test; its path may stand in a command line.
class TemporaryFile {
  public:
    TemporaryFile(const std::string& bytes, const std::string& ending) {
        static int count = 0;
        path_ =
            std::filesystem::temp_directory_path() /
            ("gallipot-test-" + std::to_string(getpid()) + "-" + std::to_string(++count) + ending);
        std::ofstream(path_, std::ios::binary) << bytes;
    }
    ~TemporaryFile() {
        std::error_code ignored;
        std::filesystem::remove(path_, ignored);
    }
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;

    [[nodiscard]] std::string path() const { return "'" + path_.string() + "'"; }

  private:
    std::filesystem::path path_;
};

}  // namespace gallipot::tests
