#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/label.hpp"

namespace gallipot::document {

/// In which of the job's first two languages a label speaks: in both, or, where there is no room
/// for both, in one of them, beside another label in the other.
enum class Speech { both, first, second };

/// One label to be made: of which container of the plan, in which languages.
struct LabelChoice {
    std::size_t container = 0;
    Speech speech = Speech::both;
};

/// The labels of a job in its order: one for every container, then for every mix one for the bottle
/// it is mixed in and one for what is left, then one for every borate that is filled over into
/// another jar. Strengths and grams are those as measured.
///
/// They are made as they are asked for, since a large job has more than should be kept at once;
/// what they have in common is made once. May be shared between threads.
class LabelMaker {
  public:
    /// `plan` is the job's; all are kept by reference. `languages` is not empty; the first is the
    /// main one.
    LabelMaker(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
               const std::vector<const text::Catalog*>& languages);
    ~LabelMaker();

    [[nodiscard]] std::size_t size() const;
    [[nodiscard]] bool two_languages() const;
    /// How many of them, the first ones, are of containers at stations, in the plan's order.
    [[nodiscard]] std::size_t containers() const;
    /// The labels of these containers, each below size().
    [[nodiscard]] Labels operator()(std::span<const LabelChoice> which) const;
    /// All of them, in both languages.
    [[nodiscard]] Labels operator()() const;

  private:
    struct Impl;
    std::unique_ptr<const Impl> impl_;
};

}  // namespace gallipot::document
