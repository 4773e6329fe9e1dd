#include "tracking/evidence/evidence.hpp"

#include <array>
#include <memory>
#include <random>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "folder.hpp"

using namespace gallipot;

namespace {

/// A station of three cups; `borax` percent of it in the syrup, `lasts` days.
struct Job {
    Job(double borax, int lasts, const std::string& placed = "2027-03-02 19:30") {
        diag::Diagnostics found;
        const std::string text =
            "title: Block\nprepared: 2027-03-01\nhelp: { region: AU }\ntime_zone: UTC\n"
            "measures: [1 tsp, { jug: 500 mL, marks: 25 mL }, { scale: 2 kg, marks: 0.1 g }]\n"
            "mixes:\n  syrup:\n    title: Syrup\n    against: ants\n    form: liquid\n"
            "    basis: percent w/w\n    accept: [far-from-usual]\n"
            "    ingredients: { borax: " +
            std::to_string(borax) +
            ", sugar: 25, water: rest }\n"
            "    lasts: " +
            std::to_string(lasts) +
            " d\n"
            "containers: { cup: { holds: 60 mL, fill: 45 mL } }\n"
            "visits: [1 d, 7 d, 14 d]\n"
            "stations:\n  - { id: K1, place: Kitchen, mix: syrup, container: cup, count: 3, "
            "placed: " +
            placed + " }\n";
        job = job::read_job(std::make_shared<const diag::Source>(diag::Source{"job.yaml", text}),
                            found);
        if (job) plan = plan::make_plan(*job, {}, found);
        INFO(diag::print(found));
        REQUIRE_FALSE(found.has_errors());
    }
    std::optional<job::Job> job;
    plan::Plan plan;
};

log::LocalTime at(int day, int minute = 0) {
    return std::chrono::local_days(std::chrono::year(2027) / 3 / 2) + std::chrono::days(day) +
           std::chrono::hours(20) + std::chrono::minutes(minute);
}

analysis::Day on(int day) {
    return analysis::day_of(at(day));
}

/// The entry of one container, or of all three for 0.
log::Draft entry(int day, int container, visit::Did did, int minute = 0) {
    log::Draft draft;
    draft.visit.station = "K1";
    draft.visit.container = container;
    draft.visit.time = at(day, minute);
    draft.visit.did.add(did);
    return draft;
}

const log::Instant now{std::chrono::seconds(1'805'000'000)};

const std::vector<analysis::ContainerState>& cups(const evidence::Evidence& evidence) {
    return evidence.report.stations.at(0).containers;
}

double percent(const analysis::ContainerState& cup) {
    REQUIRE(cup.holds.recipe);
    return cup.holds.recipe->parts.at(0).share * 100;
}

}  // namespace

TEST_CASE("a container holds what it was filled with, whatever the job says later", "[evidence]") {
    const tests::Folder folder;
    log::Log visits(folder / "log");
    const Job first(1, 30), second(2, 20);
    const auto record = [&](const Job& job, const log::Draft& draft) {
        visits.record(draft, now, evidence::facts_of(*job.job, job.plan));
    };
    record(first, entry(5, 0, visit::Did::cleared));
    record(second, entry(8, 2, visit::Did::replaced));
    record(second, entry(8, 3, visit::Did::refilled, 1));
    const auto as_it_is = evidence::read(*second.job, second.plan, &visits, at(9), on(9));
    CHECK(percent(cups(as_it_is)[0]) == Approx(1));
    CHECK(cups(as_it_is)[0].holds.older);
    CHECK(cups(as_it_is)[0].replace_by == on(30));  // as it was when it was filled
    CHECK(percent(cups(as_it_is)[1]) == Approx(2));
    CHECK_FALSE(cups(as_it_is)[1].holds.older);
    CHECK(cups(as_it_is)[1].replace_by == on(28));
    CHECK(cups(as_it_is)[2].holds.mixed);
    CHECK(percent(cups(as_it_is)[2]) == Approx(2));  // the stronger of the two
    CHECK(cups(as_it_is)[2].replace_by == on(30));
    // A weaker one on top does not make it weaker.
    record(first, entry(9, 2, visit::Did::refilled));
    const auto topped = evidence::read(*first.job, first.plan, &visits, at(9), on(9));
    CHECK(percent(cups(topped)[1]) == Approx(2));
    CHECK(cups(topped)[1].holds.mixed);
    // It had been a slip all along.
    visits.note_from_start(evidence::facts_of(*first.job, first.plan), now);
    const auto mended = evidence::read(*first.job, first.plan, &visits, at(9), on(9));
    for (const auto& cup : cups(mended)) {
        CHECK(percent(cup) == Approx(1));
        CHECK_FALSE(cup.holds.mixed);
    }
}

TEST_CASE("recipes changed at random leave in each container what was put in", "[evidence]") {
    const std::array strengths{0.8, 1.0, 1.3, 2.0};
    std::vector<std::unique_ptr<Job>> jobs;
    for (const double strength : strengths) jobs.push_back(std::make_unique<Job>(strength, 30));
    std::mt19937 random(9);
    const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
    for (int run = 0; run < 12; ++run) {
        const tests::Folder folder;
        log::Log visits(folder / "log");
        std::size_t job = below(strengths.size());
        bool begun = false;
        /// What is in each cup: fresh, and what was put on top.
        std::array<std::vector<std::size_t>, 3> held;
        for (int day = 1; day <= 25; ++day) {
            if (below(4) == 0) job = below(strengths.size());
            if (below(3) != 0) {
                const int container = static_cast<int>(below(4));
                const visit::Did did = std::array{visit::Did::cleared, visit::Did::refilled,
                                                  visit::Did::replaced}[below(3)];
                visits.record(entry(day, container, did), now,
                              evidence::facts_of(*jobs[job]->job, jobs[job]->plan));
                if (!begun) held.fill({job});  // the first that is noted held from the start
                begun = true;
                for (std::size_t cup = 0; cup < held.size(); ++cup) {
                    if (container != 0 && static_cast<std::size_t>(container) != cup + 1) continue;
                    if (did == visit::Did::replaced) held[cup] = {job};
                    if (did == visit::Did::refilled) held[cup].push_back(job);
                }
            }
            if (!begun) continue;
            const auto evidence =
                evidence::read(*jobs[job]->job, jobs[job]->plan, &visits, at(day, 5), on(day));
            for (std::size_t cup = 0; cup < held.size(); ++cup) {
                CAPTURE(run, day, cup);
                const auto& all = held[cup];
                const double strongest = strengths[*std::ranges::max_element(all)];
                REQUIRE(percent(cups(evidence)[cup]) == Approx(strongest));
                const bool mixed =
                    std::ranges::any_of(all, [&](std::size_t one) { return one != all.front(); });
                REQUIRE(cups(evidence)[cup].holds.mixed == mixed);
                REQUIRE(cups(evidence)[cup].holds.older == (strongest != strengths[job]));
            }
        }
    }
}

TEST_CASE("a later report says what an earlier one said of that day", "[evidence]") {
    const tests::Folder folder;
    log::Log visits(folder / "log");
    const Job first(1, 30);
    for (int day = 1; day < 20; ++day)
        visits.record(entry(day, day % 4, visit::Did::refilled), now,
                      evidence::facts_of(*first.job, first.plan));
    const auto then = evidence::read(*first.job, first.plan, &visits, at(5), on(5));
    const auto later = evidence::read(*first.job, first.plan, &visits, at(30), on(5));
    REQUIRE(then.rounds.size() == later.rounds.size());
    for (std::size_t i = 0; i < then.rounds.size(); ++i) {
        CHECK(then.rounds[i].on == later.rounds[i].on);
        CHECK(then.rounds[i].stops.size() == later.rounds[i].stops.size());
    }
    CHECK(then.report.stations[0].steps == later.report.stations[0].steps);
}

TEST_CASE("a station that left the job counts until its end, as what it was", "[evidence]") {
    const tests::Folder folder;
    log::Log visits(folder / "log");
    const Job first(1, 30);
    auto facts = evidence::facts_of(*first.job, first.plan);
    facts.push_back({log::Fact::Kind::station, "K9",
                     recipe::print(recipe::FormerStation{"ants", false, false, 1, at(0)})});
    facts.push_back({log::Fact::Kind::station, "C9",
                     recipe::print(recipe::FormerStation{"ants", true, false, 0, {}})});
    for (const int day : {-1, 5, 10})
        for (const char* station : {"K1", "K9", "C9"}) {
            log::Draft draft;
            draft.visit.station = station;
            draft.visit.time = at(day);
            draft.visit.seen = 20 - day;  // of bait nothing is said
            visits.record(draft, now, facts);
        }
    const auto evidence = evidence::read(*first.job, first.plan, &visits, at(12), on(12));
    REQUIRE(evidence.report.stations.size() == 3);
    CHECK(evidence.report.unknown_stations.empty());
    CHECK(evidence.report.pests[0].trend.first.seen == 42);
    CHECK(evidence.report.pests[0].trend.last.seen == 20);
    const auto& control = evidence.report.stations[1];
    CHECK(control.id == "C9");
    CHECK(control.control);
    CHECK(evidence.report.stations[2].retired);
    CHECK(evidence.report.stations[2].steps.empty());
    CHECK(evidence.report.pests[0].efficacy.controls == 1);
}

TEST_CASE("a later day of placing is a refill, and wipes no trial", "[evidence]") {
    const tests::Folder folder;
    log::Log visits(folder / "log");
    const Job first(1, 30), again(1, 30, "2027-03-20 19:30");
    const auto count = [&](int day, int seen, std::optional<int> level) {
        log::Draft draft;
        draft.visit.station = "K1";
        draft.visit.time = at(day);
        draft.visit.seen = seen;
        draft.visit.level_percent = level;
        visits.record(draft, now, evidence::facts_of(*first.job, first.plan));
    };
    count(-1, 40, {});
    count(3, 30, {});
    // Nothing tells of bait before the later day: the earlier one was a slip.
    const auto slip = evidence::read(*again.job, again.plan, &visits, at(19), on(19));
    CHECK(slip.sites[0].placed == *again.plan.stations[0].placed);
    count(7, 20, 60);
    count(14, 10, 30);
    const auto before = evidence::read(*first.job, first.plan, &visits, at(19), on(19));
    const auto after = evidence::read(*again.job, again.plan, &visits, at(19), on(19));
    CHECK(after.report.pests[0].trend.counts == before.report.pests[0].trend.counts);
    CHECK(after.report.pests[0].trend.first.seen == 40);
    CHECK(after.report.pests[0].trend.change_percent == before.report.pests[0].trend.change_percent);
    CHECK(cups(after)[0].replace_by == on(18 + 30));
    CHECK(cups(before)[0].replace_by == on(30));
    CHECK(cups(after)[0].level_percent == 100);
}
