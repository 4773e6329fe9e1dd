#pragma once

#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "domain/mixing/amounts.hpp"
#include "domain/mixing/selection.hpp"
#include "domain/plan/plan.hpp"

/// One mix at a time. Not for other layers: they call make_plan.
namespace gallipot::plan {

/// What the stations take of one mix, finished, without the spare.
struct Demand {
    units::Volume volume;
    int containers = 0;
    const job::Container* largest = nullptr;  ///< the one with the largest fill
    /// How many containers of which fill, station by station.
    std::vector<std::pair<int, units::Volume>> fills = {};
};

/// How much is made: one batch, as asked and as measured, and how many of them.
struct Batches {
    int count = 1;
    int repeats = 1;  ///< of those, how often what the job's `batch` says is made
    int fills = 0;    ///< containers that one batch fills
    std::vector<units::Mass> target;
    mixing::Selection chosen;
};

/// Where the job says how much is made, as `batch` or `makes`; null where it follows from the
/// stations.
const diag::Place* size_asked(const job::Mix& mix);

/// Scales the recipe to what is wanted, splits it by the vessel and measures it out, so that what
/// is really measured fits the vessel and, where the job says no size, suffices for the
/// stations: measures are rounded up where the spare does not make up for rounding down. A `batch`
/// that does not suffice is made as often as it takes. None after an error, or where nothing says
/// how much to make.
std::optional<Batches> plan_batches(const job::Mix& mix, const Demand& demand,
                                    const mixing::Recipe& recipe,
                                    std::span<const mixing::Limit> limits,
                                    const mixing::Tools& tools, diag::Diagnostics& out);

/// A planned mix with what the later steps need of its making.
struct MixCalculation {
    const job::Mix* job = nullptr;
    mixing::Recipe recipe;
    std::vector<units::Mass> target;  ///< one batch
    mixing::Selection chosen;         ///< one batch
    std::vector<units::Range<units::Mass>> measured;
    std::vector<mixing::Limit> limits;
    Mix mix;

    /// The heaviest that ingredient may have come out, and the lightest all others.
    [[nodiscard]] std::vector<units::Mass> at_worst(std::size_t ingredient) const;
    /// As much of all powders as their packing may make, and as little of all else.
    [[nodiscard]] std::vector<units::Mass> strongest() const;
    /// As at_worst, for all that hold boron at once.
    [[nodiscard]] std::vector<units::Mass> borates_at(bool heaviest) const;
};

/// Amounts, batches, measures, strength and dissolving. None after an error.
std::optional<MixCalculation> calculate(const job::Job& job, const job::Mix& mix,
                                        const Demand& demand, const mixing::Tools& tools,
                                        diag::Diagnostics& out);

/// The limits of a mix in the terms the computation uses. What cannot be compared is an error.
std::vector<mixing::Limit> read_limits(const job::Mix& mix, const mixing::Recipe& recipe,
                                       diag::Diagnostics& out);

/// Errors and warnings about a mix that was worked out: limits, measures, strength, dissolving.
void check_mix(const job::Job& job, const MixCalculation& calculation, const Demand& demand,
               const mixing::Tools& tools, diag::Diagnostics& out);

/// How strong the like of this mix usually is against its pest. Where several ranges are known the
/// one it lies in, else the nearest. None without boron, or where nothing is known.
std::optional<UsualRange> usual_range(const job::Mix& mix, double boric_acid_equivalent);

}  // namespace gallipot::plan
