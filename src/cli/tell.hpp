#pragma once

#include <string>
#include <vector>

#include "app/resources.hpp"
#include "app/session.hpp"
#include "cli/command.hpp"

/// What a command says of a session on standard error.
namespace gallipot::cli {

/// Says that a secret was made and, where there is a log already, what that means for its labels.
void tell_of_new_secret(const app::Session& session, Environment& environment);

/// Whether the job has all these languages; says which it lacks.
bool speaks(const app::Session& session, const std::vector<std::string>& wanted,
            Environment& environment);

/// Prints all that was found and not accepted, as `check` does; the exit code that follows from it.
ExitCode tell_all(app::Session& session, Environment& environment);

/// The same for all other commands: errors in full, and warnings that `check` gives too (`known`;
/// left out, all of them) only counted, by their codes, with the command that shows them. What
/// comes of this command's own options is told in full.
ExitCode tell(app::Session& session, Environment& environment);
ExitCode tell(app::Session& session, const diag::Diagnostics& known, Environment& environment);

/// GALLIPOT_FONTS and GALLIPOT_THREADS, else the system's fonts and as many threads as cores.
app::Resources resources_of(const Environment& environment);

}  // namespace gallipot::cli
