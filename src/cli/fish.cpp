#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/completion.hpp"
#include "cli/help.hpp"
#include "cli/pages.hpp"

namespace gallipot::command {
namespace {

constexpr const char* head =
    R"sh(# fish completion for gallipot, made from the program's own options.

# What a list of the program's has in its first column.
function __gallipot_list
    gallipot $argv[1] 2>/dev/null | awk 'NR > 1 { print $1 }'
end

# Folders, and files of that ending.
function __gallipot_files
    string match -re '(\.'$argv[1]'|/)(\t|$)' -- (__fish_complete_path (commandline -ct))
end

# The job that was typed.
function __gallipot_job
    string match -- '*.yaml' (commandline -opc)
end

# The ids of the stations in it.
function __gallipot_stations
    set -l job (__gallipot_job)
    and sed -nE 's/^.*[-{ ]id: *"?([A-Za-z0-9-]+).*$/\1/p' $job[1] 2>/dev/null
end

complete -c gallipot -f
)sh";

/// Inside single quotes.
std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\'' || c == '\\') out += '\\';
        out += c;
    }
    return out;
}

/// Words for -a: each on its own in a list for fish, blanks kept.
std::string words(const Value& value) {
    std::string out;
    for (const std::string& word : value.words) {
        if (!out.empty()) out += ' ';
        out += word.find(' ') == std::string::npos ? word : fmt::format("\"{}\"", word);
    }
    return out;
}

std::string offered(const Value& value, bool list) {
    const std::string append = list ? "__fish_append , " : "";
    switch (value.offer) {
        case Offer::words:
            return list ? fmt::format("({}{})", append, words(value)) : words(value);
        case Offer::jobs:
            return "(__gallipot_files yaml)";
        case Offer::csv_files:
            return "(__gallipot_files csv)";
        case Offer::folders:
            return "(__fish_complete_directories)";
        case Offer::stations:
            return "(__gallipot_stations)";
        case Offer::stocks:
            return "(__gallipot_list stocks)";
        case Offer::languages:
            return list ? fmt::format("({}(__gallipot_list languages))", append)
                        : "(__gallipot_list languages)";
        case Offer::files:
        case Offer::nothing:
            break;
    }
    return {};
}

/// Where the job stands first, what follows it comes only once it is typed.
std::string condition(const std::string& command, const Value& value, bool positional) {
    std::string out = "__fish_seen_subcommand_from " + command;
    if (!positional) return out;
    if (value.offer == Offer::jobs) out += "; and not __gallipot_job";
    if (value.offer == Offer::stations) out += "; and __gallipot_job";
    return out;
}

std::string line(const std::string& condition, const CLI::App& command, const CLI::Option& option) {
    const Value* value = value_of(command, option);
    std::string out = fmt::format("complete -c gallipot -n '{}'", condition);
    for (const std::string& name : option.get_snames()) out += fmt::format(" -s {}", name);
    for (const std::string& name : option.get_lnames()) out += fmt::format(" -l {}", name);
    if (value != nullptr) {
        const std::string offer = offered(*value, takes_list(option));
        if (value->offer == Offer::files) {
            out += " -r -F";
        } else {
            out += option.get_positional() ? "" : " -x";
            if (!offer.empty()) out += fmt::format(" -a '{}'", offer);
        }
    }
    if (!option.get_positional()) out += fmt::format(" -d '{}'", escaped(option.get_description()));
    return out + '\n';
}

}  // namespace

std::string fish_completion(const CLI::App& app) {
    std::string out = head;
    for (const CLI::Option* option : app.get_options())
        out += line("__fish_use_subcommand", app, *option);
    for (const CLI::App* command : commands(app)) {
        const std::string& name = command->get_name();
        out += fmt::format("complete -c gallipot -n __fish_use_subcommand -a {} -d '{}'\n", name,
                           escaped(command->get_description()));
        for (const CLI::Option* option : command->get_options()) {
            const Value* value = value_of(*command, *option);
            out += line(value == nullptr ? "__fish_seen_subcommand_from " + name
                                         : condition(name, *value, option->get_positional()),
                        *command, *option);
        }
    }
    return out;
}

}  // namespace gallipot::command
