#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "tracking/analysis/history.hpp"
#include "tracking/analysis/report.hpp"
#include "tracking/analysis/site.hpp"

/// Made-up stations and visits for the tests. Baits are placed on 2 March 2027 at 19:30, day 0.
namespace gallipot::analysis::made {

using visit::Did;
using visit::State;
using visit::Visit;

inline const Day day_0 = Day(std::chrono::year(2027) / 3 / 2);
inline const LocalTime placed = day_0 + std::chrono::hours(19) + std::chrono::minutes(30);

inline LocalTime day(double days) {
    return days_after(placed, days);
}

/// seen(), level() and so on can be chained onto a visit.
struct Made : Visit {
    explicit Made(double days, std::string at = "K1") {
        station = std::move(at);
        time = day(days);
    }
    Made& saw(int n) {
        seen = n;
        return *this;
    }
    Made& level(int percent) {
        level_percent = percent;
        return *this;
    }
    Made& found(State s) {
        state.add(s);
        return *this;
    }
    Made& do_it(Did d) {
        did.add(d);
        return *this;
    }
    Made& in(int n) {
        container = n;
        return *this;
    }
};

/// Visits planned as in the example job: after 1 h, 1 d, 4 d, 10 d, 21 d, 30 d.
inline Site site(std::string id = "K1") {
    Site s;
    s.id = std::move(id);
    s.containers = 1;
    s.placed = placed;
    for (const double days : {1.0 / 24, 1.0, 4.0, 10.0, 21.0, 30.0}) s.due.push_back(day(days));
    s.replace_by = day_0 + std::chrono::days(30);
    s.lasts = std::chrono::days(30);
    s.window = Window{7, 21};
    s.filling = units::mL(45);
    return s;
}

inline Site control(std::string id = "C1") {
    Site s = site(std::move(id));
    s.control = true;
    s.containers = 0;
    s.replace_by.reset();
    s.lasts.reset();
    s.window.reset();
    return s;
}

inline Histories histories(const std::vector<Site>& sites, const std::vector<Visit>& visits) {
    std::vector<std::string> ids;
    for (const Site& s : sites) ids.push_back(s.id);
    Histories result(ids);
    for (const Visit& v : visits) result.add(v);
    return result;
}

/// The report on a job of `sites` at the end of day `as_of`.
inline Report report_on(const std::vector<Site>& sites, const std::vector<Visit>& visits,
                        int as_of) {
    return report(sites, histories(sites, visits), day_0 + std::chrono::days(as_of));
}

/// Of the first site.
inline StationReport station(const std::vector<Site>& sites, const std::vector<Visit>& visits,
                             int as_of) {
    return report_on(sites, visits, as_of).stations.front();
}

/// Counts of one station on the days named.
inline std::vector<Visit> counted(const std::vector<std::pair<double, int>>& counts,
                                  const std::string& at = "K1") {
    std::vector<Visit> visits;
    for (const auto& [days, seen] : counts) visits.push_back(Made(days, at).saw(seen));
    return visits;
}

inline std::vector<Visit> together(std::vector<Visit> one, const std::vector<Visit>& other) {
    one.insert(one.end(), other.begin(), other.end());
    return one;
}

inline Day on_day(int days) {
    return day_0 + std::chrono::days(days);
}

}  // namespace gallipot::analysis::made
