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

namespace gallipot::command {
namespace {

Exit list(bool as_json, World& world) {
    const DataFolders data = find_data();
    const std::string list_path = (data.fonts / "fonts.yaml").string();
    const fonts::About about = fonts::about(list_path);
    const fonts::Faces faces =
        fonts::find(list_path, world.environment("GALLIPOT_FONTS").value_or(""));
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
        world.out << Json{{"fonts", std::move(all)}}.dump(2) << '\n';
        return Exit::done;
    }
    diag::Diagnostics ours;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(data, world, ours);
    const auto say = [&](const char* key) { return words(std::string("terminal.list.") + key); };
    Table table({{say("face")}, {say("scripts")}, {say("where"), false, true}, {say("licence")}});
    for (const auto& [face, path] : files)
        table.row(
            {say(face), fmt::format("{}", fmt::join(about.scripts, ", ")), path, about.licence});
    world.out << table.text(terminal_of_results(world), words.language());
    return Exit::done;
}

}  // namespace

void add_fonts(CLI::App& app, Task& task, World& world) {
    auto* command = app.add_subcommand("fonts", "The faces that papers are set in");
    auto as_json = std::make_shared<bool>(false);
    command->add_flag("--json", *as_json, "As JSON, for programs");
    command->callback(
        [&task, &world, as_json] { task = [&world, as_json] { return list(*as_json, world); }; });
}

}  // namespace gallipot::command
