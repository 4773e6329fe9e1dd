#include "domain/schedule/schedule.hpp"

#include <limits>

#include "catch_all.hpp"

using namespace gallipot;
using namespace gallipot::schedule;
using namespace std::chrono;
using units::Duration;

namespace {

Date date(int y, unsigned m, unsigned d) {
    return Date{year{y}, month{m}, day{d}};
}
LocalTime at(int y, unsigned m, unsigned d, int h = 0, int min = 0) {
    return local_days{date(y, m, d)} + hours{h} + minutes{min};
}
diag::At<Duration> offset(Duration time) {
    return {time, {}};
}

job::Job job_of(Date prepared) {
    job::Job job;
    job.prepared = {prepared, {}};
    job.visits = {offset(units::hours(1)), offset(units::days(1)), offset(units::days(30))};
    job.no_sprays_for = offset(units::days(21));
    return job;
}

}  // namespace

TEST_CASE("days and hours over the ends of months and years") {
    // By the calendar on the wall.
    CHECK(after(at(2027, 1, 31, 10), units::days(1)) == at(2027, 2, 1, 10));
    CHECK(after(at(2027, 2, 28), units::days(1)) == at(2027, 3, 1));
    CHECK(after(at(2028, 2, 28), units::days(1)) == at(2028, 2, 29));
    CHECK(after(at(2028, 2, 28), units::days(2)) == at(2028, 3, 1));
    CHECK(after(at(2100, 2, 28), units::days(1)) == at(2100, 3, 1));  // no leap year
    CHECK(after(at(2000, 2, 28), units::days(1)) == at(2000, 2, 29));
    CHECK(after(at(2027, 12, 31, 23, 30), units::hours(1)) == at(2028, 1, 1, 0, 30));
    CHECK(after(at(2027, 12, 15), units::days(30)) == at(2028, 1, 14));
    CHECK(after(at(2027, 3, 2, 19, 30), Duration::si(90)) == at(2027, 3, 2, 19, 32));
    CHECK(after(at(1970, 1, 1), units::days(-1)) == at(1969, 12, 31));
}

TEST_CASE("four hundred years of single days keep step with the calendar") {
    auto day = sys_days{date(2000, 1, 1)};
    LocalTime time = at(2000, 1, 1, 12);
    for (int i = 0; i < 146097; ++i) {
        if (day_of(time) != Date{day}) FAIL("day " << i);
        day += days{1};
        time = *after(time, units::days(1));
    }
    CHECK(day_of(time) == date(2400, 1, 1));
}

TEST_CASE("nothing is due after the year 9999") {
    CHECK(after(at(9999, 12, 31), units::hours(23)));
    CHECK_FALSE(after(at(9999, 12, 31), units::hours(24)));
    CHECK_FALSE(after(at(2027, 1, 1), units::days(1e15)));
    CHECK_FALSE(after(at(2027, 1, 1), units::days(std::numeric_limits<double>::infinity())));
    CHECK_FALSE(after(at(2027, 1, 1), units::days(std::numeric_limits<double>::quiet_NaN())));
}

TEST_CASE("a station's dates") {
    job::Job job = job_of(date(2027, 3, 2));
    job::Mix mix;
    mix.lasts = offset(units::days(30));
    job::Station station;
    station.placed = diag::At<LocalTime>{at(2027, 3, 2, 19, 30), {}};
    diag::Diagnostics out;
    const reference::Pest* ants = reference::find_pest("ants");

    Times times = times_of(Starts(job), station, &mix, ants, out);
    CHECK(times.visits == std::vector<LocalTime>{at(2027, 3, 2, 20, 30), at(2027, 3, 3, 19, 30),
                                                 at(2027, 4, 1, 19, 30)});
    CHECK(times.replace_by == date(2027, 4, 1));
    CHECK(times.no_sprays_until == date(2027, 3, 23));
    // First to third week: Klotz and others 1996.
    CHECK(times.result_from == date(2027, 3, 9));
    CHECK(times.result_until == date(2027, 3, 23));

    SECTION("the mix's visits go before the job's, the station's before both") {
        mix.visits = {{offset(units::days(7))}};
        CHECK(times_of(Starts(job), station, &mix, ants, out).visits ==
              std::vector<LocalTime>{at(2027, 3, 9, 19, 30)});
        station.visits = {{offset(units::days(2)), offset(units::days(1)), offset(units::days(2))}};
        CHECK(times_of(Starts(job), station, &mix, ants, out).visits ==
              std::vector<LocalTime>{at(2027, 3, 3, 19, 30), at(2027, 3, 4, 19, 30)});
        station.visits.emplace();
        CHECK(times_of(Starts(job), station, &mix, ants, out).visits.empty());
    }
    SECTION("not placed yet: noon of the day of preparation") {
        station.placed.reset();
        times = times_of(Starts(job), station, &mix, ants, out);
        CHECK(times.visits.front() == at(2027, 3, 2, 13));
        CHECK(times.replace_by == date(2027, 4, 1));
    }
    SECTION("a control is visited and nothing else") {
        times = times_of(Starts(job), station, nullptr, nullptr, out);
        CHECK(times.visits.size() == 3);
        CHECK_FALSE(times.replace_by);
        CHECK_FALSE(times.no_sprays_until);
        CHECK_FALSE(times.result_from);
    }
    CHECK_FALSE(out.has_errors());
    SECTION("what is too far off is an error at its place") {
        mix.lasts->value = units::days(1e7);
        mix.lasts->place.line = 12;
        times = times_of(Starts(job), station, &mix, ants, out);
        CHECK_FALSE(times.replace_by);
        REQUIRE(out.errors() == 1);
        CHECK(out.in_order().front().code == "date-too-far");
        CHECK(out.in_order().front().place.line == 12);
    }
}

namespace {

job::Station station_of(const std::string& id, const std::string& mix,
                        std::optional<LocalTime> placed) {
    job::Station station;
    station.id = {id, {}};
    if (mix.empty())
        station.control = true;
    else
        station.mix = diag::At<std::string>{mix, {}};
    if (placed) station.placed = diag::At<LocalTime>{*placed, {}};
    return station;
}

job::Mix mix_of(const std::string& id, const std::string& against) {
    job::Mix mix;
    mix.id = id;
    mix.against = {against, {}};
    return mix;
}

}  // namespace

TEST_CASE("a control without a time goes with the baits against its pest") {
    job::Job job = job_of(date(2027, 3, 2));
    job.mixes = {mix_of("syrup", "sugar ants"), mix_of("dry", "cockroaches")};
    job.mixes[1].visits = {{offset(units::days(3))}};
    job.stations = {station_of("K1", "syrup", at(2027, 3, 4, 19, 30)),
                    station_of("K2", "syrup", at(2027, 3, 3, 20, 15)),
                    station_of("R1", "dry", at(2027, 3, 3, 22)), station_of("C1", "", {})};
    const Starts starts(job);
    job::Station& control = job.stations[3];
    diag::Diagnostics out;

    control.against = diag::At<std::string>{"ants", {}};
    CHECK(starts.of(control) == at(2027, 3, 3, 20, 15));
    CHECK(times_of(starts, control, nullptr, nullptr, out).visits ==
          times_of(starts, job.stations[1], &job.mixes[0], nullptr, out).visits);
    control.against->value = "cockroaches";
    CHECK(starts.of(control) == at(2027, 3, 3, 22));
    CHECK(times_of(starts, control, nullptr, nullptr, out).visits ==
          std::vector<LocalTime>{at(2027, 3, 6, 22)});
    // A pest that nothing is set out against: the first bait of all.
    control.against->value = "silverfish";
    CHECK(starts.of(control) == at(2027, 3, 3, 20, 15));
    control.against.reset();
    CHECK(starts.of(control) == at(2027, 3, 3, 20, 15));
    // What it says itself goes before.
    control.placed = diag::At<LocalTime>{at(2027, 3, 3, 9), {}};
    CHECK(starts.of(control) == at(2027, 3, 3, 9));
    control.visits = {{offset(units::days(2))}};
    CHECK(times_of(starts, control, nullptr, nullptr, out).visits ==
          std::vector<LocalTime>{at(2027, 3, 5, 9)});
}

TEST_CASE("without a bait a control begins at noon of the day of preparation") {
    job::Job job = job_of(date(2027, 3, 2));
    job.stations = {station_of("C1", "", {})};
    CHECK(Starts(job).of(job.stations[0]) == at(2027, 3, 2, 12));
}

TEST_CASE("a spray is no companion while there is a bait") {
    job::Job job = job_of(date(2027, 3, 2));
    job.mixes = {mix_of("timber", "wood borers"), mix_of("syrup", "ants")};
    job.stations = {station_of("S1", "timber", at(2027, 3, 2, 8)),
                    station_of("K1", "syrup", at(2027, 3, 2, 19)), station_of("C1", "", {})};
    job.stations[0].area = diag::At<units::Area>{units::m2(1), {}};
    CHECK(Starts(job).of(job.stations[2]) == at(2027, 3, 2, 19));
}

TEST_CASE("nobody sprays as long as the bait lasts, where the job does not say how long") {
    job::Job job = job_of(date(2027, 3, 2));
    job.no_sprays_for.reset();
    job::Mix mix = mix_of("syrup", "ants");
    mix.lasts = offset(units::days(30));
    const job::Station station = station_of("K1", "syrup", at(2027, 3, 2, 19, 30));
    diag::Diagnostics out;
    CHECK(times_of(Starts(job), station, &mix, nullptr, out).no_sprays_until == date(2027, 4, 1));
    mix.lasts.reset();
    CHECK_FALSE(times_of(Starts(job), station, &mix, nullptr, out).no_sprays_until);
}

TEST_CASE("treated wood is looked at after three months and after three flying seasons") {
    job::Job job = job_of(date(2027, 3, 2));
    const job::Mix mix{};
    job::Station station;
    station.area = diag::At<units::Area>{units::m2(6), {}};
    station.placed = diag::At<LocalTime>{at(2027, 3, 3, 9), {}};
    diag::Diagnostics out;
    const reference::Pest* termites = reference::find_pest("termites");
    const auto visits = [&](const std::string& region) {
        job.help.region.value = region;
        return times_of(Starts(job), station, &mix, termites, out).visits;
    };
    // Beetles come out from April to July in the north, half a year later in the south.
    CHECK(visits("US") == std::vector<LocalTime>{at(2027, 6, 2, 9), at(2027, 8, 1, 9),
                                                 at(2028, 8, 1, 9), at(2029, 8, 1, 9)});
    CHECK(visits("AU") == std::vector<LocalTime>{at(2027, 6, 2, 9), at(2028, 2, 1, 9),
                                                 at(2029, 2, 1, 9), at(2030, 2, 1, 9)});
    CHECK(visits("PH") == std::vector<LocalTime>{at(2027, 6, 2, 9), at(2028, 3, 3, 9),
                                                 at(2029, 3, 3, 9), at(2030, 3, 3, 9)});
    // Visits of its own go before.
    station.visits = {{offset(units::days(7))}};
    CHECK(visits("US") == std::vector<LocalTime>{at(2027, 3, 10, 9)});
    CHECK_FALSE(times_of(Starts(job), station, &mix, termites, out).result_from);
}
