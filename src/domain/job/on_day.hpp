#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "domain/job/job.hpp"

/// A job in the course of time: its stations' `changes` and `until`.
namespace gallipot::job {

/// Whether the job is another on one day than on another.
bool changes_over_time(const Job& job);

/// The days on which something changes or is taken up, rising, each once.
std::vector<Date> days_of_change(const Job& job);

/// `job`, which is as the file has it, on one day: a change holds from its day on, and what is
/// taken up on that day or earlier stands among `retired`. A job that never changes comes back as
/// it is, whatever the day.
Job on_day(const Job& job, Date day);

/// Makes the station what it is after the change.
void apply(const Change& change, Station& station);

/// The most containers the station has ever had or will have.
int most_containers(const Station& station);

/// One thing that a change alters.
struct Alteration {
    enum class What { place, mix, container, count };
    LocalTime on{};
    bool by_day = false;  ///< no hour is known
    What what = What::place;
    /// Before and after: a place in words, the id of a mix or a container, or a number.
    std::string from, to;

    bool operator==(const Alteration&) const = default;
};
std::string_view word(Alteration::What what);  ///< "place"

/// All alterations of a station, past and to come, in order of time; places in a language (BCP 47).
std::vector<Alteration> alterations(const Station& station, std::string_view language);

}  // namespace gallipot::job
