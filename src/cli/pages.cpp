#include "cli/pages.hpp"

#include <exception>
#include <iostream>

#include "base/system/files.hpp"
#include "cli/command.hpp"

/// Writes the manual page below a folder, as a system keeps it below share/. Run by the build; not
/// installed.
int main(int argc, char** argv) {
    using namespace gallipot;
    if (argc != 2) {
        std::cerr << "usage: gallipot_pages FOLDER\n";
        return 2;
    }
    try {
        cli::Environment environment{
            std::cout, std::cerr, [](const char*) { return std::optional<std::string>(); }, {}};
        cli::Command command;
        CLI::App app;
        cli::add_commands(app, command, environment);
        const std::filesystem::path share = argv[1];
        const auto write = [&](const std::filesystem::path& file, const std::string& text) {
            system::make_folder((share / file).parent_path());
            system::write_whole(share / file, text);
        };
        write("man/man1/gallipot.1", cli::manual(app, GALLIPOT_VERSION));
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 3;
    }
    return 0;
}
