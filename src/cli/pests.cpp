#include "domain/reference/pests.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "base/diag/diagnostic.hpp"
#include "cli/person.hpp"
#include "cli/pest_words.hpp"

namespace gallipot::cli {
namespace {

using reference::Pest;

std::vector<std::string> all_names() {
    std::vector<std::string> names;
    for (const Pest& pest : reference::pests())
        for (const std::string_view name : reference::names_of(pest)) names.emplace_back(name);
    return names;
}

ExitCode list(const std::string& name, bool as_json, Environment& environment) {
    const Pest* one = name.empty() ? nullptr : reference::find_pest(name);
    if (!name.empty() && one == nullptr) {
        const std::string near = diag::nearest(name, all_names());
        complain(environment) << fmt::format(
            "no pest is called '{}'; {}\n", name,
            near.empty() ? std::string("see gallipot pests for those that are known")
                         : fmt::format("did you mean '{}'?", near));
        return ExitCode::wrong_usage;
    }
    diag::Diagnostics ours;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(app::find_data(), environment, ours);
    if (as_json) {
        Json all = Json::array();
        for (const Pest& pest : reference::pests())
            if (one == nullptr || one == &pest) all.push_back(pest_json(pest, words));
        environment.out << Json{{"pests", std::move(all)}}.dump(2) << '\n';
        return ExitCode::ok;
    }
    const Terminal terminal = terminal_of_results(environment);
    environment.out << (one != nullptr ? pest_in_words(*one, words, terminal)
                                       : pests_in_words(words, terminal));
    return ExitCode::ok;
}

}  // namespace

void add_pests(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string name;
        bool json = false;
    };
    auto* command = app.add_subcommand(
        "pests", "What a home-made bait or treatment can do against each pest, with sources");
    auto options = std::make_shared<Options>();
    command->add_option("NAME", options->name, "One of them in detail; left out, all");
    command->add_flag("--json", options->json, "As JSON, for programs");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            return list(options->name, options->json, environment);
        };
    });
}

}  // namespace gallipot::cli
