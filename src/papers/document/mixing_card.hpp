#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// The card to mix by, meant for one page: what to measure out, what to have ready, what to do in
/// which order, what then. `mix` is one of the plan's and the plan is the job's.
Sheet mixing_card(const job::Job& job, const plan::Plan& plan, const plan::Mix& mix,
                  const safety::WhoToCall& who, const text::Catalog& words);

/// A card for each of these mixes of the plan, and the page on the rules that they send to.
std::vector<Sheet> mixing_cards(const job::Job& job, const plan::Plan& plan,
                                const std::vector<const plan::Mix*>& mixes,
                                const safety::WhoToCall& who, const text::Catalog& words);
/// The same for every mix.
std::vector<Sheet> mixing_cards(const job::Job& job, const plan::Plan& plan,
                                const safety::WhoToCall& who, const text::Catalog& words);

}  // namespace gallipot::document
