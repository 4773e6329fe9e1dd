#include "app/report.hpp"

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <ostream>

#include "app/papers.hpp"
#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "cli/command.hpp"
#include "cli/day_option.hpp"
#include "cli/output.hpp"
#include "cli/person.hpp"
#include "cli/report_json.hpp"
#include "cli/report_text.hpp"
#include "cli/tell.hpp"
#include "cli/terminal.hpp"
#include "cli/visit_log.hpp"
#include "papers/document/round_calendar.hpp"

namespace gallipot::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
    std::string job;
    std::string output;
    std::string as_of;
    std::string calendar;
    std::string templates;
    std::vector<std::string> languages;
    bool json = false;
    bool summary = false;
};

/// FILE for the first language, FILE-es for the others.
fs::path file_for(const fs::path& file, const std::string& language, bool first) {
    if (first) return file;
    fs::path other = file;
    other.replace_filename(file.stem().string() + "-" + language + file.extension().string());
    return other;
}

class Reporter {
  public:
    Reporter(const Options& options, Environment& environment)
        : options_(options),
          environment_(environment),
          session_(app::open_session(options.job, app::find_data(options.templates),
                                     app::SecretPolicy::only_read, read_day(options.as_of))) {}

    ExitCode run() {
        if (!session_.good()) return tell(session_, environment_);
        const diag::Diagnostics opening = session_.found;
        check_outputs();
        if (!speaks(session_, options_.languages, environment_)) return ExitCode::wrong_usage;
        const auto day = options_.as_of.empty()
                             ? analysis::day_of(app::zone_of(session_).local(app::now()))
                             : analysis::Day(std::chrono::local_days(*read_day(options_.as_of)));
        const app::Evidence evidence = app::read_evidence(session_, day);
        NamedUnreadable name(environment_);
        for (const auto& entry : evidence.unreadable) name(entry);

        std::vector<std::pair<fs::path, std::string>> files;
        const auto languages = wanted_languages();
        for (const auto& language : languages) {
            const bool first = language == languages.front();
            const text::Catalog& words = session_.words(language);
            if (session_.found.has_errors()) break;
            if (!options_.output.empty())
                files.emplace_back(file_for(options_.output, language, first),
                                   app::report_pdf(session_, evidence, words, faces()));
            if (first && !options_.calendar.empty()) {
                std::string rounds = document::rounds_calendar(*session_.job, evidence.report,
                                                               evidence.rounds, words);
                if (rounds.empty())
                    complain(environment_)
                        << "nothing is to be visited, so no calendar is written\n";
                else
                    files.emplace_back(options_.calendar, std::move(rounds));
            }
            if (first && options_.json)
                environment_.out << report_json(*session_.job, evidence.report, session_.plan,
                                                evidence.rounds, words);
        }
        if (!options_.json && options_.output.empty() && options_.calendar.empty()) {
            const text::Catalog& words = words_to_show();
            if (!session_.found.has_errors())
                environment_.out << report_text(app::plot_source(*session_.job, evidence, words),
                                                session_.plan, evidence.rounds,
                                                options_.summary ? Detail::summary : Detail::all,
                                                terminal_of_results(environment_));
        }
        const ExitCode exit = tell(session_, opening, environment_);
        if (exit != ExitCode::ok) return exit;
        write(files);
        return exit;
    }

  private:
    /// Told before anything is worked out.
    void check_outputs() const {
        int printed = options_.json ? 1 : 0;
        for (const std::string& output : {options_.output, options_.calendar}) {
            if (is_standard_output(output))
                ++printed;
            else if (!output.empty())
                system::check_output_name(output);
        }
        const bool pdf_printed = is_standard_output(options_.output);
        if (printed > 1)
            throw system::UsageError(
                "only one of -o -, --calendar - and --json can go to standard output; give a name "
                "for the others");
        if (pdf_printed && wanted_languages().size() > 1)
            throw system::UsageError(
                "-o -: a report in several languages is several files; choose one with --language");
    }

    /// The files, or what goes to standard output; then the names of the files alone.
    void write(const std::vector<std::pair<fs::path, std::string>>& files) {
        system::FileSet set;
        for (const auto& [path, bytes] : files)
            if (!is_standard_output(path.string())) set.add(path, bytes);
        set.put_in_place();
        for (const auto& [path, bytes] : files)
            if (is_standard_output(path.string())) environment_.out << bytes;
        const bool results_printed = options_.json || is_standard_output(options_.output) ||
                                     is_standard_output(options_.calendar);
        if (!results_printed)
            for (const auto& [path, bytes] : files)
                environment_.out << diag::printable(path.string()) << '\n';
    }

    [[nodiscard]] std::vector<std::string> wanted_languages() const {
        if (!options_.languages.empty()) return options_.languages;
        std::vector<std::string> all;
        for (const auto& language : session_.job->languages) all.push_back(*language);
        return all;
    }

    /// What stands in the terminal is for whoever looks, unless they say in which language.
    [[nodiscard]] const text::Catalog& words_to_show() {
        return options_.languages.empty() ? words_for_person(session_, environment_)
                                          : session_.words(options_.languages.front());
    }

    const fonts::Faces& faces() {
        if (!faces_.regular) faces_ = app::find_faces(session_, resources_of(environment_));
        return faces_;
    }

    const Options& options_;
    Environment& environment_;
    app::Session session_;
    fonts::Faces faces_;
};

}  // namespace

void add_report(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand("report", "How it is going, and what to do next");
    auto options = std::make_shared<Options>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_option("-o,--output", options->output,
                        "Write it as a PDF with plots, one for each of the job's languages; - for "
                        "standard output");
    command->add_option("--calendar", options->calendar,
                        "Write the next rounds as an iCalendar file; - for standard output");
    auto* json = command->add_flag("--json", options->json, "As JSON, for programs");
    command
        ->add_flag("--summary", options->summary,
                   "In the terminal: each pest, the stations by how they do, what to do first")
        ->excludes(json);
    command->add_option("--as-of", options->as_of, "How it stood at the end of a day, 2027-03-18");
    command->add_option("--language", options->languages, "In these of the job's languages")
        ->delimiter(',');
    command->add_option("--templates", options->templates, "A folder of your own texts");
    command->callback([&chosen, &environment, options] {
        if (!options->as_of.empty() && !read_day(options->as_of))
            throw CLI::ValidationError(
                "--as-of",
                "'" + options->as_of + "' is not a day; write year-month-day, like 2027-03-18");
        chosen = [&environment, options] { return Reporter(*options, environment).run(); };
    });
}

}  // namespace gallipot::cli
