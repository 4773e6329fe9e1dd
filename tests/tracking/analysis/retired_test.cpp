// Stations that were taken up for good, and those that only the log still knows.
#include "catch_all.hpp"

#include "made.hpp"

using namespace gallipot;
using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

Histories ended(const std::vector<Site>& sites, const std::vector<Visit>& visits) {
    std::vector<std::string> ids;
    for (const Site& s : sites) ids.push_back(s.id);
    Histories result(ids);
    for (std::size_t i = 0; i < sites.size(); ++i)
        if (sites[i].until) result.end(i, *sites[i].until);
    for (const Visit& v : visits) result.add(v);
    return result;
}

std::vector<Visit> two_falling() {
    return together(together(counted({{-0.1, 40}, {7, 20}, {14, 8}, {21, 2}}, "K1"),
                             counted({{-0.1, 30}, {7, 15}, {14, 6}}, "K2")),
                    counted({{-0.1, 30}, {7, 31}, {14, 29}, {21, 30}}, "C1"));
}

job::Job job_against(const std::vector<std::string>& pests) {
    job::Job job;
    for (const auto& pest : pests) {
        job::Mix mix;
        mix.id = pest;
        mix.against.value = pest;
        mix.form.value = job::Form::liquid;
        job.mixes.push_back(mix);
    }
    return job;
}

History history_of(const std::vector<Visit>& visits) {
    Histories all({});
    for (const Visit& v : visits) all.add(v);
    return all.of_unknown(visits.front().station);
}

}  // namespace

TEST_CASE("a station taken up keeps its place in every figure of the trial", "[retired]") {
    std::vector<Site> sites{site("K1"), site("K2"), control("C1")};
    const Report before = report(sites, ended(sites, two_falling()), on_day(25));
    sites[1].until = on_day(15);
    const Report after = report(sites, ended(sites, two_falling()), on_day(25));
    CHECK(after.pests[0].trend.first.seen == before.pests[0].trend.first.seen);
    CHECK(after.pests[0].trend.last.seen == before.pests[0].trend.last.seen);
    CHECK(after.pests[0].trend.change_percent == before.pests[0].trend.change_percent);
    REQUIRE(after.pests[0].efficacy.percent);
    CHECK(*after.pests[0].efficacy.percent == *before.pests[0].efficacy.percent);
    CHECK(after.stations[1].trend.change_percent == before.stations[1].trend.change_percent);
    CHECK(after.stations[1].verdict == Verdict::retired);
    CHECK(after.stations[1].steps.empty());
    CHECK(after.stations[1].flags.empty());
    CHECK(after.retired == 1);
    CHECK_FALSE(before.stations[1].steps.empty());
    // Until that day it is a station like others.
    const Report then = report(sites, ended(sites, two_falling()), on_day(14));
    CHECK_FALSE(then.stations[1].retired);
    CHECK_FALSE(then.stations[1].steps.empty());
}

TEST_CASE("what is logged after the end counts for nothing, on the day itself it counts",
          "[retired]") {
    std::vector<Site> sites{site("K1")};
    sites[0].until = on_day(10);
    Histories all({"K1"});
    all.end(0, on_day(10));
    CHECK(all.add(Made(10).saw(3)));
    CHECK_FALSE(all.add(Made(11).saw(50)));
    CHECK(all.until(0, on_day(30)).size() == 1);
}

TEST_CASE("of a station that only the log knows, bait in its visits says what it was",
          "[retired]") {
    const auto site_of = [](const std::vector<Visit>& visits,
                            const std::vector<std::string>& pests) {
        return site_of_log("N1", history_of(visits), job_against(pests));
    };
    const std::vector<Visit> counts = counted({{0, 9}, {7, 4}}, "N1");
    std::vector<Visit> with_bait = counts;
    with_bait.back().level_percent = 40;
    CHECK_FALSE(site_of(counts, {"ants"}));  // may have been a control
    CHECK_FALSE(site_of(with_bait, {"ants", "cockroaches"}));
    const auto known = site_of(with_bait, {"ants"});
    REQUIRE(known);
    CHECK(known->pest == "ants");
    CHECK_FALSE(known->in_job);
    CHECK_FALSE(known->control);
    CHECK(known->until == on_day(7));
    for (const auto change :
         {+[](Visit& v) { v.feeding = true; }, +[](Visit& v) { v.state.add(State::clogged); },
          +[](Visit& v) { v.did.add(Did::replaced); }}) {
        std::vector<Visit> other = counts;
        change(other.back());
        CHECK(site_of(other, {"ants"}));
    }
}

TEST_CASE("taking a station out of the job leaves the totals as they were", "[retired]") {
    std::vector<Visit> visits = two_falling();
    for (Visit& v : visits)
        if (v.station == "K2" && v.time > placed) v.level_percent = 80;
    std::vector<Site> sites{site("K1"), site("K2"), control("C1")};
    for (Site& s : sites) s.pest = "ants";
    const Report before = report(sites, histories(sites, visits), on_day(25));
    sites.erase(sites.begin() + 1);
    Histories all = histories(sites, visits);
    CHECK(all.unknown_stations().at("K2") == 3);
    sites.push_back(*site_of_log("K2", all.of_unknown("K2"), job_against({"ants"})));
    all.adopt("K2");
    CHECK(all.unknown_stations().empty());
    const Report after = report(sites, all, on_day(25));
    CHECK(after.pests[0].trend.first.seen == before.pests[0].trend.first.seen);
    CHECK(after.pests[0].trend.last.seen == before.pests[0].trend.last.seen);
    CHECK(*after.pests[0].efficacy.percent == *before.pests[0].efficacy.percent);
    CHECK(after.stations.back().verdict == Verdict::retired);
}
