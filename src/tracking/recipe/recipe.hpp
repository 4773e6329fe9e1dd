#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/hazard.hpp"

/// What a mix was made of at a time: kept in the log, since the job only knows what it is made of
/// now, and a container holds what it was filled with.
namespace gallipot::recipe {

struct Part {
    std::string name;  ///< as the job called it
    std::string
        substance;     ///< as the table of substances calls it; empty for one of the user's own
    double share = 0;  ///< by mass of the finished mix, as asked for
    bool operator==(const Part&) const = default;
};

struct Recipe {
    std::vector<Part> parts;
    units::Density density;            ///< of the finished mix
    double boron = 0;                  ///< by mass of the finished mix
    double boric_acid_equivalent = 0;  ///< likewise
    safety::SignalWord signal_word = safety::SignalWord::none;
    std::vector<std::string> hazard_codes;  ///< in any of its containers until it is replaced
    bool hazard_known = true;
    std::optional<std::chrono::days> lasts;

    [[nodiscard]] bool hazardous() const {
        return signal_word != safety::SignalWord::none || !hazard_known;
    }
    bool operator==(const Recipe&) const = default;
};

/// As the job has it. What scoops and jugs make of it is left out: it changes with the batch.
Recipe recipe_of(const job::Mix& asked, const plan::Mix& mix);

/// In the log: JSON. Recipes that are alike give the same text.
std::string print(const Recipe& recipe);
/// None for a text that is not of print().
std::optional<Recipe> parse(std::string_view text);

/// So much of it.
plan::Contents contents(const Recipe& recipe, units::Volume fill);

/// The one of the two to state where both are in one container: the stronger in boron, of as strong
/// ones the more hazardous.
const Recipe& stronger(const Recipe& a, const Recipe& b);

}  // namespace gallipot::recipe
