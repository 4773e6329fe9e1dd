#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace gallipot::cli {

/// What may stand at the end of a command line, for the shells' completion (src/cli/completions
/// holds one small file a shell, which calls `gallipot __complete WORD...`). `words`: what was
/// typed after "gallipot", the last of them not finished and maybe empty; `--stock=a4` as one word
/// or as bash hands it over, as three. The answer's first line says what follows: "words", then a
/// word a line, with what it is after a tab; or "files", "folders", "yaml", "csv" and nothing more:
/// the shell looks for those itself.
std::string complete(const CLI::App& app, std::vector<std::string> words);

}  // namespace gallipot::cli
