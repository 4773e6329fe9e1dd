#pragma once

#include <optional>

#include "domain/reference/cited.hpp"
#include "domain/reference/pests.hpp"

namespace gallipot::reference {

/// How much one coat takes on bare wood: 1 US gallon on 200 square feet, 4.91 m2 per litre. Sprayed
/// or brushed alike; end grain and rough timber take more.
inline constexpr Cited<units::Coverage> one_coat_on_wood = {
    units::Coverage::si(1e-3 / 4.91), Provenance::found,
    "a borate supplier's answers to questions: 1 gallon on 200 ft2, two or three applications"};

/// What a coat of such a preparation takes; none for what cannot be spread on a surface.
constexpr std::optional<Cited<units::Coverage>> coverage_per_coat(Preparation preparation) {
    if (preparation == Preparation::spray || preparation == Preparation::liquid) {
        return one_coat_on_wood;
    }
    return std::nullopt;
}

}  // namespace gallipot::reference
