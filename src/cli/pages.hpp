#pragma once

#include <CLI/CLI.hpp>
#include <string>

/// What is made from the commands' own definitions and installed beside the program.
namespace gallipot::command {

/// The manual page, gallipot(1), for man.
std::string manual(const CLI::App& app, const std::string& version);

// What Tab offers: commands, options, words to choose from, files of the right kind, and the ids of
// the stations in the job that was typed.
std::string bash_completion(const CLI::App& app);
std::string zsh_completion(const CLI::App& app);
std::string fish_completion(const CLI::App& app);

}  // namespace gallipot::command
