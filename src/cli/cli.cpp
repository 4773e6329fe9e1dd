#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <fmt/format.h>
#include <ostream>

#include "base/diag/diagnostic.hpp"
#include "base/diag/utf8.hpp"
#include "base/system/error.hpp"
#include "base/system/guard.hpp"
#include "cli/command.hpp"
#include "cli/complete.hpp"
#include "cli/help.hpp"
#include "cli/help_pages.hpp"
#include "cli/manual.hpp"
#include "cli/terminal.hpp"
#include "commit.hpp"
#include "papers/fonts/fonts.hpp"

namespace gallipot::cli {
namespace {

constexpr const char* about =
    "From one job file: mixing cards, labels, sheets and a visit log for baits mixed at home.\n"
    "It computes and prints; whether a home-made bait is lawful where you live, ask there.";

/// "gallipot 0.2.0 (1f2e3d4c5)", the commit where it was built in a checkout.
std::string version() {
    std::string text = "gallipot " GALLIPOT_VERSION;
    if (*commit != '\0') text += std::string(" (") + commit + ')';
    return text;
}

ExitCode perform(const Command& chosen, Environment& environment) {
    try {
        const ExitCode exit = chosen();
        environment.out.flush();
        if (!environment.out)
            throw system::SystemError(
                "cannot write to standard output (closed, or the disk is full?); files and visits "
                "are written all the same, what should have been printed is not");
        return exit;
    } catch (const system::UsageError& error) {
        complain(environment) << diag::printable(error.what()) << '\n';
        return ExitCode::wrong_usage;
    } catch (const fonts::FontError& error) {  // may quote the list of fonts
        complain(environment) << diag::printable_lines(error.what()) << '\n';
        return ExitCode::system_failed;
    } catch (const system::Error& error) {
        complain(environment) << diag::printable(error.what()) << '\n';
        return ExitCode::system_failed;
    } catch (const std::bad_alloc&) {
        complain(environment) << "out of memory; close other programs or split the job\n";
        return ExitCode::system_failed;
    } catch (const std::exception& error) {
        complain(environment) << "a fault of ours: " << diag::printable_lines(error.what())
                              << "\nPlease report it with the job file that led to it.\n";
        return ExitCode::system_failed;
    }
}

/// What to say of a first word that is no command; empty where it is one, or an option.
std::string not_a_command(const CLI::App& app, const std::string& word) {
    if (word.starts_with('-')) return {};
    std::vector<std::string> names;
    for (const CLI::App* command : commands(app)) names.push_back(command->get_name());
    if (std::ranges::find(names, word) != names.end()) return {};
    const std::string shown = diag::quoted(word);
    if (word.ends_with(".yaml") || word.ends_with(".yml"))
        return fmt::format(
            "{} is a file; what is to be done with it? gallipot check {} looks for "
            "mistakes in it, gallipot --help lists all commands",
            shown, diag::for_shell(word));
    const std::string near = diag::nearest(word, names);
    return near.empty() ? fmt::format("no command {}; gallipot --help lists all commands", shown)
                        : fmt::format("no command {}; did you mean {}?", shown, diag::quoted(near));
}

/// What the library says of options, with a near spelling where there is one.
std::string what_is_wrong(const CLI::ParseError& wrong, const CLI::App& command) {
    std::string said = wrong.what();
    const auto begin = said.find(" --");
    const bool extras = wrong.get_exit_code() == static_cast<int>(CLI::ExitCodes::ExtrasError);
    if (!extras || begin == std::string::npos) return said;
    const std::string option = said.substr(begin + 1, said.find(' ', begin + 1) - begin - 1);
    std::vector<std::string> known;
    for (const CLI::Option* each : command.get_options())
        for (const std::string& name : each->get_lnames()) known.push_back("--" + name);
    const std::string name = option.substr(0, option.find('='));
    const std::string near = diag::nearest(name, known);
    return fmt::format("{} has no option {}{}", command.get_name(), name,
                       near.empty() ? "" : "; did you mean " + near + "?");
}

/// What the shells ask when Tab is pressed: an answer or none, never a message.
ExitCode offer(const CLI::App& app, int argc, const char* const* argv, Environment& environment) {
    try {
        environment.out << complete(app, {argv + 2, argv + argc});
    } catch (const std::exception&) {
        return ExitCode::bad_input;
    }
    return ExitCode::ok;
}

}  // namespace

void add_commands(CLI::App& app, Command& chosen, Environment& environment) {
    app.description(about);
    app.name("gallipot");
    app.set_version_flag("--version", version(), "Which gallipot this is");
    app.set_help_flag("-h,--help", "What there is, and how it is used");
    app.require_subcommand(1);
    add_new(app, chosen, environment);
    add_check(app, chosen, environment);
    add_plan(app, chosen, environment);
    add_render(app, chosen, environment);
    add_serve(app, chosen, environment);
    add_visit(app, chosen, environment);
    add_log(app, chosen, environment);
    add_report(app, chosen, environment);
    add_round(app, chosen, environment);
    add_explain(app, chosen, environment);
    add_pests(app, chosen, environment);
    add_substances(app, chosen, environment);
    add_stocks(app, chosen, environment);
    add_fonts(app, chosen, environment);
    add_languages(app, chosen, environment);
    add_schema(app, chosen, environment);
}

ExitCode run(int argc, const char* const* argv, Environment& environment) {
    system::forget_protected();
    CLI::App app;
    Command command;
    add_commands(app, command, environment);
    // What other programs ask for, not people: the shells on Tab, and the build.
    const std::string_view first = argc > 1 ? argv[1] : "";
    if (first == "__complete") return offer(app, argc, argv, environment);
    if (first == "__man") {
        environment.out << manual(app, GALLIPOT_VERSION, HelpPages(app::find_data()));
        return ExitCode::ok;
    }
    if (first == "__pages") {
        environment.out << reference_page(HelpPages(app::find_data()));
        return ExitCode::ok;
    }
    Help::give(app, terminal_of_results(environment).width);
    std::vector<std::string> said(argv, argv + argc);
    // `help` and `help CMD` ask for what --help shows.
    if (first == "help") {
        said.erase(said.begin() + 1);
        said.emplace_back("--help");
        if (said.size() > 2) said.resize(3);
    }
    if (said.size() < 2) {
        environment.err << app.help();
        return ExitCode::wrong_usage;
    }
    if (const std::string problem = not_a_command(app, said[1]); !problem.empty()) {
        complain(environment) << problem << '\n';
        return ExitCode::wrong_usage;
    }
    try {
        std::reverse(said.begin() + 1, said.end());  // as the library takes them
        app.parse(std::vector<std::string>(said.begin() + 1, said.end()));
    } catch (const CLI::Success& asked_for_help) {
        app.exit(asked_for_help, environment.out, environment.err);
        return ExitCode::ok;
    } catch (const CLI::ParseError& wrong) {
        const CLI::App* of = app.get_subcommands().empty() ? &app : app.get_subcommands()[0];
        complain(environment) << diag::printable(what_is_wrong(wrong, *of)) << "\nSee '"
                              << (of == &app ? "gallipot --help"
                                             : "gallipot help " + of->get_name())
                              << "'.\n";
        return ExitCode::wrong_usage;
    }
    return perform(command, environment);
}

}  // namespace gallipot::cli
