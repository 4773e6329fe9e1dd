#include <CLI/CLI.hpp>
#include <exception>
#include <ostream>

#include "base/diag/utf8.hpp"
#include "base/system/error.hpp"
#include "base/system/guard.hpp"
#include "cli/command.hpp"
#include "cli/help.hpp"
#include "cli/terminal.hpp"
#include "papers/fonts/fonts.hpp"

namespace gallipot::command {
namespace {

constexpr const char* about =
    "From one job file: mixing cards, labels, sheets and a visit log for baits mixed at home.\n"
    "It computes and prints; whether a home-made bait is lawful where you live, ask there.";

Exit perform(const Task& task, World& world) {
    try {
        const Exit exit = task();
        world.out.flush();
        if (!world.out)
            throw system::SystemError(
                "cannot write to standard output (closed, or the disk is full?); files and visits "
                "are written all the same, what should have been printed is not");
        return exit;
    } catch (const system::UsageError& error) {
        complain(world) << diag::printable(error.what()) << '\n';
        return Exit::wrong_usage;
    } catch (const fonts::FontError& error) {  // may quote the list of fonts
        complain(world) << diag::printable_lines(error.what()) << '\n';
        return Exit::system_failed;
    } catch (const system::Error& error) {
        complain(world) << diag::printable(error.what()) << '\n';
        return Exit::system_failed;
    } catch (const std::bad_alloc&) {
        complain(world) << "out of memory; close other programs or split the job\n";
        return Exit::system_failed;
    } catch (const std::exception& error) {
        complain(world) << "a fault of ours: " << diag::printable_lines(error.what())
                        << "\nPlease report it with the job file that led to it.\n";
        return Exit::system_failed;
    }
}

}  // namespace

void add_commands(CLI::App& app, Task& task, World& world) {
    app.description(about);
    app.name("gallipot");
    app.set_version_flag("--version", std::string("gallipot ") + GALLIPOT_VERSION,
                         "Which gallipot this is");
    app.set_help_flag("-h,--help", "What there is, and how it is used");
    app.require_subcommand(1);
    add_new(app, task, world);
    add_check(app, task, world);
    add_plan(app, task, world);
    add_render(app, task, world);
    add_serve(app, task, world);
    add_visit(app, task, world);
    add_log(app, task, world);
    add_report(app, task, world);
    add_explain(app, task, world);
    add_pests(app, task, world);
    add_substances(app, task, world);
    add_stocks(app, task, world);
    add_fonts(app, task, world);
    add_languages(app, task, world);
    add_schema(app, task, world);
}

Exit run(int argc, const char* const* argv, World& world) {
    system::forget_protected();
    CLI::App app;
    Task task;
    add_commands(app, task, world);
    Help::give(app, terminal_of_results(world).width);
    try {
        app.parse(argc, argv);
    } catch (const CLI::Success& asked_for_help) {
        app.exit(asked_for_help, world.out, world.err);
        return Exit::done;
    } catch (const CLI::ParseError& wrong) {
        complain(world) << diag::printable(wrong.what())
                        << "\nSee 'gallipot --help' or 'gallipot COMMAND --help'.\n";
        return Exit::wrong_usage;
    }
    return perform(task, world);
}

}  // namespace gallipot::command
