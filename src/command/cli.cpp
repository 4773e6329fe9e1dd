#include <CLI/CLI.hpp>
#include <exception>
#include <ostream>

#include "command/command.hpp"
#include "fonts/fonts.hpp"
#include "system/files.hpp"

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
            throw system::SystemError{
                "cannot write to standard output (closed, or the disk is full?); files and visits "
                "are written all the same, what should have been printed is not"};
        return exit;
    } catch (const system::SystemError& error) {
        world.err << "gallipot: " << error.message << '\n';
        return Exit::system_failed;
    } catch (const fonts::FontError& error) {
        world.err << "gallipot: " << error.message << '\n';
        return Exit::system_failed;
    } catch (const std::bad_alloc&) {
        world.err << "gallipot: out of memory; close other programs or split the job\n";
        return Exit::system_failed;
    } catch (const std::exception& error) {
        world.err << "gallipot: a fault of ours: " << error.what()
                  << "\nPlease report it with the job file that led to it.\n";
        return Exit::system_failed;
    }
}

}  // namespace

Exit run(int argc, const char* const* argv, World& world) {
    CLI::App app{about, "gallipot"};
    app.set_version_flag("--version", std::string("gallipot ") + GALLIPOT_VERSION);
    app.require_subcommand(1);
    app.footer(
        "Exit codes: 0 done, 1 the job or the data has errors, 2 wrong usage,\n"
        "3 the system failed (disk full, no font).");
    Task task;
    add_new(app, task, world);
    add_check(app, task, world);
    add_plan(app, task, world);
    add_render(app, task, world);
    add_serve(app, task, world);
    add_visit(app, task, world);
    add_log(app, task, world);
    add_report(app, task, world);
    add_schema(app, task, world);
    try {
        app.parse(argc, argv);
    } catch (const CLI::Success& asked_for_help) {
        app.exit(asked_for_help, world.out, world.err);
        return Exit::done;
    } catch (const CLI::ParseError& wrong) {
        world.err << "gallipot: " << wrong.what()
                  << "\nSee 'gallipot --help' or 'gallipot COMMAND --help'.\n";
        return Exit::wrong_usage;
    }
    return perform(task, world);
}

}  // namespace gallipot::command
