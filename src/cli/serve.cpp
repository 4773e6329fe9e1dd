#include <CLI/CLI.hpp>
#include <memory>

#include "base/system/process.hpp"
#include "cli/command.hpp"
#include "cli/session.hpp"

namespace gallipot::command {
namespace {

/// The server and the libraries that it alone needs are a program of their own, since to load them
/// takes a third of the time in which every other command starts.
[[noreturn]] void hand_over(const ServeOptions& options) {
    std::vector<std::string> arguments{"gallipot", "serve"};
    if (!options.listen.empty()) arguments.push_back("--listen=" + options.listen);
    if (!options.templates.empty()) arguments.push_back("--templates=" + options.templates);
    arguments.insert(arguments.end(), {"--", options.job});
    system::become(installed_in() / "libexec" / "gallipot" / "serve", arguments);
}

}  // namespace

void add_serve(CLI::App& app, Task& task, World& world) {
    auto* command = app.add_subcommand("serve", "The visit log for phones, until it is stopped");
    auto options = std::make_shared<ServeOptions>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_option("--listen", options->listen,
                        "HOST:PORT; left out, this machine only, at the port of log.address");
    command->add_option("--templates", options->templates,
                        "A folder of your own texts, stocks and designs");
    command->callback([&task, &world, options] {
        task = [&world, options] {
            if (!world.serve) hand_over(*options);
            return world.serve(*options, world);
        };
    });
}

}  // namespace gallipot::command
