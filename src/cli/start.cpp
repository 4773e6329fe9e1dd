#include <cstdlib>
#include <iostream>
#include <sys/ioctl.h>
#include <unistd.h>

#include "base/system/process.hpp"
#include "cli/command.hpp"

namespace gallipot::cli {
namespace {

Terminals terminals() {
    Terminals found{::isatty(STDOUT_FILENO) == 1, ::isatty(STDERR_FILENO) == 1, 0};
    winsize window{};
    if (found.results && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &window) == 0)
        found.columns = window.ws_col;
    return found;
}

}  // namespace

int start(int argc, const char* const* argv) {
    system::prepare_process();
    Environment environment{std::cout, std::cerr,
                            [](const char* name) -> std::optional<std::string> {
                                const char* value = std::getenv(name);
                                if (value == nullptr) return std::nullopt;
                                return value;
                            },
                            terminals()};
    return static_cast<int>(run(argc, argv, environment));
}

}  // namespace gallipot::cli
