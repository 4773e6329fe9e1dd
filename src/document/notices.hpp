#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "safety/hazard.hpp"
#include "safety/who_to_call.hpp"
#include "text/catalog.hpp"

namespace gallipot::document {

/// "DANGER"; empty for none.
std::string signal_word(safety::SignalWord word, const text::Catalog& words);

/// "Call 13 11 26", the number on one line; the emergency number where there is no other; empty
/// where there is none at all.
text::Runs call(const safety::WhoToCall& who, const text::Catalog& words);

/// On what the hazard rests, and what is known of the law in the job's region, each a sentence or
/// two with its source.
std::vector<text::Runs> legal_notices(const job::Job& job, const safety::Hazard& hazard,
                                      const text::Catalog& words);
std::vector<text::Runs> law_notices(const job::Job& job, const text::Catalog& words);

}  // namespace gallipot::document
