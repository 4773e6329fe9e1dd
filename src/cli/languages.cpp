#include <CLI/CLI.hpp>
#include <fmt/chrono.h>
#include <memory>
#include <optional>
#include <ostream>

#include "app/visit_log.hpp"
#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "cli/figure.hpp"
#include "cli/messages.hpp"
#include "cli/output.hpp"
#include "cli/person.hpp"
#include "cli/table.hpp"
#include "papers/text/tags.hpp"
#include "papers/text/translation.hpp"

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

struct Options {
    std::string templates;
    bool json = false;
    std::string to_translate;  ///< a language
    std::string translated;    ///< a PO file
    std::string output;        ///< of those two; empty: standard output
};

/// To the file, or to standard output.
void put(const std::string& bytes, const Options& options, Environment& environment) {
    if (options.output.empty() || is_standard_output(options.output)) {
        environment.out << bytes;
        return;
    }
    refuse_name_beside_job(options.output);
    system::check_output_name(options.output);
    system::FileSet file;
    file.add(options.output, bytes);
    file.put_in_place();
    environment.out << diag::printable(options.output) << '\n';
}

ExitCode write_po(const Options& options, Environment& environment) {
    const std::string& language = options.to_translate;
    if (!text::is_catalog_name(language)) {
        complain(environment) << "--po " << diag::printable(language)
                              << ": give a language's code, like es or zh-Hans\n";
        return ExitCode::wrong_usage;
    }
    const app::DataFolders data = app::find_data(options.templates);
    diag::Diagnostics found;
    const text::Catalog english(app::text_folders(data), "en", "", found);
    std::optional<text::Catalog> translated;
    if (app::languages_there(data).contains(language))
        translated.emplace(app::text_folders(data), language, "", found);
    environment.err << print(found, data, environment);
    if (found.has_errors()) return ExitCode::bad_input;
    const auto minute = std::chrono::floor<std::chrono::minutes>(app::now());
    put(text::print_po(text::to_translate(english, translated ? &*translated : nullptr, language),
                       "gallipot " GALLIPOT_VERSION, fmt::format("{:%Y-%m-%d %H:%M}+0000", minute)),
        options, environment);
    return ExitCode::ok;
}

ExitCode read_po(const Options& options, Environment& environment) {
    const app::DataFolders data = app::find_data(options.templates);
    diag::Diagnostics found;
    const text::Catalog english(app::text_folders(data), "en", "", found);
    constexpr std::size_t maximum = 16u << 20;
    const auto source = std::make_shared<const diag::Source>(
        diag::Source{options.translated, system::read_named_file(options.translated, maximum)});
    const text::PoFile file = text::read_po(source, found);
    if (!file.language.empty() && !text::is_catalog_name(file.language))
        found.error("po-header", {source, 0, 0, 1},
                    diag::say("'{}' is no language's code", diag::printable(file.language)),
                    "write one like es or zh-Hans into the line Language of the header");
    std::optional<text::Translation> made;
    if (text::is_catalog_name(file.language)) made = text::from_translator(english, file, found);
    environment.err << print(found, data, environment);
    if (!made || found.has_errors()) {
        complain(environment) << "nothing was written; mend the file and import it again\n";
        return ExitCode::bad_input;
    }
    if (made->missing > 0)
        warn(environment) << made->missing
                          << " texts are not translated yet; a language is used once it has all\n";
    put(made->yaml, options, environment);
    return ExitCode::ok;
}

}  // namespace

void add_languages(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand("languages", "The languages that there are texts in");
    auto options = std::make_shared<Options>();
    auto* json = command->add_flag("--json", options->json, "As JSON, for programs");
    auto* po = command->add_option(
        "--po", options->to_translate,
        "Write all texts as a PO file for translators, with what this language has for them");
    auto* translated = command->add_option("--import", options->translated,
                                           "Make the language's file of such a PO file");
    auto* output = command->add_option("-o,--output", options->output,
                                       "The file to write, instead of standard output");
    for (auto* one : {json, po, translated})
        for (auto* other : {json, po, translated})
            if (one != other) one->excludes(other);
    output->excludes(json);
    command->add_option("--templates", options->templates, "Also those in a folder of your own");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            if (!options->to_translate.empty()) return write_po(*options, environment);
            if (!options->translated.empty()) return read_po(*options, environment);
            if (!options->output.empty())
                throw system::UsageError(
                    "-o goes with --po or --import; the list goes to standard output");
            return list(options->templates, options->json, environment);
        };
    });
}

}  // namespace gallipot::cli
