#pragma once

#include <string>
#include <string_view>

#include "domain/job/fields.hpp"
#include "domain/job/job.hpp"

/// The sections of a job file. Each fills its part of `job` as far as it can be read; later ones
/// may use what earlier ones filled.
namespace gallipot::job {

/// What kind of building it is, and which authority was asked.
void read_premises(const Fields& top, Job& job, ReadContext& context);
void read_help(const Fields& top, Job& job, ReadContext& context);
void read_log(const Fields& top, Job& job, ReadContext& context);
void read_measures(const Fields& top, Job& job, ReadContext& context);
void read_supplies(const Fields& top, Job& job, ReadContext& context);
void read_mixes(const Fields& top, Job& job, ReadContext& context);
void read_containers(const Fields& top, Job& job, ReadContext& context);
void read_stations(const Fields& top, Job& job, ReadContext& context);
void read_floor_plan(const Fields& top, Job& job, ReadContext& context);

/// `was`, `changes` and `until` of a station whose other keys were read. Which mixes, containers
/// and floors there are is known to the caller.
void read_changes(const Fields& fields, Station& station, ReadContext& context);

/// What does not fit the mixes that were read: a change to a mix of another form, or against
/// another pest.
void check_mixes_of_changes(const Station& station, const Job& job, ReadContext& context);

/// The messages accepted in one mapping: all of its own codes where `whole_job`, else those that
/// point into the mapping, whose name or id stands at `from`.
void read_accepted(const Fields& fields, std::string_view section, bool whole_job,
                   const Place& from, Job& job, ReadContext& context);

// The parts of advise() that have a file of their own.
void advise_on_languages(const Job& job, diag::Diagnostics& out);
void advise_on_places(const Job& job, diag::Diagnostics& out);
void advise_on_visits(const Job& job, diag::Diagnostics& out);

/// Whether a value that must be there was read.
template <class T>
bool was_read(const At<T>& value) {
    return value.place.source != nullptr;
}

/// Puts a value that was read where it belongs; what was not leaves it alone.
template <class T, class U>
void keep(T& to, const std::optional<U>& read) {
    if (read) to = *read;
}

}  // namespace gallipot::job
