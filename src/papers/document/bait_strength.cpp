#include "papers/document/bait_strength.hpp"

#include <algorithm>

#include "domain/plan/planner.hpp"
#include "papers/document/verdict_words.hpp"

namespace gallipot::document {

std::optional<BaitStrength> bait_strength(const plan::Plan& plan,
                                          const analysis::StationReport& station) {
    const plan::Station* planned = plan.station(station.id);
    if (planned == nullptr) return std::nullopt;
    std::optional<BaitStrength> strongest;
    for (const analysis::Level& level : station.feeding.levels) {
        // A level that reached the brim again says nothing, nor does an empty container.
        if (!level.left_percent || *level.left_percent <= 0 || !level.filled) continue;
        const units::Duration since =
            units::days(analysis::days_between(*level.filled, level.as_read));
        if (since <= units::Duration{}) continue;
        // The plan knows how the present recipe dries, not an older one.
        const bool other =
            std::ranges::any_of(station.containers, [&](const analysis::ContainerState& container) {
                const bool meant = level.container == 0 || level.container == container.number;
                return meant && (container.holds.older || container.holds.mixed);
            });
        if (other) continue;
        const auto reading = plan::strength_now(plan, *planned, since, *level.left_percent / 100);
        if (!reading) continue;
        if (!strongest || reading->strength.usual > strongest->reading.strength.usual)
            strongest = {*reading, analysis::day_of(level.as_read)};
    }
    return strongest;
}

std::string bait_strength_sentence(const plan::Plan& plan, const analysis::StationReport& station,
                                   analysis::Day as_of, const text::Catalog& words) {
    const auto now = bait_strength(plan, station);
    if (!now) return {};
    const auto& [low, usual, high] = now->reading.strength;
    std::string sentence = words("report.strength", {{"day", near_day(now->on, as_of, words)},
                                                     {"percent", words.percent(usual)},
                                                     {"range", words.percent_range(low, high)}});
    const auto& water = now->reading.add_water;
    // Less than that nobody can pour.
    if (water.usual >= units::mL(0.5)) {
        sentence += " " + words("report.add_water", {{"water", words.usual(water.usual)},
                                                     {"low", words.usual(water.low)},
                                                     {"high", words.usual(water.high)}});
    }
    return sentence;
}

}  // namespace gallipot::document
