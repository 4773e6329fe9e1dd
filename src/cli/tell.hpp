#pragma once

#include <string>
#include <vector>

#include "app/resources.hpp"
#include "app/session.hpp"
#include "cli/command.hpp"

/// What a command says of a session on standard error.
namespace gallipot::cli {

/// Says that a secret was made, and what that means for labels printed before.
void tell_of_new_secret(const app::Session& session, Environment& environment);

/// Whether the job has all these languages; says which it lacks.
bool speaks(const app::Session& session, const std::vector<std::string>& wanted,
            Environment& environment);

/// Prints what was found and not accepted; the exit code that follows from it.
ExitCode tell(app::Session& session, Environment& environment);

/// GALLIPOT_FONTS and GALLIPOT_THREADS, else the system's fonts and as many threads as cores.
app::Resources resources_of(const Environment& environment);

}  // namespace gallipot::cli
