#pragma once

#include "domain/job/fields.hpp"
#include "domain/job/job.hpp"

namespace gallipot::job {

/// The ingredients of `mix` and what they come to; its basis must have been read before.
void read_ingredients(const Fields& fields, const Job& job, Mix& mix, ReadContext& context);

/// The basis of a mix that does not say it: `as_measured` where its amounts have units, else an
/// error.
void read_basis_from_amounts(const Fields& fields, Mix& mix, ReadContext& context);

/// The limits of `mix`; its ingredients must have been read before.
void read_limits(const Fields& fields, Mix& mix, ReadContext& context);

}  // namespace gallipot::job
