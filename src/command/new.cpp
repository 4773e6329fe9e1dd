#include <CLI/CLI.hpp>
#include <memory>
#include <ostream>

#include "command/command.hpp"
#include "command/schema.hpp"
#include "command/session.hpp"
#include "system/files.hpp"

namespace gallipot::command {

void add_new(CLI::App& app, Task& task, World& world) {
    auto* command = app.add_subcommand("new", "Write a commented job file to start from");
    auto file = std::make_shared<std::string>("job.yaml");
    command->add_option("FILE", *file, "Where to write it; a file that is there is never replaced")
        ->capture_default_str();
    command->callback([&task, &world, file] {
        task = [&world, file] {
            const DataFolders data = find_data();
            const std::string starter = line_for_editors(data.templates) +
                                        system::read_file(data.templates / "jobs" / "starter.yaml");
            if (!system::write_new(*file, starter)) {
                world.err << "gallipot: '" << *file << "' is there already; give another name\n";
                return Exit::bad_input;
            }
            world.out << "Wrote " << *file << ". Next: edit it, then\n  gallipot check " << *file
                      << "\n  gallipot render " << *file << '\n';
            return Exit::done;
        };
    });
}

}  // namespace gallipot::command
