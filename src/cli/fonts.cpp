#include "papers/fonts/fonts.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <memory>
#include <ostream>

#include "cli/figure.hpp"
#include "cli/person.hpp"
#include "cli/table.hpp"
#include "papers/fonts/about.hpp"

namespace gallipot::cli {
namespace {

ExitCode list(bool as_json, Environment& environment) {
    const app::DataFolders data = app::find_data();
    const std::string list_path = (data.fonts / "fonts.yaml").string();
    const fonts::About about = fonts::about(list_path);
    const fonts::Faces faces =
        fonts::find(list_path, environment.environment("GALLIPOT_FONTS").value_or(""));
    const std::vector<std::pair<const char*, std::string>> files{{"regular", faces.regular->path()},
                                                                 {"bold", faces.bold->path()}};
    if (as_json) {
        Json all = Json::array();
        for (const auto& [face, path] : files)
            all.push_back({{"face", face},
                           {"path", path},
                           {"scripts", about.scripts},
                           {"licence", about.licence},
                           {"package", about.package}});
        environment.out << Json{{"fonts", std::move(all)}}.dump(2) << '\n';
        return ExitCode::ok;
    }
    diag::Diagnostics ours;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(data, environment, ours);
    const auto say = [&](const char* key) { return words(std::string("terminal.list.") + key); };
    Table table({{say("face")}, {say("scripts")}, {say("where"), false, true}, {say("licence")}});
    for (const auto& [face, path] : files)
        table.row(
            {say(face), fmt::format("{}", fmt::join(about.scripts, ", ")), path, about.licence});
    environment.out << table.text(terminal_of_results(environment), words.language());
    return ExitCode::ok;
}

}  // namespace

void add_fonts(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand("fonts", "The faces that papers are set in");
    auto as_json = std::make_shared<bool>(false);
    command->add_flag("--json", *as_json, "As JSON, for programs");
    command->callback([&chosen, &environment, as_json] {
        chosen = [&environment, as_json] { return list(*as_json, environment); };
    });
}

}  // namespace gallipot::cli
