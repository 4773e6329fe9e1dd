#include "domain/job/on_day.hpp"

#include <fmt/format.h>
#include <random>

#include "catch_all.hpp"

#include "job_text.hpp"

using namespace gallipot;
using job::Alteration;
using job::Date;
using job::Job;
using job::Station;
using tests::changed;

namespace {

Date day(int month, unsigned number) {
    return Date{std::chrono::year{2027}, std::chrono::month(static_cast<unsigned>(month)),
                std::chrono::day{number}};
}

/// The small job with a stronger mix, a mug, and more keys at K1.
std::string job_text(const std::string& more) {
    std::string text = changed(
        tests::small_job, "  timber:\n    title",
        "  strong: { title: Strong syrup, against: ants, form: liquid, basis: percent w/w, "
        "ingredients: { borax: 2, malt: 20, water: rest }, lasts: 20 d }\n  timber:\n    title");
    text = changed(text, "containers:\n", "containers:\n  mug: { holds: 200 mL, fill: 90 mL }\n");
    return changed(text, "    container: cup\n", "    container: cup\n" + more);
}

Job read_job(const std::string& more) {
    const auto got = tests::read(job_text(more));
    INFO(diag::print(got.found));
    REQUIRE(got.job);
    return *got.job;
}

const std::string story =
    "    placed: 2027-03-02 19:30\n"
    "    changes:\n"
    "      - { on: 2027-03-20 18:00, place: Hall }\n"
    "      - { on: 2027-04-02, mix: strong, count: 2 }\n"
    "      - { on: 2027-04-10, container: mug }\n"
    "    until: 2027-05-01\n";

std::vector<std::string> ids(const std::vector<job::Mix>& mixes) {
    std::vector<std::string> all;
    for (const auto& mix : mixes) all.push_back(mix.id);
    return all;
}

}  // namespace

TEST_CASE("a change holds from its day on, and the end ends it", "[on_day]") {
    const Job written = read_job(story);
    const auto k1 = [&](Date on) { return job::on_day(written, on).stations.front(); };
    CHECK(k1(day(3, 1)).place->main() == "Kitchen");
    CHECK(k1(day(3, 19)).place->main() == "Kitchen");
    CHECK(k1(day(3, 20)).place->main() == "Hall");
    CHECK(**k1(day(4, 1)).mix == "syrup");
    CHECK(**k1(day(4, 2)).mix == "strong");
    CHECK(k1(day(4, 1)).count == 1);
    CHECK(k1(day(4, 2)).count == 2);
    CHECK(k1(day(4, 2)).place->main() == "Hall");
    CHECK(**k1(day(4, 9)).container == "cup");
    CHECK(**k1(day(4, 10)).container == "mug");
    CHECK(*k1(day(4, 30)).id == "K1");
    const Job after = job::on_day(written, day(5, 1));
    CHECK(*after.stations.front().id == "S1");
    REQUIRE(after.retired.size() == 1);
    CHECK(*after.retired[0].id == "K1");
    CHECK(**after.retired[0].mix == "strong");  // as it was last
    CHECK(&after.station_at(2) == &after.retired[0]);
    CHECK(job::most_containers(after.retired[0]) == 2);
}

TEST_CASE("what stands since a change was filled then, and a mix that came with it made",
          "[on_day]") {
    const Job written = read_job(story);
    const auto filled = [&](Date on) { return job::on_day(written, on).stations.front().filled; };
    CHECK_FALSE(filled(day(3, 20)));  // moved, not filled
    const auto noon = [](Date on) {
        return job::LocalTime(std::chrono::local_days(on)) + std::chrono::hours(12);
    };
    CHECK(filled(day(4, 2)) == noon(day(4, 2)));
    CHECK(filled(day(4, 10)) == noon(day(4, 10)));
    CHECK_FALSE(job::on_day(written, day(4, 1)).mix("syrup")->made);
    CHECK(job::on_day(written, day(4, 2)).mix("strong")->made == day(4, 2));
}

TEST_CASE("a mix or container of another time is set aside, an unused one is not", "[on_day]") {
    const Job written = read_job(story);
    const Job before = job::on_day(written, day(3, 2));
    CHECK(ids(before.mixes) == std::vector<std::string>{"syrup", "timber"});
    CHECK(ids(before.idle_mixes) == std::vector<std::string>{"strong"});
    CHECK(before.idle_containers.size() == 1);
    CHECK(before.mix("strong") != nullptr);
    CHECK(before.container("mug") != nullptr);
    const Job later = job::on_day(written, day(4, 12));
    CHECK(ids(later.mixes) == std::vector<std::string>{"strong", "timber"});
    CHECK(ids(later.idle_mixes) == std::vector<std::string>{"syrup"});
    CHECK(later.containers.front().id == "mug");
    // Nobody ever has `strong` here: that it is unused is said.
    const Job unused = read_job("    until: 2027-05-01\n");
    CHECK(ids(job::on_day(unused, day(4, 2)).mixes) ==
          std::vector<std::string>{"syrup", "strong", "timber"});
}

TEST_CASE("days of change, and a job that has none", "[on_day]") {
    const Job written = read_job(story);
    CHECK(job::changes_over_time(written));
    CHECK(job::days_of_change(written) ==
          std::vector<Date>{day(3, 20), day(4, 2), day(4, 10), day(5, 1)});
    const Job plain = read_job("    placed: 2027-03-02 19:30\n");
    CHECK_FALSE(job::changes_over_time(plain));
    CHECK(job::days_of_change(plain).empty());
    CHECK(job::on_day(plain, day(12, 31)).stations.size() == plain.stations.size());
}

TEST_CASE("what altered, told of the station on whatever day", "[on_day]") {
    const Job written = read_job(story);
    for (const Date on : {day(3, 1), day(4, 5), day(6, 1)}) {
        const Job then = job::on_day(written, on);
        const Station& k1 =
            *then.stations.front().id == "K1" ? then.stations.front() : then.retired.front();
        const auto all = job::alterations(k1, "en");
        REQUIRE(all.size() == 4);
        CHECK(all[0].what == Alteration::What::place);
        CHECK(all[0].from == "Kitchen");
        CHECK(all[0].to == "Hall");
        CHECK_FALSE(all[0].by_day);
        CHECK(all[1].what == Alteration::What::mix);
        CHECK(all[1].from == "syrup");
        CHECK(all[1].to == "strong");
        CHECK(all[1].by_day);
        CHECK(all[2].what == Alteration::What::count);
        CHECK(all[2].to == "2");
        CHECK(all[3].what == Alteration::What::container);
        CHECK(job::word(all[3].what) == "container");
    }
    CHECK(job::alterations(written.stations[1], "en").empty());
}

TEST_CASE("a place with the same words is told apart by its point", "[on_day]") {
    const Job moved = read_job("    at: [1, 2]\n    changes: [{ on: 2027-04-01, at: [3, 2] }]\n");
    const auto all = job::alterations(moved.stations.front(), "en");
    REQUIRE(all.size() == 1);
    CHECK(all[0].from == "Kitchen (1 m, 2 m)");
    CHECK(all[0].to == "Kitchen (3 m, 2 m)");
}

TEST_CASE("a job on a day is what changes made by hand make of it", "[on_day]") {
    std::mt19937 random(20270302);
    const auto pick = [&](int from, int to) {
        return std::uniform_int_distribution<int>(from, to)(random);
    };
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        std::string text = "    placed: 2027-03-02\n    changes:\n";
        struct State {
            std::string place = "Kitchen", mix = "syrup", container = "cup";
            int count = 1;
        };
        std::vector<std::pair<int, State>> states{{0, {}}};  // from which day of March on
        int on = 2;
        const int changes = pick(1, 5);
        for (int i = 0; i < changes; ++i) {
            State next = states.back().second;
            std::string keys;
            if (pick(0, 1) == 1) keys += ", place: " + (next.place = fmt::format("Spot {}", i));
            if (pick(0, 1) == 1)
                keys += ", mix: " + (next.mix = next.mix == "syrup" ? "strong" : "syrup");
            if (pick(0, 1) == 1)
                keys +=
                    ", container: " + (next.container = next.container == "cup" ? "mug" : "cup");
            if (pick(0, 1) == 1 || keys.empty())
                keys += fmt::format(", count: {}", next.count = next.count % 3 + 1);
            on += pick(1, 5);
            text += fmt::format("      - {{ on: 2027-03-{:02}{} }}\n", on, keys);
            states.emplace_back(on, next);
        }
        const int end = on + pick(0, 3);
        text += fmt::format("    until: 2027-03-{:02}\n", end);
        const Job written = read_job(text);
        for (unsigned number = 1; number <= 31; ++number) {
            CAPTURE(number);
            const Job then = job::on_day(written, day(3, number));
            const bool over = static_cast<int>(number) >= end;
            REQUIRE(then.retired.size() == (over ? 1u : 0u));
            const Station& k1 = over ? then.retired.front() : then.stations.front();
            const State* expected = nullptr;
            for (const auto& [from, state] : states)
                if (from <= static_cast<int>(number)) expected = &state;
            CHECK(k1.place->main() == expected->place);
            CHECK(**k1.mix == expected->mix);
            CHECK(**k1.container == expected->container);
            CHECK(k1.count == expected->count);
            CHECK(then.stations.size() + then.retired.size() == written.stations.size());
            CHECK(then.mixes.size() + then.idle_mixes.size() == written.mixes.size());
        }
    }
}

TEST_CASE("advice on a job that changes is that of the day", "[on_day]") {
    const std::string plan =
        "floor_plan: { rooms: [{ name: Kitchen, outline: [[0, 0], [5, 0], [5, 4]] }] }\nvisits:";
    const auto advice = [&](const std::string& more, Date on) {
        const auto got = tests::read(changed(job_text(more), "visits:", plan));
        REQUIRE(got.job);
        CHECK(got.found.warnings() == 0);
        diag::Diagnostics found;
        job::advise(job::on_day(*got.job, on), found);
        std::string codes;
        for (const auto& each : found.in_order()) codes += each.code + " ";
        return codes;
    };
    CHECK(advice("    at: [1, 1]\n    changes: [{ on: 2027-04-01, place: Hall, mix: strong, "
                 "container: mug }]\n",
                 day(3, 2)) == "old-point ");
    CHECK(advice("    at: [1, 1]\n    changes: [{ on: 2027-04-01, place: Hall, at: [2, 1], mix: "
                 "strong, container: mug }]\n",
                 day(4, 2))
              .empty());
    // On that day all that stands is the stronger one, in the mug.
    const std::string near =
        "    near: [sockets]\n    changes: [{ on: 2027-04-01, mix: strong, container: mug }]\n";
    CHECK(advice(near, day(4, 3)) == "near-sockets ");
}
