#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "tracking/analysis/days.hpp"
#include "tracking/analysis/history.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

/// When a result is usually seen, in days after placing: the first signs, and by when it shows.
struct Window {
    double low = 0, high = 0;
};

/// What the job and the plan say about one station, as far as the analysis asks.
struct Site {
    std::string id;
    std::string mix;  ///< id; empty for a control
    /// By the name in the table of pests, else as written; empty for a control that does not say
    /// while the job has several.
    std::string pest;
    bool control = false;
    bool sprayed = false;
    bool powder = false;  ///< a dry bait: that it is dry is no trouble
    bool timber = false;  ///< against what lives in wood: slow to show, and may hold up a roof
    /// The pest counts as gone after so many days with none seen, and so many counts of none in a
    /// row; never what lives in wood.
    int gone_days = rules::gone_days;
    int empty_counts = 1;
    bool empty_traps = false;  ///< of those counts, only rounds with traps say so
    int containers = 0;
    std::optional<LocalTime> placed;
    bool placed_by_day = false;  ///< `placed` is noon of a day of which no hour is known
    /// Of a control: the day on which the first station that it is compared with was set down. What
    /// was counted up to the end of it is from before.
    std::optional<Day> compared_from;
    std::vector<LocalTime> due;              ///< the planned visits, in order of time
    std::optional<Day> until;                ///< the day it was or will be taken up for good
    bool in_job = true;                      ///< else only its visits are left of it
    std::optional<Day> replace_by;           ///< of the first filling
    std::optional<std::chrono::days> lasts;  ///< of every filling after it
    std::optional<Window> window;
    units::Volume filling;  ///< of one container
    /// Of what one container is filled with, in the job's currency: of each pack the part that is
    /// in it. None when a price is not known.
    std::optional<double> cost;

    /// Whether it was taken up for good by the end of a day.
    [[nodiscard]] bool over(Day day) const { return until && *until <= day; }
    /// How what was counted here is to be taken.
    [[nodiscard]] Counting counting() const;
    /// A control that stations with this pest are held against.
    [[nodiscard]] bool compares_with(const std::string& treated_pest) const {
        return control && (pest.empty() || pest == treated_pest);
    }
};

/// Of all stations there ever were: the job's in its order, then those that were taken up.
std::vector<Site> sites(const job::Job& job, const plan::Plan& plan);

/// A station that is no longer in the job, taken up at its last visit. None where its visits do not
/// say that something was set out there (it may have been a control), or the job is against several
/// pests.
std::optional<Site> site_of_log(const std::string& id, const History& history, const job::Job& job);

}  // namespace gallipot::analysis
