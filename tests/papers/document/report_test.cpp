#include <numeric>

#include "catch_all.hpp"

#include "golden.hpp"
#include "languages.hpp"
#include "papers/document/plain_text.hpp"
#include "papers/document/report_sheets.hpp"
#include "papers/document/verdict_words.hpp"
#include "scenario.hpp"

using namespace gallipot;
using analysis::Day;
using visit::Did;
using visit::State;
using visit::Visit;

namespace {

const Day day_0 = Day(std::chrono::year{2027} / 3 / 2);

Visit visit_to(const char* station, int day, std::optional<int> seen,
               std::optional<int> level = std::nullopt) {
    Visit visit;
    visit.station = station;
    visit.time = day_0 + std::chrono::days(day) + std::chrono::hours(20);
    visit.seen = seen;
    visit.level_percent = level;
    return visit;
}

/// Three weeks at the hall: the kitchen falls, the yard stands still and is clogged, a saucer is
/// forgotten, the control stays as it was.
std::vector<Visit> three_weeks() {
    std::vector<Visit> visits;
    const auto add = [&](Visit visit) -> Visit& { return visits.emplace_back(std::move(visit)); };
    add(visit_to("K1", 0, 24));
    add(visit_to("K1", 1, 31, 95));
    add(visit_to("K1", 4, 15, 80));
    add(visit_to("K1", 10, 5, 55)).did.add(Did::refilled);
    add(visit_to("K1", 21, 1, 85));
    add(visit_to("Y1", 0, 18));
    add(visit_to("Y1", 4, 20, 97)).state.add(State::clogged);
    add(visit_to("Y1", 10, 17, 95)).did.add(Did::cleared);
    add(visit_to("Y1", 21, 19, 94)).state.add(State::clogged);
    add(visit_to("B1", 0, 9));
    add(visit_to("B1", 10, 3));
    add(visit_to("B1", 21, 0));
    add(visit_to("S1", 4, 2));
    add(visit_to("C1", 0, 20));
    add(visit_to("C1", 4, 22));
    add(visit_to("C1", 10, 21));
    add(visit_to("C1", 21, 18));
    add(visit_to("GONE", 4, 2));
    return visits;
}

struct Reported {
    tests::Scenario hall = tests::hall();
    std::vector<analysis::Site> sites;
    std::optional<analysis::Histories> histories;
    analysis::Report report;
    std::vector<analysis::Round> walks;

    Reported(const std::vector<Visit>& visits, int day) {
        const auto placed = day_0 + std::chrono::hours(19) + std::chrono::minutes(30);
        for (std::size_t i = 0; i < hall.plan.stations.size(); ++i) {
            plan::Station& station = hall.plan.stations[i];
            if (!hall.job.stations[i].control) station.placed = placed;
            for (const int days : {1, 4, 10, 21, 30})
                station.visits.push_back(placed + std::chrono::days(days));
        }
        hall.plan.cost = plan::Cost{};
        hall.plan.cost->per_container = 0.31;
        hall.job.currency = "AUD";
        sites = analysis::sites(hall.job, hall.plan);
        std::vector<std::string> ids;
        for (const auto& site : sites) ids.push_back(site.id);
        histories.emplace(ids);
        for (const Visit& visit : visits) histories->add(visit);
        report = analysis::report(sites, *histories, day_0 + std::chrono::days(day));
        hall.plan.walk.resize(sites.size());
        std::iota(hall.plan.walk.begin(), hall.plan.walk.end(), std::size_t{0});
        walks = analysis::rounds(report, hall.plan.walk);
    }

    [[nodiscard]] std::string text(const std::string& language) const {
        const auto words = tests::words_in(language);
        const document::PlotSource source{hall.job, sites, *histories, report, words};
        std::string all;
        for (const auto& sheet : document::report_sheets(source, hall.plan, walks, hall.who))
            all += document::plain_text(sheet) + "\n";
        return all;
    }
};

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("the report of the hall after three weeks", "[report]") {
    const Reported after(three_weeks(), 22);
    for (const std::string& language : tests::languages())
        tests::check_golden("document/report-" + language + ".txt", after.text(language));
}

TEST_CASE("a report with nothing in it says so", "[report]") {
    // On the day of placing nothing is due; ten days later somebody should have come.
    const std::string at_once = Reported({}, 0).text("en");
    CHECK(has(at_once, "Nothing was due yet."));
    CHECK(has(at_once, "Next round, on 3 March: K1, B1, K2, Y1, S1 and C1."));
    const std::string later = Reported({}, 10).text("en");
    CHECK(has(later, "Nobody has been round yet."));
    CHECK(has(later, "never visited"));
    for (const std::string& text : {at_once, later}) {
        CHECK(has(text, "No counts and no levels yet."));
        CHECK_FALSE(has(text, "nan"));
        CHECK_FALSE(has(text, "inf"));
    }
}

TEST_CASE("a formula is named and what it cannot tell is said", "[report]") {
    const std::string with = Reported(three_weeks(), 22).text("en");
    CHECK(has(with, "Henderson-Tilton)"));
    CHECK(has(with, "1 visit to stations that the job does not have (GONE)"));
    auto visits = three_weeks();
    std::erase_if(visits, [](const Visit& v) { return v.station == "C1"; });
    const std::string without = Reported(visits, 22).text("en");
    CHECK_FALSE(has(without, "Henderson-Tilton)"));
    CHECK(has(without, "Places without bait were not counted in the same rounds"));
}

TEST_CASE("every verdict, flag, action and caution has its words in every language", "[report]") {
    for (const std::string& language : tests::languages()) {
        const auto words = tests::words_in(language);
        for (int i = 0; i <= static_cast<int>(analysis::Flag::never_visited); ++i)
            CHECK_FALSE(document::flag_name(static_cast<analysis::Flag>(i), words).empty());
        analysis::StationReport k1;
        k1.id = "K1";
        k1.containers.resize(2);
        for (int i = 0; i <= static_cast<int>(analysis::Action::look); ++i) {
            const auto action = static_cast<analysis::Action>(i);
            const std::string whole =
                document::action_sentences(k1, {{action, day_0}}, day_0, words);
            CHECK_FALSE(whole.empty());
            const analysis::Step first{action, day_0, analysis::Why::none, 0, 1};
            const analysis::Step second{action, day_0, analysis::Why::none, 0, 2};
            const std::string each = document::action_sentences(k1, {first, second}, day_0, words);
            CHECK(has(each, whole));
            CHECK(each.find("K1-1") < each.find("K1-2"));
            CHECK(each.find("K1-2") < each.find(whole));
        }
        for (int i = 0; i <= static_cast<int>(analysis::Why::few_left); ++i)
            for (const int days : {0, 3}) {
                k1.steps = {{analysis::Action::look, day_0 + std::chrono::days(days),
                             static_cast<analysis::Why>(i)}};
                const auto all = document::step_sentences(k1, day_0, words);
                REQUIRE(all.size() == 1);
                CHECK(all[0].find('{') == std::string::npos);
            }
        for (int i = 1; i <= static_cast<int>(analysis::Caution::one_control); ++i)
            CHECK_FALSE(
                document::caution_sentence(static_cast<analysis::Caution>(i), words).empty());
        analysis::StationReport station;
        station.trend.counts = 2;
        station.trend.first = {analysis::LocalTime(day_0), 20};
        station.trend.last = {analysis::LocalTime(day_0 + std::chrono::days(9)), 4};
        station.trend.none_since = station.trend.last.time;
        station.trend.change_percent = -80;
        station.result_by = day_0;
        for (int i = 0; i <= static_cast<int>(analysis::Verdict::control); ++i) {
            station.verdict = static_cast<analysis::Verdict>(i);
            const std::string text = document::verdict_sentence(station, day_0, words);
            CHECK_FALSE(text.empty());
            CHECK(text.find('{') == std::string::npos);
        }
    }
}

TEST_CASE("a change is never rounded to all gone while one is left", "[report]") {
    const auto words = tests::words_in("en");
    CHECK(document::change_text(-99.7, words) == "-99\u00a0%");
    CHECK(document::change_text(-100, words) == "-100\u00a0%");
    CHECK(document::change_text(-97.5, words) == "-98\u00a0%");
    CHECK(document::change_text(50, words) == "+50\u00a0%");
    CHECK(document::change_text(0, words) == "0\u00a0%");
    CHECK(document::days_text(9.97, words) == "10 days");
    CHECK(document::days_text(1.04, words) == "1 day");
    CHECK(document::days_figure(4.25, words) == "4.2");
}

TEST_CASE("nothing of a plot lies outside its axes", "[report]") {
    const Reported after(three_weeks(), 22);
    const auto words = tests::words_in("en");
    const document::PlotSource source{after.hall.job, after.sites, *after.histories, after.report,
                                      words};
    const document::Plots plots = document::report_plots(source, 99);
    for (const auto& plot : plots.plots) {
        INFO(text::plain(plot.title));
        CHECK(plot.ticks.size() >= 2);
        for (const auto& panel : plot.panels) {
            const auto inside = [&](const document::Plot::Point& p) {
                CHECK(p.x >= plot.low - 1e-9);
                CHECK(p.x <= plot.high + 1e-9);
                CHECK(p.y >= panel.low - 1e-9);
                CHECK(p.y <= panel.high + 1e-9);
            };
            for (const auto& curve : panel.curves)
                for (const auto& p : curve.points) inside(p);
            for (const auto& band : panel.bands) {
                for (const auto& p : band.low) inside(p);
                for (const auto& p : band.high) inside(p);
            }
            for (const auto& marks : panel.marks)
                for (const auto& p : marks.points) inside(p);
            for (const auto& tick : panel.ticks) inside({plot.low, tick.at});
        }
    }
    CHECK(plots.plots.size() == 5);  // K2 was never visited
}
