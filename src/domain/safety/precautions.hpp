#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/safety/hazard.hpp"

namespace gallipot::safety {

/// The code as the standard prints it: "P280" of "P280-eyes"; empty for what the standard gives no
/// code ("us_children").
std::string_view published_code(std::string_view code);

/// Where a labelled container is.
enum class Setting {
    stored,   ///< the mixing bottle, leftovers, a decanted ingredient
    set_out,  ///< a cup of bait at its station
};

/// The precaution codes that make sense there. Bait that is set out cannot be locked up, and who
/// meets it is not its user: P405 and P201 are for what is stored (CLP Article 28: what is plainly
/// unnecessary for the use goes). In the order they are printed.
std::vector<std::string> precautions_for(const Hazard& hazard, Setting setting);

/// Hazard and precaution codes that a label may leave out on a container of this capacity when
/// there is no room, most dispensable first. CLP Annex I, 1.5.2.1.1 (found): up to 125 mL those of
/// eye irritation 2; reproductive toxicity is not in its list, so H360FD and its precautions stay
/// however small the cup. Pictograms and the signal word stay always. US household: none.
std::vector<std::string> may_leave_out(const Hazard& hazard, units::Volume capacity);

}  // namespace gallipot::safety
