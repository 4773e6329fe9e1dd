#pragma once

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <string>
#include <vector>

#include "cli/values.hpp"

/// What the three shells' completions are made from.
namespace gallipot::command {

/// The spellings of an option: "-o" and "--output". None for a positional argument.
inline std::vector<std::string> spellings(const CLI::Option& option) {
    std::vector<std::string> all;
    if (option.get_positional()) return all;
    for (const std::string& name : option.get_snames()) all.push_back(fmt::format("-{}", name));
    for (const std::string& name : option.get_lnames()) all.push_back(fmt::format("--{}", name));
    return all;
}

/// Whether several values may stand with commas between them.
inline bool takes_list(const CLI::Option& option) {
    return option.get_delimiter() == ',';
}

}  // namespace gallipot::command
