#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <ostream>
#include <string>

namespace CLI {
class App;
}

/// The command line: one file a command, each adding itself to the parser. Only this layer prints,
/// reads the environment or writes files.
namespace gallipot::cli {

/// What the shell is told. README.md and --help promise these numbers.
enum class ExitCode { ok = 0, bad_input = 1, wrong_usage = 2, system_failed = 3 };

/// Which streams somebody looks at, and how wide the window is.
struct Terminals {
    bool results = false, errors = false;
    std::size_t columns = 0;  ///< 0: nobody knows
};

/// The world outside, passed in so that tests can stand in for it.
struct Environment {
    std::ostream& out;  ///< results
    std::ostream& err;  ///< errors and warnings
    std::function<std::optional<std::string>(const char*)> environment;
    Terminals terminals = {};
};

/// What the parsed command will do. Throws system::Error: exit 2 where it is a UsageError, else 3.
using Command = std::function<ExitCode()>;

void add_new(CLI::App& app, Command& chosen, Environment& environment);
void add_check(CLI::App& app, Command& chosen, Environment& environment);
void add_plan(CLI::App& app, Command& chosen, Environment& environment);
void add_render(CLI::App& app, Command& chosen, Environment& environment);
void add_serve(CLI::App& app, Command& chosen, Environment& environment);
void add_visit(CLI::App& app, Command& chosen, Environment& environment);
void add_log(CLI::App& app, Command& chosen, Environment& environment);
void add_report(CLI::App& app, Command& chosen, Environment& environment);
void add_round(CLI::App& app, Command& chosen, Environment& environment);
void add_explain(CLI::App& app, Command& chosen, Environment& environment);
void add_pests(CLI::App& app, Command& chosen, Environment& environment);
void add_substances(CLI::App& app, Command& chosen, Environment& environment);
void add_stocks(CLI::App& app, Command& chosen, Environment& environment);
void add_fonts(CLI::App& app, Command& chosen, Environment& environment);
void add_languages(CLI::App& app, Command& chosen, Environment& environment);
void add_schema(CLI::App& app, Command& chosen, Environment& environment);

/// Makes `app` the parser of the whole program.
void add_commands(CLI::App& app, Command& chosen, Environment& environment);

/// The whole program but for `main`.
ExitCode run(int argc, const char* const* argv, Environment& environment);

/// What `main` does: run() in the world as it is.
int start(int argc, const char* const* argv);

}  // namespace gallipot::cli
