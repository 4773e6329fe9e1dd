#pragma once

#include <string>

#include "app/session.hpp"
#include "base/diag/text.hpp"
#include "cli/command.hpp"

/// Messages about a job in the language of the person before the terminal.
namespace gallipot::cli {

/// From templates/messages/LANGUAGE.yaml by the locale (person.hpp), the user's own folder before
/// ours. What a file lacks, and every message where there is none, stays English.
diag::Translator translator(const app::DataFolders& data, const Environment& environment);

/// What was found, with its "error" and "warning" painted where somebody looks at them.
std::string print(const diag::Diagnostics& found, const app::DataFolders& data,
                  const Environment& environment);

}  // namespace gallipot::cli
