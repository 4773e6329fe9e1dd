#include "cli/schema.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>
#include <ostream>

#include "cli/command.hpp"
#include "cli/schema_json.hpp"
#include "tracking/keys/link.hpp"

namespace gallipot::cli {
namespace fs = std::filesystem;

std::string line_for_editors(const fs::path& templates) {
    const fs::path schema = fs::absolute(templates).parent_path() / "job.schema.json";
    std::error_code unknown;
    if (!fs::is_regular_file(schema, unknown)) return {};
    // As an address: editors read a path only up to a blank in it.
    std::string address = "file://";
    for (const fs::path& step : schema.relative_path())
        address += '/' + keys::percent_encoded(step.string());
    return "# yaml-language-server: $schema=" + address + '\n';
}

void add_schema(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand(
        "schema", "The job file's JSON Schema, for editors that check as you type");
    command->callback([&chosen, &environment] {
        chosen = [&environment] {
            environment.out << job_schema().dump(1) << '\n';
            return ExitCode::ok;
        };
    });
}

}  // namespace gallipot::cli
