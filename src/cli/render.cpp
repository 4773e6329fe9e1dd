#include "app/render.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "app/papers.hpp"
#include "app/session.hpp"
#include "app/station_choice.hpp"
#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "cli/command.hpp"
#include "cli/day_option.hpp"
#include "cli/output.hpp"
#include "cli/progress.hpp"
#include "cli/show.hpp"
#include "cli/tell.hpp"
#include "cli/terminal.hpp"

namespace gallipot::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
    std::string job;
    std::string folder = "papers";
    std::string templates;
    std::string offset;
    std::string ink = "full";
    std::string show;
    std::vector<std::string> stations;
    bool with_vessels = false;
    std::optional<job::Date> on;
    app::PaperChoice choice;
};

/// What `--stations` can be printed with.
void check_only(const Options& options) {
    if (options.stations.empty()) return;
    for (const std::string& paper : options.choice.only)
        if (paper != "labels" && paper != "cards")
            throw CLI::ValidationError(
                "--stations", fmt::format("prints labels and cards alone; '{}' is a sheet of the "
                                          "whole job: leave it out of --only",
                                          paper));
}

/// Puts the stations into what is to be made; false, and said why, where that cannot be.
bool choose(const Options& options, const plan::Plan& plan, app::PaperChoice& choice,
            Environment& environment) {
    if (options.stations.empty()) return true;
    auto chosen = app::choose_stations(plan, options.stations, options.with_vessels);
    if (choice.only.empty()) choice.only = {"labels", "cards"};
    const bool cards = std::ranges::find(choice.only, "cards") != choice.only.end();
    if (chosen.problems.empty() && chosen.labels.empty() && !cards)
        chosen.problems.emplace_back(
            "what is sprayed there has no label of its own; --with-vessels prints that of its "
            "sprayer");
    for (const std::string& problem : chosen.problems)
        complain(environment) << "--stations: " << problem << '\n';
    if (!chosen.problems.empty()) return false;
    choice.stations = std::move(chosen);
    return true;
}

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
    // What other labels, stations or languages than `check` tries lead to is told in full.
    const diag::Diagnostics opening = session.found;
    app::PaperChoice choice = options.choice;
    if (!choose(options, session.plan, choice, environment)) return ExitCode::wrong_usage;
    const app::Resources resources = resources_of(environment);
    const app::Papers papers = app::make_papers(session, resources, choice);
    const bool as_check = choice.stock.empty() && choice.languages.empty() && !choice.stations;
    const ExitCode exit = tell(session, as_check ? session.found : opening, environment);
    if (exit != ExitCode::ok) return exit;
    tell_of_new_secret(session, environment);
    if (!options.show.empty()) {
        environment.out << (options.show == "text" ? papers_as_text(papers)
                                                   : papers_as_boxes(papers));
        return exit;
    }
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
    auto* stations =
        command
            ->add_option("--stations", options->stations,
                         "Labels and cards of these stations alone, or of single containers as\n"
                         "in K1-2; amounts and codes are those of the whole job")
            ->delimiter(',')
            ->allow_extra_args(false);
    command
        ->add_flag("--with-vessels", options->with_vessels,
                   "With --stations: also the labels of mixing vessels, rests and jars")
        ->needs(stations);
    command->add_option("--language", choice.languages, "Only in these of the job's languages")
        ->delimiter(',');
    command->add_option("--stock", choice.stock, "Label sheet instead of the job's");
    command->add_option("--start-at", choice.start_at, "First free label of a part-used sheet")
        ->check(CLI::Range(1, 1000))
        ->capture_default_str();
    command->add_option("--offset", options->offset,
                        "Shift labels by millimetres right,down for a printer that is off");
    command->add_option("--copies", choice.copies, "How many of each label")
        ->check(CLI::Range(1, 100))
        ->capture_default_str();
    command
        ->add_option("--ink", options->ink,
                     "How much ink: 'light' prints frames instead of black bands")
        ->check(CLI::IsMember({"full", "light"}))
        ->capture_default_str();
    command
        ->add_option("--show", options->show,
                     "Print what the pages hold instead of writing files: 'text', or 'boxes' with "
                     "the place of each text, line and box in millimetres")
        ->check(CLI::IsMember({"text", "boxes"}));
    command->add_option("--templates", options->templates,
                        "A folder of your own texts, label sheets and designs");
    add_day_option(*command, options->on);
    command->callback([&chosen, &environment, options] {
        options->choice.light_ink = options->ink == "light";
        if (!options->offset.empty()) read_offset(options->offset, options->choice);
        check_only(*options);
        chosen = [&environment, options] { return render(*options, environment); };
    });
}

}  // namespace gallipot::cli
