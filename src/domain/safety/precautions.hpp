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

/// The precaution codes, of those that make sense there, that a label gives up one after another
/// when it has no room for all, in this order:
///
/// 1. up to 125 mL, those of eye irritation 2: CLP Annex I, 1.5.2.1.1, lets its statements go
/// (found,
///    reachonline.eu);
/// 2. then, our own order, what a passer-by needs least: P201, P264, P280, P501 where bait is set
/// out
///    (whoever takes it up has the take-down sheet), P305+P351+P338.
///
/// All others stay: P102; P308+P313, which goes with H360FD; P405 and P501 on what is stored; the
/// statements of US rules. So does every hazard statement: 1.5.2.1.1 would let H319 go but not its
/// pictogram, which 1.5.2.1.3 alone could free and does not for eyes, and a pictogram never stands
/// without its statement.
std::vector<std::string> leave_out_order(const Hazard& hazard, Setting setting,
                                         units::Volume capacity);

}  // namespace gallipot::safety
