#include "cli/pages.hpp"

#include <exception>
#include <iostream>

#include "base/system/files.hpp"
#include "cli/command.hpp"

/// Writes the manual page and the completions below a folder, as a system keeps them below share/.
/// Run by the build; not installed.
int main(int argc, char** argv) {
    using namespace gallipot;
    if (argc != 2) {
        std::cerr << "usage: gallipot_pages FOLDER\n";
        return 2;
    }
    try {
        command::Environment environment{
            std::cout, std::cerr, [](const char*) { return std::optional<std::string>(); }, {}};
        command::Command command;
        CLI::App app;
        command::add_commands(app, command, environment);
        const std::filesystem::path share = argv[1];
        const auto write = [&](const std::filesystem::path& file, const std::string& text) {
            system::make_folder((share / file).parent_path());
            system::write_whole(share / file, text);
        };
        write("man/man1/gallipot.1", command::manual(app, GALLIPOT_VERSION));
        write("bash-completion/completions/gallipot", command::bash_completion(app));
        write("zsh/vendor-completions/_gallipot", command::zsh_completion(app));
        write("fish/vendor_completions.d/gallipot.fish", command::fish_completion(app));
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 3;
    }
    return 0;
}
