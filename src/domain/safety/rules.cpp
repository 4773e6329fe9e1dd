#include "domain/safety/rules.hpp"

#include <algorithm>
#include <array>

#include "domain/reference/regions.hpp"

namespace gallipot::safety {

namespace {

using reference::Bloc;
using reference::Provenance;

// What each of these really has; where it is not the EU's own text, we are stricter or equal.
struct Known {
    std::string_view region;
    std::string_view why;
};
constexpr std::array known{
    Known{"AU",
          "workplace rules follow the UN system, household packs the Poisons Standard with "
          "signal words of its own; EU texts stand in"},
    Known{"CA",
          "consumer packs have national symbols, pest products a law of their own; EU texts "
          "stand in"},
    Known{"CH", "the chemicals ordinance takes over EU classification"},
    Known{"NZ", "the hazardous substances notices follow the UN system; EU texts stand in"},
    Known{"UA", "a technical regulation modelled on the EU's; EU texts stand in"},
};

}  // namespace

RuleChoice rules_for(std::string_view region) {
    const reference::Region* place = reference::find_region(region);
    switch (place == nullptr ? Bloc::none : place->bloc) {
        case Bloc::us:
            return {RuleSet::us_household, "40 CFR part 156 and 16 CFR part 1500",
                    Provenance::found};
        case Bloc::eu:
        case Bloc::eea:
            return {RuleSet::clp_like, "Regulation (EC) No 1272/2008 itself", Provenance::found};
        case Bloc::uk:
            return {RuleSet::clp_like,
                    "the retained regulation with a list of its own; the EU's limit of 0.3 % is no "
                    "laxer, and in Northern Ireland it is the law",
                    Provenance::memory};
        case Bloc::none:
            break;
    }
    const auto at = std::find_if(known.begin(), known.end(),
                                 [&](const Known& k) { return k.region == region; });
    return {RuleSet::clp_like,
            at != known.end() ? at->why : "no rules of its own are known here; EU texts stand in",
            Provenance::memory};
}

}  // namespace gallipot::safety
