#pragma once

#include "cli/command.hpp"

namespace gallipot::command {

/// Serves the visit log until a signal ends it.
Exit serve(const ServeOptions& options, World& world);

}  // namespace gallipot::command
