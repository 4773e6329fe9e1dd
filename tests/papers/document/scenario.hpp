#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/text/catalog.hpp"

/// A job and its plan put together by hand, so that the papers are tested by themselves. A hall
/// with a liquid bait against ants, a dry one against cockroaches and a wood spray; figures are
/// plausible and are tested elsewhere.
namespace gallipot::tests {

struct Scenario {
    job::Job job;
    plan::Plan plan;
    safety::WhoToCall who;
};

Scenario hall();

/// The shipped words.
text::Catalog words_in(const std::string& language, const std::string& region = "AU");

}  // namespace gallipot::tests
