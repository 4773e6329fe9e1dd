#include "tracking/analysis/rounds.hpp"

#include <algorithm>
#include <map>

#include "domain/plan/rounds.hpp"

namespace gallipot::analysis {

std::vector<Round> rounds(const Report& report, const std::vector<std::size_t>& walk,
                          units::Duration within) {
    // What is still to be done, by day; the place in the walk gives the order within one.
    std::map<Day, std::map<std::size_t, std::vector<Step>>> open;
    for (std::size_t place = 0; place < walk.size(); ++place)
        for (const Step& step : report.stations.at(walk[place]).steps)
            if (step.action != Action::keep_going) open[step.on][place].push_back(step);

    std::vector<Round> result;
    while (!open.empty()) {
        const Day on = open.begin()->first;
        const Day last = on + plan::round_days(within) - std::chrono::days(1);
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

std::vector<Task> tasks_of(const StationReport& station, const Stop& stop) {
    if (station.containers.empty()) return {{0, stop.steps}};
    std::vector<Task> tasks;
    for (const ContainerState& container : station.containers) {
        if (container.taken_up) continue;
        Task task{container.number, {}};
        for (const Step& step : stop.steps)
            if (step.container == container.number ||
                (step.container == 0 && (!container.missing() || step.action == Action::find)))
                task.steps.push_back(step);
        if (!task.steps.empty()) tasks.push_back(std::move(task));
    }
    return tasks;
}

bool is_filled_afresh(const Task& task) {
    return std::ranges::any_of(task.steps, [](const Step& step) {
        return step.action == Action::find || step.action == Action::wipe_up ||
               step.action == Action::set_out || step.action == Action::replace;
    });
}

double to_fill(const StationReport& station, const Task& task) {
    if (is_filled_afresh(task)) return 1;
    const bool topped_up = std::ranges::any_of(
        task.steps, [](const Step& step) { return step.action == Action::top_up; });
    if (!topped_up) return 0;
    const auto at = std::ranges::find(station.containers, task.number, &ContainerState::number);
    const int level = at == station.containers.end() ? 0 : at->level_percent.value_or(0);
    return (100 - level) / 100.0;
}

}  // namespace gallipot::analysis
