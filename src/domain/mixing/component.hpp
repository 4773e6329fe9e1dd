#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/units/quantity.hpp"
#include "domain/job/job.hpp"
#include "domain/reference/substances.hpp"

namespace gallipot::mixing {

/// What an ingredient holds of one substance.
struct Part {
    const reference::Substance* substance = nullptr;  ///< never null
    double share = 0;                                 ///< by mass
    bool in_solution = false;  ///< it came dissolved, so its room is part of the liquid's volume
};

/// An ingredient with everything the computation needs of it. A supply's own density goes before
/// the substance's, and its strength says what it is made of.
struct Component {
    std::string name;                                 ///< as the job calls it
    const reference::Substance* substance = nullptr;  ///< null: one of the user's own
    reference::State state = reference::State::powder;
    units::Range<units::Density> density;  ///< as scooped or poured
    units::Density true_density;           ///< where no air is left between the grains
    std::vector<Part> parts;               ///< by mass; what they leave of the whole is unknown
    double boron = 0;                      ///< mass of boron per mass
    bool vouched = false;                  ///< the user says that it has no hazard

    [[nodiscard]] bool borate() const { return boron > 0; }
    [[nodiscard]] bool powder() const { return state == reference::State::powder; }
    /// Nothing but water: left out where strengths are listed.
    [[nodiscard]] bool water() const;
};

/// Looks an ingredient up among the job's supplies and the known substances. A product with a
/// strength is a solution in water, whose density is computed when it is not given; it is a powder
/// when it goes into a dry mix or its density is a range, as is one of the user's own. None after
/// an error (nothing known, no density to be had), with its place.
std::optional<Component> resolve(const job::Job& job, const job::Ingredient& ingredient,
                                 job::Form form, diag::Diagnostics& out);

/// Boric acid that holds as much boron as one gram of boron.
double boric_acid_per_boron();

/// How much of the component holds as much as one gram of `as`: through boron between borates, or
/// by the component's own strength. None where neither applies.
std::optional<double> mass_for(const Component& component, const reference::Substance& as);

}  // namespace gallipot::mixing
