#pragma once

#include <memory>
#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "tracking/analysis/report.hpp"
#include "tracking/analysis/rounds.hpp"
#include "tracking/log/log.hpp"

/// What job and log together say is true on a day: the one source of the report, the phone's pages,
/// the next round, the take-down sheet and the calendar.
namespace gallipot::evidence {

struct Evidence {
    /// As they were set out: the job's in its order, those taken up, those that only the log has.
    std::vector<analysis::Site> sites;
    analysis::Histories histories;
    analysis::Report report;
    std::vector<analysis::Round> rounds;      ///< those to come, in walking order
    std::vector<log::Unreadable> unreadable;  ///< entries left out because they cannot be read
};

/// At the end of `as_of`. `visits` may be null: nobody has visited. `clock` is the time there now:
/// entries at a time that cannot be are left out and named by the report. Throws
/// system::SystemError where the log cannot be read.
Evidence read(const job::Job& job, const plan::Plan& plan, const log::Log* visits,
              log::LocalTime clock, analysis::Day as_of);

/// What the job makes of its mixes now and what its stations are, for the log to note.
std::vector<log::Fact> facts_of(const job::Job& job, const plan::Plan& plan);

/// What each mix was made of when: as the log noted it, else as the job has it.
std::shared_ptr<const recipe::Book> recipes_of(const job::Job& job, const plan::Plan& plan,
                                               const std::vector<log::Note>& notes);

}  // namespace gallipot::evidence
