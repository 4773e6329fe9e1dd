#include "tracking/analysis/report.hpp"

#include "catch_all.hpp"

#include "made.hpp"
#include "tracking/analysis/rounds.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;
namespace units = gallipot::units;

TEST_CASE("a pest is judged by all its stations together", "[analysis]") {
    const std::vector<Site> sites{site("K1"), site("K2"), control("C1")};
    auto visits = together(counted({{0, 120}, {4, 70}, {10, 30}}, "K1"),
                           counted({{0, 80}, {4, 52}, {10, 20}}, "K2"));
    visits = together(visits, counted({{0, 180}, {10, 216}}, "C1"));
    const Report report = report_on(sites, visits, 10);
    REQUIRE(report.pests.size() == 1);
    const PestReport& pest = report.pests.front();
    CHECK(*pest.trend.change_percent == Approx(-75));
    // Near what the first and last counts give, 1 - 50 x 180 / (200 x 216) = 79.2 %.
    CHECK(*pest.efficacy.percent == Approx(79.2).margin(2));
    CHECK(pest.verdict == Verdict::falling);
    CHECK(pest.stations == std::map<Verdict, std::size_t>{{Verdict::falling, 2}});
    CHECK(report.building.verdict == Verdict::falling);
    CHECK(report.building.call_professional.empty());
    CHECK(report.stations[2].verdict == Verdict::control);
    CHECK(report.stations[2].flags.empty());
    // One slope for both, a level for each: three parameters from six counts.
    CHECK(pest.trend.decline.degrees_of_freedom == 3);
    CHECK(pest.trend.half);
}

TEST_CASE("a pest is compared with controls of its own, and never added to another", "[analysis]") {
    std::vector<Site> sites{site("K1"), site("R1"), control("C1")};
    sites[0].pest = "ants";
    sites[1].pest = "cockroaches";
    auto visits = together(counted({{0, 40}, {4, 20}, {10, 4}}, "K1"),
                           counted({{0, 9}, {4, 6}, {10, 3}}, "R1"));
    visits = together(visits, counted({{0, 20}, {10, 22}}, "C1"));
    // It does not say what was counted: taken for both, but Abbott's formula is not for it.
    CHECK(report_on(sites, visits, 10).stations[1].efficacy.formula == Formula::henderson_tilton);
    const auto after_only =
        together(counted({{9, 4}, {10, 3}}, "R1"), counted({{9, 20}, {10, 22}}, "C1"));
    sites[2].pest = "cockroaches";
    CHECK(report_on(sites, after_only, 10).stations[1].efficacy.formula ==
          Formula::henderson_tilton);

    sites[2].pest = "ants";
    const Report told = report_on(sites, visits, 10);
    CHECK(told.stations[0].efficacy.formula == Formula::henderson_tilton);
    CHECK(told.stations[1].efficacy.why_none == NoControl::not_there);
    REQUIRE(told.pests.size() == 2);
    CHECK(told.pests[0].pest == "ants");
    CHECK(told.pests[0].trend.first.seen == 40);
    CHECK(told.pests[1].trend.first.seen == 9);
    CHECK(told.pests[0].efficacy.formula == Formula::henderson_tilton);
    CHECK(told.pests[1].efficacy.why_none == NoControl::not_there);
    CHECK(told.pests[1].caution == Caution::no_control);
}

TEST_CASE("a station counted once says nothing of a change over all", "[analysis]") {
    const auto visits = together(counted({{0, 40}, {10, 10}}, "K1"), counted({{4, 30}}, "K2"));
    const Report report = report_on({site("K1"), site("K2")}, visits, 10);
    CHECK(report.pests[0].trend.first.seen == 40);
    CHECK(*report.pests[0].trend.change_percent == Approx(-75));
}

TEST_CASE("a pest's verdict has every stage", "[analysis]") {
    const std::vector<Site> sites{site("K1"), site("K2")};
    const auto verdict = [&](const std::vector<Visit>& visits, int as_of) {
        const Report report = report_on(sites, visits, as_of);
        CHECK(report.building.verdict == report.pests[0].verdict);
        return report.pests[0].verdict;
    };
    CHECK(verdict({}, -3) == Verdict::not_started);
    CHECK(verdict({}, 3) == Verdict::never_visited);
    CHECK(verdict({Made(1, "K1")}, 3) == Verdict::not_counted);
    CHECK(verdict(counted({{0, 20}}), 3) == Verdict::counted_once);
    CHECK(verdict(together(counted({{0, 20}}), counted({{1, 9}}, "K2")), 3) ==
          Verdict::counted_once);
    CHECK(verdict(counted({{0, 0}, {4, 0}}), 4) == Verdict::none_seen);
    CHECK(verdict(counted({{0, 20}, {4, 8}, {10, 0}, {11, 0}}), 11) == Verdict::gone);
    CHECK(verdict(counted({{0, 20}, {4, 2}, {10, 0}}), 10) == Verdict::none_now);
    CHECK(verdict(counted({{0, 20}, {4, 20}, {10, 21}}), 10) == Verdict::no_change);
    CHECK(verdict(counted({{0, 90}, {4, 88}, {10, 91}, {22, 89}}), 22) == Verdict::stalled);
    CHECK(verdict(counted({{0, 8}, {4, 7}, {10, 4}}), 10) == Verdict::lower);
    CHECK(verdict(counted({{0, 5}, {4, 15}, {10, 45}, {14, 90}}), 14) == Verdict::rising);
    CHECK(verdict(counted({{0, 60}, {4, 20}, {10, 3}, {16, 40}, {20, 45}}), 20) ==
          Verdict::rebound);
    CHECK(verdict({Made(9, "K1").do_it(Did::removed), Made(9, "K2").do_it(Did::removed)}, 10) ==
          Verdict::retired);
}

TEST_CASE("a professional is called for the worst first, and not for a few of many", "[analysis]") {
    const std::vector<Site> sites{site("K1"), site("K2"), site("K3")};
    const auto series = [](const std::string& at, const std::vector<int>& seen) {
        std::vector<Visit> visits;
        const std::vector<double> days{0, 7, 14, 21, 35, 49, 57, 60};
        for (std::size_t i = 0; i < days.size(); ++i)
            visits.push_back(Made(days[i], at).saw(seen[i]));
        return visits;
    };
    const auto visits = together(together(series("K1", {60, 40, 28, 20, 10, 6, 3, 2}),
                                          series("K2", {40, 41, 39, 42, 40, 43, 38, 41})),
                                 series("K3", {10, 14, 20, 31, 45, 60, 80, 95}));
    const Report report = report_on(sites, visits, 61);
    CHECK(report.building.call_professional == std::vector<std::size_t>{2, 1});
    const auto& steps = report.stations[0].steps;
    CHECK(std::ranges::any_of(steps, [](const Step& s) { return s.why == Why::few_left; }));
    CHECK(worst_first(report) == std::vector<std::size_t>{2, 1, 0});
}

TEST_CASE("what was used up of each mix and what it cost", "[analysis]") {
    std::vector<Site> sites{site("K1"), site("K2"), site("B1"), control()};
    sites[0].mix = sites[1].mix = "syrup";
    sites[2].mix = "dry";
    sites[0].containers = 2;
    sites[0].cost = sites[1].cost = 0.25;
    const auto used =
        report_on(sites, {Made(10, "K1").level(50), Made(10, "K2").level(20).do_it(Did::replaced)},
                  10)
            .used;
    REQUIRE(used.size() == 2);
    CHECK(used[0].mix == "syrup");
    CHECK(used[0].containers.put_out == Approx(4));  // two cups, one, and one fresh
    CHECK(used[0].containers.gone == Approx(1 + 0.8));
    CHECK(units::in_mL(used[0].put_out) == Approx(4 * 45));
    CHECK(units::in_mL(used[0].gone) == Approx(1.8 * 45));
    CHECK(*used[0].cost == Approx(1.0));
    CHECK(used[1].containers.put_out == 1);
    CHECK_FALSE(used[1].cost);
}

TEST_CASE("nothing logged is silently lost", "[analysis]") {
    const Report report = report_on({site("K1")}, {Made(1, "OLD").saw(3), Made(1, "K1").saw(3)}, 4);
    CHECK(report.unknown_stations == std::map<std::string, std::size_t>{{"OLD", 1}});
}

TEST_CASE("the next walk takes along what falls due soon, in walking order", "[analysis]") {
    std::vector<Site> sites{site("A"), site("B"), site("C"), site("D")};
    // A is overdue (day 10), B is due on day 14, C later, D has been gone for a fortnight on
    // day 14.
    sites[1].due.push_back(day(14));
    std::ranges::sort(sites[1].due);
    std::vector<Visit> visits{Made(0, "A").saw(20), Made(4, "A").saw(12), Made(10, "B").saw(5),
                              Made(10, "C").saw(7), Made(-5, "D").saw(9), Made(-1, "D").saw(0),
                              Made(11, "D").saw(0)};
    const Report report = report_on(sites, visits, 12);
    const auto walks = rounds(report, {3, 2, 1, 0}, gallipot::units::days(4));
    REQUIRE(walks.size() >= 2);
    CHECK(walks[0].on == on_day(12));
    std::vector<std::string> order;
    for (const Stop& stop : walks[0].stops) order.push_back(report.stations[stop.station].id);
    CHECK(order == std::vector<std::string>{"B", "A"});
    CHECK(walks[0].stops[0].steps == std::vector{Step{Action::look, on_day(14)}});
    for (std::size_t i = 1; i < walks.size(); ++i) CHECK(walks[i - 1].on < walks[i].on);
    std::size_t steps = 0, expected = 0;
    for (const Round& walk : walks)
        for (const Stop& stop : walk.stops) steps += stop.steps.size();
    for (const StationReport& station : report.stations)
        for (const Step& step : station.steps)
            if (step.action != Action::keep_going) ++expected;
    CHECK(steps == expected);
}

TEST_CASE("bait is never taken up before its day", "[analysis]") {
    Report report;
    report.stations.resize(2);
    report.stations[0].steps = {{Action::visit, on_day(10)}};
    report.stations[1].steps = {{Action::take_up, on_day(12)}, {Action::look, on_day(12)}};
    const auto walks = rounds(report, {0, 1}, gallipot::units::days(3));
    REQUIRE(walks.size() == 2);
    CHECK(walks[0].stops.size() == 2);
    CHECK(walks[0].stops[1].steps == std::vector{Step{Action::look, on_day(12)}});
    CHECK(walks[1].on == on_day(12));
    CHECK(walks[1].stops[0].steps == std::vector{Step{Action::take_up, on_day(12)}});
}

TEST_CASE("a walk takes in what falls due within the job's time, a day by default", "[analysis]") {
    Report report;
    report.stations.resize(2);
    report.stations[0].steps = {{Action::look, on_day(10)}};
    report.stations[1].steps = {{Action::look, on_day(11)}};
    const auto walks = [&](double days) {
        return rounds(report, {0, 1}, gallipot::units::days(days)).size();
    };
    CHECK(rounds(report, {0, 1}).size() == 2);
    CHECK(walks(1) == 2);
    CHECK(walks(1.5) == 2);
    CHECK(walks(2) == 1);
    CHECK(walks(0.1) == 2);
}

TEST_CASE("a stop is worked through container by container", "[analysis]") {
    gallipot::analysis::StationReport station;
    station.id = "K1";
    for (int number = 1; number <= 3; ++number) {
        ContainerState container;
        container.number = number;
        container.set_out = true;
        container.level_percent = 40;
        station.containers.push_back(container);
    }
    station.containers[1].open.add(State::missing);
    const Step look{Action::look, on_day(1)};
    const Step find{Action::find, on_day(1), Why::none, 0, 2};
    const Step top_up{Action::top_up, on_day(1), Why::runs_empty, 0, 3};
    const auto tasks = tasks_of(station, {0, {find, look, top_up}});
    REQUIRE(tasks.size() == 3);
    CHECK(tasks[0].steps == std::vector{look});
    CHECK(tasks[1].steps == std::vector{find});
    CHECK(tasks[2].steps == std::vector{look, top_up});
    CHECK(to_fill(station, tasks[0]) == 0);
    CHECK(to_fill(station, tasks[1]) == 1);
    CHECK(to_fill(station, tasks[2]) == 0.6);
    CHECK(is_filled_afresh(tasks[1]));
    CHECK_FALSE(is_filled_afresh(tasks[2]));
    // All of them gone is said of the station, and is to be done at each.
    station.containers = {station.containers[1]};
    const Step all{Action::find, on_day(1)};
    CHECK(tasks_of(station, {0, {all, look}}).at(0).steps == std::vector{all});
    station.containers[0].taken_up = true;
    CHECK(tasks_of(station, {0, {look}}).empty());
}
