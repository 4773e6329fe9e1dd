#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/reference/cited.hpp"

/// What is usual against a pest. Figures of trials and of the trade, not recommendations.
namespace gallipot::reference {

enum class Preparation { liquid, dry, paste, spray };

/// How strong such a preparation usually is: boric acid equivalent by mass, since the boron decides
/// how fast it acts (Klotz and others, J. Econ. Entomol. 93, 2000).
struct UsualStrength {
    Preparation preparation;
    units::Share low, high;
    Standing standing = Standing::found;
    std::string_view source;  ///< "common practice" where nobody has published it
};

struct Pest {
    std::string_view name;                ///< "ants"
    std::vector<std::string_view> words;  ///< any of these in the job's `against` means this pest
    std::vector<UsualStrength> usual;
    /// Days after which a decline is usually seen: the first signs, and by when it should show.
    std::optional<Cited<units::Range<units::Duration>>> result;
};

std::span<const Pest> pests();

/// The pest that a job's text means: "Ants", "sugar ants in the kitchen", "cockroach". A word
/// counts as a whole, letter case ignored. Null when none is meant.
const Pest* find_pest(std::string_view text);

/// How far outside the usual range is "far": this many times above its top or below its bottom.
/// Our own rule: the optimum against ants is only twofold wide (Rust and others, 2002).
inline constexpr double far_outside = 1.5;

}  // namespace gallipot::reference
