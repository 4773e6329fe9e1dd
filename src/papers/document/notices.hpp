#pragma once

#include <optional>
#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/reference/law.hpp"
#include "domain/safety/hazard.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// "DANGER"; empty for none.
std::string signal_word(safety::SignalWord word, const text::Catalog& words);

/// "Call 13 11 26", the number on one line; the emergency number where there is no other; empty
/// where there is none at all.
text::StyledText call(const safety::WhoToCall& who, const text::Catalog& words);

/// What is known of the law where the job is; what is about shared buildings not for a home or a
/// workshop of one's own.
std::vector<reference::LawNote> law_notes(const job::Job& job);

/// Stands across card and sheet where the law forbids such a mix, as far as we know it, until the
/// job says whom its user asked and what the answer was.
std::optional<Banner> not_asked(const job::Job& job, const text::Catalog& words);

/// Adds to a sheet's small first line that no native reader has checked the words, where none has.
void note_translation(text::StyledText& kicker, const text::Catalog& words);

/// Whether an ingredient may hold peanut, by its name or by the substance it stands for.
bool holds_peanut(const job::Job& job, const plan::Mix& mix);

}  // namespace gallipot::document
