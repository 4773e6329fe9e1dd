#pragma once

#include <vector>

#include "domain/job/job.hpp"
#include "domain/reference/pests.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

/// What the table of pests has to say on the papers. Every sentence of advice about a pest comes
/// from there, with its source.
namespace gallipot::document {

/// The pests that something is set out or sprayed against, each once, in the order of the mixes.
std::vector<const reference::Pest*> treated_pests(const job::Job& job);

/// Of those, the ones that live in wood and go on out of sight.
std::vector<const reference::Pest*> wood_pests(const job::Job& job);

/// The sentences of one topic about a pest that hold in the job's region.
std::vector<StyledText> advice_on(const reference::Pest& pest, reference::Topic topic,
                                  const job::Job& job, const text::Catalog& words);

/// How to count, as far as it holds for all treated pests; nothing where there is but one.
std::vector<StyledText> counting_for_all(const job::Job& job, const text::Catalog& words);

/// The warnings of all these pests, each once.
std::vector<StyledText> warnings_of(const std::vector<const reference::Pest*>& pests,
                                    const job::Job& job, const text::Catalog& words);

/// The same as a block of bold lines; nothing when there are none.
void add_warnings(const std::vector<const reference::Pest*>& pests, const job::Job& job,
                  const text::Catalog& words, std::vector<Block>& blocks);

/// A pest's name in a language, as after "against".
std::string pest_name(const reference::Pest& pest, const text::Catalog& words);

}  // namespace gallipot::document
