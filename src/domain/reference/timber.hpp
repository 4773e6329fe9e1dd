#pragma once

#include <array>

#include "base/units/quantity.hpp"
#include "domain/reference/cited.hpp"

/// What was published on how much borate wood must hold, as boric acid equivalent.
namespace gallipot::reference::timber {

/// The depth that a sprayed loading is stated over, as in the first of the thresholds. No spray
/// goes deeper: 10 % of octaborate on Douglas fir went under 3 mm deep in ten weeks (found, a trial
/// of remedial spraying against Formosan termites), so this is what the outermost wood holds at
/// best.
inline constexpr units::Length depth = units::mm(10);

/// Of dry softwood, to compare a share of the wood's mass with a mass in its volume: 450 kg/m3, a
/// handbook's figure for light pine and spruce (memory). Denser wood needs more.
inline constexpr Cited<units::Density> dry_softwood = {units::Density::si(450), Provenance::memory,
                                                       "handbooks of timber"};

enum class Pest { wood_borers, termites };

/// Below this the wood was not protected.
struct Threshold {
    Pest pest = Pest::wood_borers;
    std::string_view species;
    Cited<units::Density> minimum;  ///< boric acid equivalent in the wood's volume
};

/// A share of the wood's mass as a mass in its volume.
constexpr units::Density of_softwood(double percent) {
    return units::Density::si(dry_softwood.value.si() * percent / 100);
}

inline constexpr std::array<Threshold, 4> thresholds = {{
    {Pest::wood_borers,
     "Hylotrupes bajulus",
     {units::Density::si(0.4), Provenance::found,
      "De Jonge 1987, IRG/WP 3400: 0.3 to 0.4 kg/m3 against larvae from the egg"}},
    {Pest::termites,
     "Reticulitermes flavipes",
     {of_softwood(0.3), Provenance::found,
      "octaborate in slash pine, choice and field tests: 0.3 % of the wood's mass"}},
    {Pest::termites,
     "Coptotermes formosanus",
     {of_softwood(0.54), Provenance::found,
      "octaborate in slash pine, choice tests: more than 0.54 % of the wood's mass"}},
    {Pest::termites,
     "Coptotermes acinaciformis",
     {of_softwood(1.0), Provenance::found,
      "Ahmed, French and Vinden 2004, Holzforschung: more than 1.0 % of the wood's mass"}},
}};

}  // namespace gallipot::reference::timber
