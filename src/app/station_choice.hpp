#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "domain/plan/plan.hpp"

namespace gallipot::app {

/// What is printed for a few stations alone. Amounts, ids and links stay those of the whole job.
struct StationChoice {
    std::vector<std::size_t> labels;  ///< numbers of the plan's containers, rising
    std::vector<std::string> mixes;   ///< ids of what goes into them, in the plan's order
    /// Sentences about names that cannot be printed for; if there are any the rest is not to be
    /// used.
    std::vector<std::string> problems;

    [[nodiscard]] bool has(const plan::Mix& mix) const;
};

/// Of `names` each is a station, or one container of it ("K1-2"); letter case and blanks around do
/// not count. With `with_vessels` also the labels of the vessels and rests of their mixes, and of
/// the supplies in those that are filled over into a jar.
StationChoice choose_stations(const plan::Plan& plan, const std::vector<std::string>& names,
                              bool with_vessels);

}  // namespace gallipot::app
