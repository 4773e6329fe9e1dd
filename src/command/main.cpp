#include <cstdlib>
#include <iostream>

#include "command/command.hpp"
#include "system/process.hpp"

int main(int argc, char** argv) {
    gallipot::system::prepare_process();
    gallipot::command::World world{std::cout, std::cerr,
                                   [](const char* name) -> std::optional<std::string> {
                                       const char* value = std::getenv(name);
                                       if (value == nullptr) return std::nullopt;
                                       return value;
                                   }};
    return static_cast<int>(gallipot::command::run(argc, argv, world));
}
