#include "domain/plan/rounds.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <random>
#include <set>

#include "catch_all.hpp"

#include "planned.hpp"

using namespace gallipot;
using namespace std::chrono_literals;
namespace ch = std::chrono;
using plan::LocalTime;
using plan::Round;

namespace {

LocalTime at(int day, ch::minutes clock) {
    return LocalTime(ch::local_days(ch::year{2027} / 3 / day) + clock);
}

/// Stations in walking order, each by its visits.
plan::Plan made(const std::vector<std::vector<LocalTime>>& visits) {
    plan::Plan plan;
    for (const auto& times : visits) {
        plan::Station station;
        station.id = std::string(1, static_cast<char>('A' + plan.stations.size()));
        station.visits = times;
        plan.walk.push_back(plan.stations.size());
        plan.stations.push_back(station);
    }
    return plan;
}

/// "3 19:30: A B" for each round, by day of March 2027.
std::vector<std::string> told(const plan::Plan& plan) {
    std::vector<std::string> all;
    for (const Round& round : plan::rounds(plan)) {
        const auto day = ch::floor<ch::days>(round.time);
        const ch::hh_mm_ss clock{round.time - day};
        std::string text = std::to_string(static_cast<unsigned>(ch::year_month_day(day).day()));
        text += " " + std::to_string(clock.hours().count()) + ":" +
                std::to_string(clock.minutes().count()) + ":";
        for (const plan::Due& due : round.stops) text += " " + plan.stations[due.station].id;
        all.push_back(text);
    }
    return all;
}

using Told = std::vector<std::string>;

/// Stations set out over some days, each with visits of its own; walked in a random order.
plan::Plan random_plan(std::mt19937& random) {
    const auto whole = [&](int from, int to) {
        return std::uniform_int_distribution<int>(from, to)(random);
    };
    std::vector<std::vector<LocalTime>> visits(static_cast<std::size_t>(whole(1, 40)));
    const int days = whole(1, 4);
    std::vector<LocalTime> placings;
    for (auto& times : visits) {
        const LocalTime placed = at(whole(1, days), ch::minutes(whole(8 * 60, 20 * 60)));
        placings.push_back(placed);
        std::set<LocalTime> once;
        for (int n = whole(0, 6); n > 0; --n)
            once.insert(placed + (whole(0, 3) == 0 ? ch::minutes(whole(1, 2000))
                                                   : ch::minutes(ch::days(whole(1, 30)))));
        times.assign(once.begin(), once.end());
    }
    plan::Plan plan = made(visits);
    for (std::size_t i = 0; i < visits.size(); ++i) {
        plan.stations[i].placed = placings[i];
        if (whole(0, 2) == 0)
            plan.stations[i].replace_by =
                plan::Date(ch::floor<ch::days>(placings[i]) + ch::days(whole(1, 20)));
    }
    std::shuffle(plan.walk.begin(), plan.walk.end(), random);
    const units::Duration windows[] = {units::hours(1), units::hours(6), units::days(1),
                                       units::days(2), units::days(7)};
    plan.round_within = windows[whole(0, 4)];
    return plan;
}

}  // namespace

TEST_CASE("what is set out over an evening is seen to at one time", "[rounds]") {
    // Set out from 18:00 to 19:30: the earliest at which each has stood for its day is 19:30.
    auto plan = made({{at(3, 18h), at(9, 18h)},
                      {at(3, 19h), at(9, 19h)},
                      {at(3, 19h + 30min), at(9, 19h + 30min)}});
    CHECK(told(plan) == Told{"3 19:30: A B C", "9 19:30: A B C"});
    plan.walk = {2, 0, 1};
    CHECK(told(plan) == Told{"3 19:30: C A B", "9 19:30: C A B"});
}

TEST_CASE("a day is one on the calendar, and hours go by the clock", "[rounds]") {
    auto plan = made({{at(3, 19h)}, {at(4, 8h)}, {at(5, 20h)}});
    CHECK(told(plan) == Told{"3 19:0: A", "4 8:0: B", "5 20:0: C"});
    plan.round_within = units::days(2);
    CHECK(told(plan) == Told{"4 8:0: A B", "5 20:0: C"});
    plan.round_within = units::days(3);
    CHECK(told(plan) == Told{"5 20:0: A B C"});
    plan.round_within = units::hours(13);
    CHECK(told(plan) == Told{"4 8:0: A B", "5 20:0: C"});
    plan.round_within = units::hours(12.9);
    CHECK(told(plan).size() == 3);
    CHECK(plan::round_days(units::hours(13)) == ch::days(1));
    CHECK(plan::round_days(units::days(2)) == ch::days(2));
    CHECK(plan::round_days(units::hours(60)) == ch::days(2));
}

TEST_CASE("a visit does not wait for the next to its station", "[rounds]") {
    auto plan = made({{at(3, 8h), at(3, 12h)}, {at(3, 13h)}});
    CHECK(told(plan) == Told{"3 8:0: A", "3 13:0: A B"});
    plan = made({{at(3, 18h), at(5, 18h)}, {at(4, 19h + 30min), at(6, 19h + 30min)}});
    plan.round_within = units::days(2);
    CHECK(told(plan) == Told{"4 19:30: A B", "6 19:30: A B"});
}

TEST_CASE("a visit an hour after setting out does not wait for the evening", "[rounds]") {
    auto plan = made({{at(3, 10h), at(4, 9h)}, {at(3, 19h + 40min), at(3, 20h + 30min)}});
    plan.stations[0].placed = at(3, 9h);
    plan.stations[1].placed = at(2, 19h + 40min);
    CHECK(told(plan) == Told{"3 10:0: A", "3 19:40: B", "3 20:30: B", "4 9:0: A"});
    // Two hours it may wait, so that what is set out in turn is seen to in turn.
    plan = made({{at(2, 19h)}, {at(2, 20h + 30min)}});
    plan.stations[0].placed = at(2, 18h);
    plan.stations[1].placed = at(2, 19h + 30min);
    CHECK(told(plan) == Told{"2 20:30: A B"});
}

TEST_CASE("no visit waits past the day on which the bait is to be replaced", "[rounds]") {
    auto plan = made({{at(3, 19h)}, {at(4, 19h)}});
    plan.round_within = units::days(2);
    CHECK(told(plan) == Told{"4 19:0: A B"});
    plan.stations[0].replace_by = ch::year{2027} / 3 / 3;
    CHECK(told(plan) == Told{"3 19:0: A", "4 19:0: B"});
    // What was due after that day is late either way.
    plan.stations[0].replace_by = ch::year{2027} / 3 / 2;
    CHECK(told(plan) == Told{"4 19:0: A B"});
}

TEST_CASE("of two rounds that could take a visit it goes where less waits", "[rounds]") {
    // A's second visit on the 5th makes a round of its own necessary; B, due on the 4th, would make
    // A wait for a day on the first, and waits an hour itself on the second.
    auto plan = made({{at(3, 8h), at(5, 9h)}, {at(5, 8h)}});
    plan.round_within = units::days(3);
    CHECK(told(plan) == Told{"3 8:0: A", "5 9:0: A B"});
}

TEST_CASE("the first counts of an evening are one round, before the first is set out", "[rounds]") {
    auto plan = made({{}, {}, {}});
    plan.stations[0].placed = at(2, 19h);
    plan.stations[1].placed = at(2, 18h);
    const auto rounds = plan::placing_rounds(plan);
    REQUIRE(rounds.size() == 1);
    CHECK(rounds[0].time == at(2, 18h));
    CHECK(rounds[0].stops == std::vector<plan::Due>{{0, at(2, 19h)}, {1, at(2, 18h)}});
}

TEST_CASE("rounds of random jobs hold each visit once, in time and in walking order",
          "[rounds][property]") {
    std::mt19937 random(20270302);
    std::size_t joined = 0;
    for (int n = 0; n < 400; ++n) {
        const plan::Plan plan = random_plan(random);
        std::map<std::size_t, std::size_t> place;
        for (std::size_t i = 0; i < plan.walk.size(); ++i) place[plan.walk[i]] = i;
        const double within = units::in_days(plan.round_within);
        std::set<std::pair<std::size_t, LocalTime>> seen;
        LocalTime before = LocalTime::min();
        for (const Round& round : plan::rounds(plan)) {
            REQUIRE_FALSE(round.stops.empty());
            CHECK(round.time > before);
            before = round.time;
            LocalTime first = LocalTime::max();
            LocalTime last = LocalTime::min();
            for (std::size_t i = 0; i < round.stops.size(); ++i) {
                const auto& [station, due] = round.stops[i];
                CHECK(seen.emplace(station, due).second);
                if (i > 0) CHECK(place[round.stops[i - 1].station] < place[station]);
                first = std::min(first, due);
                last = std::max(last, due);
                // The visit after it is on a later round.
                const auto& visits = plan.stations[station].visits;
                const auto next = std::upper_bound(visits.begin(), visits.end(), due);
                if (next != visits.end()) CHECK(round.time < *next);
                const auto& replace = plan.stations[station].replace_by;
                if (replace && plan::Date(ch::floor<ch::days>(due)) <= *replace)
                    CHECK(plan::Date(ch::floor<ch::days>(round.time)) <= *replace);
            }
            CHECK(round.time == last);
            if (within >= 1)
                CHECK(ch::floor<ch::days>(last) - ch::floor<ch::days>(first) <=
                      ch::days(static_cast<int>(within) - 1));
            else
                CHECK(units::hours(static_cast<double>((last - first).count()) / 60) <=
                      plan.round_within * (1 + 1e-12));
            joined += round.stops.size() - 1;
        }
        std::size_t planned = 0;
        for (const plan::Station& station : plan.stations) {
            planned += station.visits.size();
            for (const LocalTime due : station.visits)
                CHECK(seen.contains(
                    {plan.walk[place[static_cast<std::size_t>(&station - plan.stations.data())]],
                     due}));
        }
        CHECK(seen.size() == planned);
    }
    CHECK(joined > 5000);
}

TEST_CASE("there are no fewer rounds than the window allows", "[rounds][property]") {
    // Against trying every division of the visits in order of time.
    std::mt19937 random(7);
    for (int n = 0; n < 300; ++n) {
        std::vector<std::vector<LocalTime>> visits(static_cast<std::size_t>(1 + n % 9));
        for (auto& times : visits)
            times = {at(static_cast<int>(1 + random() % 6), ch::minutes(random() % 1440))};
        plan::Plan plan = made(visits);
        plan.round_within = units::days(static_cast<double>(1 + random() % 3));
        std::vector<LocalTime> due;
        for (const auto& times : visits) due.push_back(times.front());
        std::sort(due.begin(), due.end());
        std::size_t fewest = due.size();
        for (unsigned cuts = 0; cuts < 1U << (due.size() - 1); ++cuts) {
            std::size_t rounds = 1;
            LocalTime first = due.front();
            bool good = true;
            for (std::size_t i = 1; i < due.size(); ++i) {
                if ((cuts >> (i - 1) & 1U) != 0) {
                    ++rounds;
                    first = due[i];
                }
                good = good && ch::floor<ch::days>(due[i]) - ch::floor<ch::days>(first) <
                                   plan::round_days(plan.round_within);
            }
            if (good) fewest = std::min(fewest, rounds);
        }
        CHECK(plan::rounds(plan).size() == fewest);
    }
}
