#include "tracking/analysis/rounds.hpp"

#include <algorithm>
#include <map>

#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

std::vector<Round> rounds(const Report& report, const std::vector<std::size_t>& walk) {
    // What is still to be done, by day; the place in the walk gives the order within one.
    std::map<Day, std::map<std::size_t, std::vector<Step>>> open;
    for (std::size_t place = 0; place < walk.size(); ++place)
        for (const Step& step : report.stations.at(walk[place]).steps)
            if (step.action != Action::keep_going) open[step.on][place].push_back(step);

    std::vector<Round> result;
    while (!open.empty()) {
        const Day on = open.begin()->first;
        const Day last = on + std::chrono::days(rules::same_round_days);
        std::map<std::size_t, std::vector<Step>> stops;
        for (auto day = open.begin(); day != open.end() && day->first <= last;) {
            for (auto& [place, steps] : day->second) {
                // clang 14 lets no lambda use a name of a structured binding.
                std::erase_if(steps, [&, stop = place](const Step& step) {
                    if (step.action == Action::take_up && step.on > on) return false;
                    stops[stop].push_back(step);
                    return true;
                });
            }
            std::erase_if(day->second, [](const auto& stop) { return stop.second.empty(); });
            day = day->second.empty() ? open.erase(day) : std::next(day);
        }
        Round round{on, {}};
        for (auto& [place, steps] : stops) round.stops.push_back({walk[place], std::move(steps)});
        result.push_back(std::move(round));
    }
    return result;
}

}  // namespace gallipot::analysis
