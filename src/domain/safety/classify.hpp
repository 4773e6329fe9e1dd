#pragma once

#include <string>
#include <vector>

#include "domain/reference/substances.hpp"
#include "domain/safety/hazard.hpp"

namespace gallipot::safety {

/// One ingredient of a finished mix. A bought solution goes in as its parts: the active substance
/// by its `strength`, and what it is dissolved in as a component of its own.
struct Component {
    std::string name;  ///< as the job calls it: named when its hazard is unknown
    const reference::Substance* substance = nullptr;  ///< null: the user's own
    double mass_fraction = 0;                         ///< of the whole, as measured
    double mass_fraction_upper = 0;                   ///< upper end of its spread: this decides
    bool known = false;  ///< one of the user's own that the job vouches for with `hazard: none`
};

/// Limits, each in its one home. Shares are by mass.
namespace limits {

/// CLP Annex I, Table 3.7.2: reproductive toxicity 1B of a mixture, at or above (found). Note 11 of
/// Annex VI, in force since 2025-02-01 for the borates (2023/1434, 2023/1435): the boron compounds
/// are added up (found).
constexpr double reproductive_1b = 0.003;

/// CLP Annex I, Table 3.3.3: eye irritation 2 of a mixture, the irritants added up, at or above
/// (memory). That tetraborates irritate eyes is their registrants' own classification (derived).
constexpr double eye_irritation_2 = 0.10;

/// Rat, oral, as boron: Keller 1962 in ECHA dossier 29862, section 7.3.1 (found).
constexpr double oral_ld50_mg_boron_per_kg = 658.9;

/// 40 CFR 156.62, oral LD50 in mg/kg: category III up to this, IV above (found). Category II ends
/// at 500, below boron itself.
constexpr double us_category_iii_up_to = 5000;

}  // namespace limits

/// The hazard of a mix from what it holds, each substance by what the table of substances states of
/// it. What is not stated there, and what is the user's own, is unknown unless the job vouches for
/// it. Shares must be within 0 and 1 and the upper end not
/// below the measured one: std::invalid_argument otherwise.
///
/// clp_like: Repr. 1B with H360FD, GHS08 and Danger when the boron compounds together reach 0.3 %;
/// Eye Irrit. 2 with H319 and GHS07 when eye irritants (tetraborates) reach 10 %, with Warning
/// where that is all. Both pictograms stay: CLP Article 26 drops GHS07 for eyes only beside GHS05,
/// or beside GHS08 for the airways (found, reachonline.eu). Danger stands alone: Article 20
/// (memory). Not classified: acute toxicity by mouth, since even pure borates lie above the 2000
/// mg/kg that end category 4.
///
/// us_household: any boron at all gets CAUTION, the child warning and the statements of category
/// III. By the figures most mixes are category IV, which needs no word; 40 CFR 156.64(a)(4) leaves
/// CAUTION as the one word allowed there, and 156.66 asks for the child warning even so. We always
/// take it: bait in a cup dries, and what dries in is up to pure borate, which is category III; and
/// the estimate is one rat figure. These rules know no toxicity to reproduction: that is why the
/// label differs from the EU's.
Hazard classify(const std::vector<Component>& components, RuleSet rules);

}  // namespace gallipot::safety
