#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "app/papers.hpp"
#include "app/report.hpp"
#include "app/session.hpp"
#include "base/diag/utf8.hpp"
#include "cli/command.hpp"
#include "cli/day_option.hpp"
#include "cli/messages.hpp"
#include "cli/person.hpp"
#include "cli/tell.hpp"
#include "cli/terminal.hpp"
#include "domain/job/accept.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/verdict_words.hpp"

namespace gallipot::cli {
namespace {

std::string law_text(const app::Session& session, const text::Catalog& words,
                     const Terminal& terminal) {
    std::string out = words("terminal.check.law") + '\n';
    for (const auto& note : document::law_notes(*session.job))
        out += "  - " + words(note.key, {{"source", std::string(note.source)}}) + '\n';
    constexpr std::size_t after_dash = 2;
    return paragraphs(out, terminal, words.language(), after_dash);
}

/// What the job accepts, once, so that nobody forgets it.
std::string accepted_text(const app::Session& session, const text::Catalog& words,
                          const Environment& environment) {
    if (session.accepted.empty()) return {};
    std::string out = words("terminal.check.accepted") + '\n';
    const diag::Translator language = translator(session.data, environment);
    for (const auto& each : session.accepted)
        out += fmt::format("  - {} [{}]\n", each.message.in(language), each.code);
    constexpr std::size_t after_dash = 2;
    return paragraphs(out, terminal_of_results(environment), words.language(), after_dash);
}

/// By which recipe the report and the phone go, where the log knows more than one.
std::string recipes_text(const app::Session& session, const text::Catalog& words,
                         const Terminal& terminal) {
    try {
        const auto evidence = app::read_evidence_if_any(session);
        if (!evidence) return {};
        const std::string sentence =
            document::recipes_sentence(*session.job, evidence->sites, words);
        return sentence.empty() ? sentence
                                : paragraphs(sentence + '\n', terminal, words.language());
    } catch (const system::SystemError&) {
        return {};  // that it cannot be read was said of the take-down sheet
    }
}

}  // namespace

void add_check(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string job;
        std::string templates;
        std::optional<job::Date> on;
    };
    auto* command = app.add_subcommand("check", "Every error and warning of a job");
    auto options = std::make_shared<Options>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_option("--templates", options->templates,
                        "A folder of your own texts, label sheets and designs");
    add_day_option(*command, options->on);
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            app::Session session =
                app::open_session(options->job, app::find_data(options->templates),
                                  app::SecretPolicy::only_read, options->on);
            if (session.good()) {
                app::check_other_days(session);
                safety::ask_to_confirm(session.who, session.job->help, *session.job->prepared,
                                       session.found);
                // What would not fit on paper is an error too, better told now than while printing.
                app::PaperChoice all;
                all.only_try = true;
                if (!session.job->stations.empty())
                    app::make_papers(session, resources_of(environment), all);
            }
            if (session.job) {
                app::apply_accepted(session);
                job::check_accepted(*session.job, session.accepted, session.found);
            }
            const ExitCode exit = tell_all(session, environment);
            if (exit != ExitCode::ok) return exit;
            const text::Catalog& words = words_for_person(session, environment);
            environment.out << accepted_text(session, words, environment)
                            << law_text(session, words, terminal_of_results(environment))
                            << recipes_text(session, words, terminal_of_results(environment))
                            << words("terminal.check.good",
                                     {{"command",
                                       "gallipot render " + diag::for_shell(options->job)}})
                            << '\n';
            return exit;
        };
    });
}

}  // namespace gallipot::cli
