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
#include "tracking/recipe/book.hpp"
#include "tracking/recipe/former_station.hpp"

namespace gallipot::analysis {

/// When a result is usually seen, in days after placing: the first signs, and by when it shows.
struct Window {
    double low = 0, high = 0;
};

/// What the job and the plan say about one station, as far as the analysis asks.
struct Site {
    std::string id;
    std::string mix;  ///< id, on the day of the job; empty for a control
    /// Where it changes in the course of the job: from when on which, in order of time.
    std::vector<std::pair<LocalTime, std::string>> mixes;
    /// What each mix was made of when; null: nobody has looked.
    std::shared_ptr<const recipe::Book> recipes;
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
    /// By the job; where it does not say, by the log: see as_set_out().
    std::optional<LocalTime> placed;
    bool placed_by_day = false;  ///< `placed` is noon of a day of which no hour is known
    /// Of a control: the day on which the first station that it is compared with was set down. What
    /// was counted up to the end of it is from before.
    std::optional<Day> compared_from;
    std::vector<LocalTime> due;              ///< the planned visits, in order of time
    LocalTime due_from{};                    ///< what they are reckoned from
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
    /// The mix that whatever was put in at that time is of.
    [[nodiscard]] const std::string& mix_at(LocalTime time) const;
    /// The name of a container, from 1, or of the station for 0: "K1-2", "K1".
    [[nodiscard]] std::string container_id(int number) const;
    /// Something is set out here in containers.
    [[nodiscard]] bool baited() const { return !control && !sprayed; }
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
/// The same where the log noted what it was.
Site site_of_log(const std::string& id, const History& history, const recipe::FormerStation& was);

/// Tells each control from when on it is compared.
void compare_controls(std::vector<Site>& sites);

}  // namespace gallipot::analysis
