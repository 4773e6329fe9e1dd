#include <CLI/CLI.hpp>
#include <memory>
#include <ostream>

#include "app/label_papers.hpp"
#include "app/session.hpp"
#include "cli/command.hpp"
#include "cli/day_option.hpp"
#include "cli/person.hpp"
#include "cli/plan_json.hpp"
#include "cli/plan_text.hpp"
#include "cli/tell.hpp"

namespace gallipot::cli {

void add_plan(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string job;
        bool json = false;
        std::optional<job::Date> on;
    };
    auto* command =
        app.add_subcommand("plan", "The computed amounts, contents, dates and costs of a job");
    auto options = std::make_shared<Options>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_flag("--json", options->json, "As JSON, SI units, for programs");
    add_day_option(*command, options->on);
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            app::Session session = app::open_session(options->job, app::find_data(),
                                                     app::SecretPolicy::create, options->on);
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
            for (const auto& found : session.found.in_order())
                warnings.push_back(found.message.english());
            const auto labels =
                app::label_reports(session, app::find_faces(session, resources_of(environment)));
            write_plan_json(environment.out, *session.job, session.who, session.plan, labels,
                            warnings);
            return exit;
        };
    });
}

}  // namespace gallipot::cli
