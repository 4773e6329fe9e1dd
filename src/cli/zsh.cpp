#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/completion.hpp"
#include "cli/help.hpp"
#include "cli/pages.hpp"

namespace gallipot::command {
namespace {

constexpr const char* head = R"sh(#compdef gallipot
# zsh completion for gallipot, made from the program's own options.

# What a list of the program's has in its first column.
_gallipot_list() {
  local -a all
  all=(${(f)"$(gallipot $1 2>/dev/null | awk 'NR > 1 { print $1 }')"})
  if [[ $2 == comma ]]; then _sequence compadd - $all; else compadd -a all; fi
}

# The ids of the stations in the job that was typed.
_gallipot_stations() {
  local -a all
  all=(${(f)"$(sed -nE 's/^.*[-{ ]id: *"?([A-Za-z0-9-]+).*$/\1/p' ${(Q)~${(M)words:#*.yaml}} 2>/dev/null)"})
  compadd -a all
}

)sh";

/// Inside single quotes, in a description or a message of _arguments.
std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\'') {
            out += "'\\''";
        } else if (c == '[' || c == ']' || c == ':' || c == '\\') {
            out += '\\';
            out += c;
        } else {
            out += c;
        }
    }
    return out;
}

std::string words(const Value& value) {
    std::string out;
    for (const std::string& word : value.words) {
        if (!out.empty()) out += ' ';
        for (const char c : word) {
            if (c == ' ') out += '\\';
            out += c;
        }
    }
    return out;
}

std::string action(const Value& value, bool list) {
    switch (value.offer) {
        case Offer::words:
            return list ? fmt::format("_values -s , {} {}", value.name, words(value))
                        : fmt::format("({})", words(value));
        case Offer::jobs:
            return "_files -g \"*.yaml\"";
        case Offer::csv_files:
            return "_files -g \"*.csv\"";
        case Offer::files:
            return "_files";
        case Offer::folders:
            return "_files -/";
        case Offer::stations:
            return " _gallipot_stations";
        case Offer::stocks:
            return " _gallipot_list stocks";
        case Offer::languages:
            return list ? " _gallipot_list languages comma" : " _gallipot_list languages";
        case Offer::nothing:
            break;
    }
    return " ";
}

std::string specs(const CLI::App& command) {
    std::string out;
    int position = 0;
    for (const CLI::Option* option : command.get_options()) {
        const Value* value = value_of(command, *option);
        const std::string takes =
            value == nullptr
                ? std::string()
                : fmt::format(":{}:{}", escaped(value->name), action(*value, takes_list(*option)));
        if (option->get_positional()) {
            out += fmt::format(" \\\n        '{}{}'", ++position, takes);
            continue;
        }
        const auto all = spellings(*option);
        for (const std::string& spelling : all)
            out += fmt::format(" \\\n        '({}){}{}[{}]{}'", fmt::join(all, " "), spelling,
                               value == nullptr             ? ""
                               : spelling.starts_with("--") ? "="
                                                            : "+",
                               escaped(description(command, *option)), takes);
    }
    return out;
}

}  // namespace

std::string zsh_completion(const CLI::App& app) {
    std::string out = head;
    out += "_gallipot() {\n  local state line\n  local -a all\n";
    out += "  _arguments -C" + specs(app) + " \\\n        '1: :->command' '*:: :->rest'\n";
    out += "  case $state in\n    command)\n      all=(\n";
    for (const CLI::App* command : commands(app))
        out += fmt::format("        '{}:{}'\n", command->get_name(),
                           escaped(command->get_description()));
    out += "      )\n      _describe command all ;;\n    rest)\n      case $words[1] in\n";
    for (const CLI::App* command : commands(app))
        out += fmt::format("        {}) _arguments{} ;;\n", command->get_name(), specs(*command));
    return out + "      esac ;;\n  esac\n}\n\n_gallipot \"$@\"\n";
}

}  // namespace gallipot::command
