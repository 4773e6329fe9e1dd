#include "app/render.hpp"

#include <CLI/CLI.hpp>
#include <charconv>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "app/papers.hpp"
#include "app/session.hpp"
#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "cli/command.hpp"
#include "cli/day_option.hpp"
#include "cli/output.hpp"
#include "cli/progress.hpp"
#include "cli/tell.hpp"

namespace gallipot::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
    std::string job;
    std::string folder = "papers";
    std::string templates;
    std::string offset;
    std::optional<job::Date> on;
    app::PaperChoice choice;
};

/// "1.5,-2": millimetres to the right and down.
void read_offset(const std::string& text, app::PaperChoice& choice) {
    const auto comma = text.find(',');
    const auto number = [&](std::string_view part, double& value) {
        const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), value);
        return error == std::errc() && end == part.data() + part.size() && std::abs(value) <= 20;
    };
    const std::string_view all = text;
    if (comma == std::string::npos || !number(all.substr(0, comma), choice.offset_x_mm) ||
        !number(all.substr(comma + 1), choice.offset_y_mm))
        throw CLI::ValidationError("--offset",
                                   "give millimetres right and down, at most 20, as in "
                                   "--offset 1.5,-0.5");
}

ExitCode render(const Options& options, Environment& environment) {
    refuse_standard_output("-o", options.folder);
    app::Session session = app::open_session(options.job, app::find_data(options.templates),
                                             app::SecretPolicy::create, options.on);
    if (!session.good()) return tell(session, environment);
    if (!speaks(session, options.choice.languages, environment)) return ExitCode::wrong_usage;
    const app::Resources resources = resources_of(environment);
    const app::Papers papers = app::make_papers(session, resources, options.choice);
    const ExitCode exit = tell(session, environment);
    if (exit != ExitCode::ok) return exit;
    tell_of_new_secret(session, environment);
    Progress progress(environment.err, environment.terminals.errors, app::files_of(papers).size(),
                      "files");
    for (const auto& file :
         app::write_papers(papers, options.folder, resources, [&] { progress.done_one(); }))
        environment.out << diag::printable(file.string()) << '\n';
    return exit;
}

}  // namespace

void add_render(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand("render", "The papers of a job as PDF files");
    auto options = std::make_shared<Options>();
    app::PaperChoice& choice = options->choice;
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_option("-o,--output", options->folder, "Folder for the PDF files")
        ->capture_default_str();
    command
        ->add_option("--only", choice.only,
                     "Only these papers; 'alignment' is a page to print on plain paper and\n"
                     "hold against a sheet of labels, to read --offset from")
        ->delimiter(',')
        ->check(CLI::IsMember(app::paper_names()));
    command->add_option("--language", choice.languages, "Only in these of the job's languages")
        ->delimiter(',');
    command->add_option("--stock", choice.stock, "Label stock instead of the job's");
    command->add_option("--start-at", choice.start_at, "First free label of a part-used sheet")
        ->check(CLI::Range(1, 1000))
        ->capture_default_str();
    command->add_option("--offset", options->offset,
                        "Shift labels by millimetres right,down for a printer that is off");
    command->add_option("--copies", choice.copies, "How many of each label")
        ->check(CLI::Range(1, 100))
        ->capture_default_str();
    command->add_option("--templates", options->templates,
                        "A folder of your own texts, stocks and designs");
    add_day_option(*command, options->on);
    command->callback([&chosen, &environment, options] {
        if (!options->offset.empty()) read_offset(options->offset, options->choice);
        chosen = [&environment, options] { return render(*options, environment); };
    });
}

}  // namespace gallipot::cli
