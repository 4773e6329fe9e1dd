#include <CLI/CLI.hpp>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/label_papers.hpp"
#include "cli/person.hpp"
#include "cli/plan_json.hpp"
#include "cli/plan_text.hpp"
#include "cli/session.hpp"

namespace gallipot::command {

void add_plan(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string job;
        bool json = false;
    };
    auto* command =
        app.add_subcommand("plan", "The computed amounts, contents, dates and costs of a job");
    auto options = std::make_shared<Options>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_flag("--json", options->json, "As JSON, SI units, for programs");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            Session session = open_session(options->job, find_data(), SecretPolicy::create);
            const ExitCode exit = tell(session, environment);
            if (exit != ExitCode::ok) return exit;
            if (!options->json) {
                const text::Catalog& words = words_for_person(session, environment);
                if (!session.good()) return tell(session, environment);
                environment.out << plan_text(*session.job, session.plan, words,
                                             terminal_of_results(environment));
                return exit;
            }
            std::vector<std::string> warnings;
            for (const auto& found : session.found.in_order()) warnings.push_back(found.message);
            const auto labels = label_reports(session, find_faces(session, environment));
            write_plan_json(environment.out, *session.job, session.who, session.plan, labels,
                            warnings);
            return exit;
        };
    });
}

}  // namespace gallipot::command
