#pragma once

#include <string>

#include "app/round.hpp"

namespace gallipot::cli {

/// The round for programs.
std::string round_json(const app::NextRound& round, const app::Session& session,
                       const app::Evidence& evidence, const text::Catalog& words);

}  // namespace gallipot::cli
