#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/papers.hpp"
#include "cli/person.hpp"
#include "cli/session.hpp"
#include "cli/terminal.hpp"
#include "domain/job/accept.hpp"
#include "papers/document/notices.hpp"

namespace gallipot::command {
namespace {

std::string law_text(const Session& session, const text::Catalog& words, const Terminal& terminal) {
    std::string out = words("terminal.check.law") + '\n';
    for (const auto& note : document::law_notes(*session.job))
        out += "  - " + words(note.key, {{"source", std::string(note.source)}}) + '\n';
    constexpr std::size_t after_dash = 2;
    return paragraphs(out, terminal, words.language(), after_dash);
}

/// What the job accepts, once, so that nobody forgets it.
std::string accepted_text(const Session& session, const text::Catalog& words,
                          const Terminal& terminal) {
    if (session.accepted.empty()) return {};
    std::string out = words("terminal.check.accepted") + '\n';
    for (const auto& each : session.accepted)
        out += fmt::format("  - {} [{}]\n", each.message, each.code);
    constexpr std::size_t after_dash = 2;
    return paragraphs(out, terminal, words.language(), after_dash);
}

}  // namespace

void add_check(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string job;
        std::string templates;
    };
    auto* command = app.add_subcommand("check", "Every error and warning of a job");
    auto options = std::make_shared<Options>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_option("--templates", options->templates,
                        "A folder of your own texts, stocks and designs");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            Session session =
                open_session(options->job, find_data(options->templates), SecretPolicy::only_read);
            if (session.good()) {
                safety::ask_to_confirm(session.who, session.job->help, *session.job->prepared,
                                       session.found);
                // What would not fit on paper is an error too, better told now than while printing.
                PaperChoice all;
                all.only_try = true;
                make_papers(session, environment, all);
            }
            if (session.job) {
                apply_accepted(session);
                job::check_accepted(*session.job, session.accepted, session.found);
            }
            const ExitCode exit = tell(session, environment);
            if (exit != ExitCode::ok) return exit;
            const text::Catalog& words = words_for_person(session, environment);
            environment.out << accepted_text(session, words, terminal_of_results(environment))
                            << law_text(session, words, terminal_of_results(environment))
                            << words("terminal.check.good",
                                     {{"command", "gallipot render " + for_shell(options->job)}})
                            << '\n';
            return exit;
        };
    });
}

}  // namespace gallipot::command
