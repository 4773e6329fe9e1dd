#include <cstdlib>
#include <iostream>
#include <sys/ioctl.h>
#include <unistd.h>

#include "command/command.hpp"
#include "system/process.hpp"

namespace {

gallipot::command::Terminals terminals() {
    gallipot::command::Terminals found{::isatty(STDOUT_FILENO) == 1, ::isatty(STDERR_FILENO) == 1,
                                       0};
    winsize window{};
    if (found.results && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &window) == 0)
        found.columns = window.ws_col;
    return found;
}

}  // namespace

int main(int argc, char** argv) {
    gallipot::system::prepare_process();
    gallipot::command::World world{std::cout, std::cerr,
                                   [](const char* name) -> std::optional<std::string> {
                                       const char* value = std::getenv(name);
                                       if (value == nullptr) return std::nullopt;
                                       return value;
                                   },
                                   terminals()};
    return static_cast<int>(gallipot::command::run(argc, argv, world));
}
