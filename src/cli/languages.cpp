#include <CLI/CLI.hpp>
#include <memory>
#include <ostream>

#include "cli/figure.hpp"
#include "cli/messages.hpp"
#include "cli/person.hpp"
#include "cli/table.hpp"

namespace gallipot::cli {
namespace {

struct Language {
    std::string tag, name;
    bool checked = false;    ///< by a native reader
    std::size_t faults = 0;  ///< texts that are missing, or ask for something else than English
};

std::vector<Language> all_languages(const app::DataFolders& data, diag::Diagnostics& found) {
    const text::Catalog english(app::text_folders(data), "en", "", found);
    std::vector<Language> all;
    for (const std::string& tag : app::languages_there(data)) {
        const text::Catalog words(app::text_folders(data), tag, "", found);
        diag::Diagnostics faults;
        text::compare(english, words, faults);
        all.push_back({tag, words.has("web.language") ? words("web.language") : tag,
                       words.has("translation.checked") && words("translation.checked") == "yes",
                       faults.errors()});
    }
    return all;
}

ExitCode list(const std::string& own_templates, bool as_json, Environment& environment) {
    const app::DataFolders data = app::find_data(own_templates);
    diag::Diagnostics found;
    const auto languages = all_languages(data, found);
    const text::Catalog words = words_for_person(data, environment, found);
    environment.err << print(found, data, environment);
    if (found.has_errors()) return ExitCode::bad_input;
    if (as_json) {
        Json all = Json::array();
        for (const Language& each : languages)
            all.push_back({{"tag", each.tag},
                           {"name", each.name},
                           {"complete", each.faults == 0},
                           {"checked", each.checked},
                           {"faults", each.faults}});
        environment.out << Json{{"languages", std::move(all)}}.dump(2) << '\n';
        return ExitCode::ok;
    }
    const auto say = [&](const char* key) { return words(std::string("terminal.list.") + key); };
    Table table(
        {{say("tag"), false, true}, {say("language")}, {say("complete")}, {say("checked")}});
    for (const Language& each : languages)
        table.row({each.tag, each.name,
                   each.faults == 0 ? say("complete_yes")
                                    : words("terminal.list.lacks",
                                            {{"n", static_cast<std::int64_t>(each.faults)}}),
                   say(each.checked ? "checked_yes" : "checked_no")});
    environment.out << table.text(terminal_of_results(environment), words.language());
    return ExitCode::ok;
}

}  // namespace

void add_languages(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string templates;
        bool json = false;
    };
    auto* command = app.add_subcommand("languages", "The languages that there are texts in");
    auto options = std::make_shared<Options>();
    command->add_flag("--json", options->json, "As JSON, for programs");
    command->add_option("--templates", options->templates, "Also those in a folder of your own");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            return list(options->templates, options->json, environment);
        };
    });
}

}  // namespace gallipot::cli
