#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "cli/command.hpp"
#include "cli/output.hpp"
#include "cli/person.hpp"
#include "cli/scenarios.hpp"
#include "cli/schema.hpp"
#include "cli/terminal.hpp"

namespace gallipot::cli {
namespace {

/// Small jobs among the templates; the first is taken where none is named.
constexpr std::array<const char*, 5> recipes{"starter", "syrup", "powder", "paste", "spray"};

std::string starter(const app::DataFolders& data, const std::string& from) {
    const bool recipe = std::ranges::find(recipes, from) != recipes.end();
    const auto file =
        recipe ? data.templates / "jobs" / (from + ".yaml") : data.examples / (from + ".yaml");
    return line_for_editors(data.templates) + system::read_file(file);
}

/// What to do with the new file, a command a line.
std::string next_steps(const std::string& file, const text::Catalog& words,
                       const Terminal& terminal) {
    std::string out = words("terminal.new.wrote", {{"file", diag::printable(file)}}) + '\n';
    const std::string name = diag::for_shell(file);
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
    static const std::vector<std::string> names = [] {
        std::vector<std::string> all(recipes.begin(), recipes.end());
        all.insert(all.end(), {"hall", "flat", "workshop"});
        return all;
    }();
    return names;
}

void add_new(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string file = "job.yaml";
        std::string from = recipes.front();
    };
    auto* command = app.add_subcommand("new", "Write a commented job file to start from");
    auto options = std::make_shared<Options>();
    command
        ->add_option("FILE", options->file,
                     "Where to write it, - for standard output; a file that is there is never "
                     "replaced")
        ->capture_default_str();
    command
        ->add_option(
            "--from", options->from,
            "Which job to start from. starter: a small workshop (ants, wood borers). A kitchen "
            "recipe: syrup (ants), powder (cockroaches), "
            "paste (cockroaches; peanut butter), spray (wood borers). A whole job: hall "
            "(ants, cockroaches, wood borers; codes for the log), flat (ants; two "
            "languages), workshop (wood borers, cockroaches; spray and powder)")
        ->capture_default_str()
        ->check(CLI::IsMember(scenarios()));
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            const app::DataFolders data = app::find_data();
            if (is_standard_output(options->file)) {
                environment.out << starter(data, options->from);
                return ExitCode::ok;
            }
            refuse_name_beside_job(options->file);
            system::check_output_name(options->file);
            if (!system::write_new(options->file, starter(data, options->from)))
                throw system::UsageError(diag::quoted(options->file) +
                                         " is there already; give another name");
            diag::Diagnostics found;  // our own texts, which the tests read
            const text::Catalog words = words_for_person(data, environment, found);
            environment.out << next_steps(options->file, words, terminal_of_results(environment));
            return ExitCode::ok;
        };
    });
}

}  // namespace gallipot::cli
