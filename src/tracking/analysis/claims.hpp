#pragma once

#include <optional>
#include <vector>

#include "tracking/analysis/line_chances.hpp"
#include "tracking/analysis/pest_evidence.hpp"

/// What is claimed of the places treated against one pest: each claim leaves out chance, and of the
/// many places no more than rules::false_claims of those made is expected to be false.
namespace gallipot::analysis {

/// One treated place, from its counts to its claims.
struct Place {
    const TreatedPlace* treated = nullptr;
    Trend trend;
    Efficacy effect;
    Groups line;                    ///< what its line is fitted to
    Groups before_after;            ///< what is held against the controls
    std::optional<Estimate> slope;  ///< of that, at dispersion 1
    double days = 0;                ///< from its first count to its last

    [[nodiscard]] const Counts& counts() const { return *treated->counts; }
    [[nodiscard]] bool compares() const { return counts().totals.size() > 1 && slope; }
};

/// Falls, rises, comes back, stays, gone. `dispersion` is that about the places' lines; the effects
/// must be there.
void claim_trends(std::vector<Place>& places, const Dispersion& dispersion);

/// Which effects go beyond the controls.
void claim_effects(std::vector<Place>& places);

}  // namespace gallipot::analysis
