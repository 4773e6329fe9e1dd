#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "base/system/files.hpp"
#include "cli/command.hpp"
#include "cli/person.hpp"
#include "cli/scenarios.hpp"
#include "cli/schema.hpp"
#include "cli/terminal.hpp"

namespace gallipot::command {
namespace {

std::string starter(const DataFolders& data, const std::string& from) {
    const auto file =
        from.empty() ? data.templates / "jobs" / "starter.yaml" : data.examples / (from + ".yaml");
    return line_for_editors(data.templates) + system::read_file(file);
}

/// What to do with the new file, a command a line.
std::string next_steps(const std::string& file, const text::Catalog& words,
                       const Terminal& terminal) {
    std::string out = words("terminal.new.wrote", {{"file", file}}) + '\n';
    const std::string name = for_shell(file);
    const std::size_t width = display_width(name) + sizeof "gallipot render  -o papers";
    const auto step = [&](const std::string& command, const char* what) {
        const std::string fill(width - display_width(command), ' ');
        out += fmt::format("  {}{}  {}\n", command, fill, words(what));
    };
    step("gallipot check " + name, "terminal.new.check");
    step("gallipot plan " + name, "terminal.new.plan");
    step("gallipot render " + name + " -o papers", "terminal.new.render");
    return paragraphs(out, terminal, words.language(), 2);
}

}  // namespace

const std::vector<std::string>& scenarios() {
    static const std::vector<std::string> names{"hall", "flat", "workshop"};
    return names;
}

void add_new(CLI::App& app, Task& task, World& world) {
    struct Options {
        std::string file = "job.yaml";
        std::string from;
    };
    auto* command = app.add_subcommand("new", "Write a commented job file to start from");
    auto options = std::make_shared<Options>();
    command
        ->add_option("FILE", options->file,
                     "Where to write it; a file that is there is never replaced")
        ->capture_default_str();
    command
        ->add_option("--from", options->from,
                     "Start from this example instead: hall (ants, cockroaches, wood borers; "
                     "codes for the log), flat (ants; two languages), workshop (wood borers, "
                     "silverfish; spray and powder)")
        ->check(CLI::IsMember(scenarios()));
    command->callback([&task, &world, options] {
        task = [&world, options] {
            const DataFolders data = find_data();
            if (!system::write_new(options->file, starter(data, options->from))) {
                complain(world) << '\'' << options->file
                                << "' is there already; give another name\n";
                return Exit::bad_input;
            }
            diag::Diagnostics found;  // our own texts, which the tests read
            const text::Catalog words = words_for_person(data, world, found);
            world.out << next_steps(options->file, words, terminal_of_results(world));
            return Exit::done;
        };
    });
}

}  // namespace gallipot::command
