#include <chrono>

#include "hall.hpp"
#include "tracking/log/zone.hpp"

namespace gallipot::cli {
namespace {

using tests::Hall;
using tests::Ran;

TEST_CASE("visit: every field is recorded, and what was recorded is said") {
    const Hall hall;
    const Ran ran = hall.visit(
        "k1-2", {"--seen", "9", "--dead", "0", "--level", "3/4", "--state", "clogged,wet", "--did",
                 "cleared", "--note", "beside the bin, \"dusty\"", "--by", "Hall caretaker"});
    CHECK(ran.exit == 0);
    CHECK(ran.out ==
          "Saved as entry 1: K1-2, 18 Mar 2026 08:05, Hall caretaker, 9 alive, 0 dead, 75 % left, "
          "clogged wet; cleared. Note: beside the bin, \"dusty\"\n");
    CHECK(
        Hall::run({"log", hall.job, "--csv"}).says("K1-2,2026-03-18 08:05,Hall caretaker,9,0,75"));
}

TEST_CASE("visit: how it was counted, and whether any fed on the bait") {
    const Hall hall;
    const Ran ran = hall.visit("K1", {"--seen", "9", "--minutes", "5", "--young", "4",
                                      "--trap-nights", "6", "--feeding", "yes"});
    CHECK(ran.exit == 0);
    CHECK(Hall::run({"log", hall.job, "--csv"}).says("K1,2026-03-18 08:05,,9,,,,,,5,4,6,yes"));
    CHECK(hall.visit("K1", {"--feeding", "perhaps"}).exit == 2);
    CHECK(hall.visit("K1", {"--minutes", "-5", "--seen", "1"}).exit == 2);
    CHECK(hall.visit("K1", {"--level", "half"}).says("50 % left"));
    CHECK(hall.visit("K1", {"--level", "Three quarters"}).says("75 % left"));
}

TEST_CASE("visit: a value that will not do is wrong usage, says what would, and records nothing") {
    const Hall hall;
    const std::vector<std::vector<std::string>> wrong{{"--seen", "-1"},
                                                      {"--seen", "1.5"},
                                                      {"--seen", "1000001"},
                                                      {"--dead", "many"},
                                                      {"--level", "101"},
                                                      {"--level", "halfway"},
                                                      {"--state", "sticky"},
                                                      {"--did", "eaten"},
                                                      {"--note", std::string(1001, 'a')},
                                                      {"--note", "a\x07"},
                                                      {"--by", "two\nlines", "--seen", "1"},
                                                      {"--note", "\xFF"},
                                                      {},
                                                      {"--by", "A"},
                                                      {"--withdraw"},
                                                      {"--corrects", "0", "--seen", "1"}};
    for (const auto& options : wrong) {
        INFO((options.empty() ? "nothing" : options[0] + " " + options.back()));
        const Ran ran = hall.visit("K1", options);
        CHECK(ran.exit == 2);
        CHECK(ran.out.empty());
        CHECK_FALSE(ran.err.empty());
    }
    CHECK(Hall::run({"visit", hall.job, "K1", "--seen", "1", "--at", "yesterday"}).exit == 2);
    CHECK(Hall::run({"visit", hall.job, "K1", "--seen", "1", "--at", "2026-02-30 08:00"}).exit ==
          2);
    CHECK(Hall::run({"visit", hall.job}).exit == 2);
    CHECK(hall.visit("K1", {"--state", "sticky"}).complains("clogged, wet, dry"));
    CHECK(Hall::run({"log", hall.job}).complains("no visit is recorded yet"));
}

TEST_CASE("visit: a station that is not there, and where those it has are") {
    const Hall hall;
    const Ran ran = hall.visit("K3", {"--seen", "1"});
    CHECK(ran.exit == 1);
    CHECK(ran.complains("the job has no station 'K3'; see gallipot plan"));
    CHECK(hall.visit("K1-3", {"--seen", "1"}).exit == 1);  // it has two containers
    CHECK(hall.visit("K1-0", {"--seen", "1"}).exit == 1);
}

TEST_CASE("visit: a correction takes the place of an entry, which the whole log still shows") {
    const Hall hall;
    CHECK(hall.visit("K1", {"--seen", "90"}).exit == 0);
    CHECK(hall.visit("K1", {"--seen", "9", "--corrects", "1"}).says("Saved as entry 2"));
    CHECK(hall.visit("K1", {"--seen", "8", "--corrects", "1"}).complains("correct 2 instead"));
    CHECK(hall.visit("K2", {"--seen", "8", "--corrects", "1"}).complains("K2 has no entry 1"));
    CHECK(hall.visit("K1", {"--seen", "8", "--corrects", "7"}).exit == 1);
    CHECK(Hall::run({"log", hall.job, "--csv"}).says(",9,"));
    CHECK_FALSE(Hall::run({"log", hall.job, "--csv"}).says(",90,"));
    CHECK(Hall::run({"log", hall.job, "--all"}).says("90"));
    CHECK(hall.visit("K1", {"--corrects", "2", "--withdraw"}).says("Took entry 2 out"));
    CHECK(Hall::run({"log", hall.job}).says("No visit is recorded yet"));
    CHECK(Hall::run({"log", hall.job, "--all"}).says("(taken out)"));
}

TEST_CASE("visit: the first count is said to be that, and its exposure kept") {
    const Hall hall;
    const auto visit = [&](const std::string& at, std::vector<std::string> more) {
        more.insert(more.begin(), {"visit", hall.job, "K1", "--at", at});
        return Hall::run(more);
    };
    const Ran first = visit("2027-03-02 19:20", {"--seen", "26", "--minutes", "3"});
    CHECK(first.exit == 0);
    CHECK(first.says("before K1 was set out"));
    CHECK_FALSE(first.complains("slip"));
    CHECK_FALSE(visit("2027-03-06 19:30", {"--seen", "9", "--minutes", "3"}).says("before K1"));
    CHECK(Hall::run({"log", hall.job}).says("Min"));
}

TEST_CASE("visit: a day that may be a slip is named, with that of setting out, and recorded") {
    const Hall hall;
    const auto visit = [&](const std::string& at, std::vector<std::string> more) {
        more.insert(more.begin(), {"visit", hall.job, "K1", "--at", at});
        return Hall::run(more);
    };
    const Ran months = visit("2026-10-02 19:20", {"--seen", "26"});
    CHECK(months.exit == 0);
    CHECK(months.complains("2026-10-02 19:20 is 151 days before K1 was set out, on 2027-03-02"));
    CHECK(months.complains("--corrects"));
    const Ran bait = visit("2027-03-01 19:20", {"--level", "75"});
    CHECK(bait.complains("2027-03-01 19:20 is 1 day before K1 was set out"));
    // Corrected, it is no longer doubted; a correction of something else says nothing of the day.
    CHECK(Hall::run({"visit", hall.job, "K1", "--corrects", "1", "--note", "dusty"}).err.empty());
    CHECK_FALSE(visit("2027-03-02 19:20", {"--corrects", "2", "--seen", "7"}).complains("slip"));
}

TEST_CASE("visit: a time still to come is warned of and recorded") {
    const Hall hall;
    const auto soon = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()) +
                      std::chrono::days(20);
    const auto at = log::print_time(log::LocalTime(soon.time_since_epoch()));
    const Ran ran = Hall::run({"visit", hall.job, "K1", "--seen", "1", "--at", at});
    CHECK(ran.exit == 0);
    CHECK(ran.complains("still to come"));
}

TEST_CASE("visit: a time that cannot be is refused") {
    const Hall hall;
    for (const char* time : {"1970-01-01 00:05", "2017-03-18 08:05", "2199-01-01 08:00"}) {
        INFO(time);
        const Ran ran = Hall::run({"visit", hall.job, "K1", "--seen", "1", "--at", time});
        CHECK(ran.exit == 1);
        CHECK(ran.complains("mend the date"));
    }
    CHECK(Hall::run({"log", hall.job}).complains("no visit is recorded yet"));
}

TEST_CASE("visit: a correction keeps what it does not change, and shows before and after") {
    const Hall hall;
    const std::string before =
        "K1-2, 18 Mar 2026 08:05, Kim, 90 alive, 3 dead, 2 young, 5 min, 6 trap nights, feeding, "
        "75 % "
        "left, clogged wet; cleared. Note: dusty";
    REQUIRE(Hall::run({"visit",
                       hall.job,
                       "K1-2",
                       "--at",
                       "2026-03-18 08:05",
                       "--seen",
                       "90",
                       "--dead",
                       "3",
                       "--level",
                       "75",
                       "--state",
                       "clogged,wet",
                       "--did",
                       "cleared",
                       "--by",
                       "Kim",
                       "--note",
                       "dusty",
                       "--minutes",
                       "5",
                       "--young",
                       "2",
                       "--trap-nights",
                       "6",
                       "--feeding",
                       "yes"})
                .says(before));
    // As the manual has it.
    Ran ran = Hall::run({"visit", hall.job, "K1", "--corrects", "1", "--seen", "8"});
    const std::string after =
        "K1-2, 18 Mar 2026 08:05, Kim, 8 alive, 3 dead, 2 young, 5 min, 6 trap nights, feeding, 75 "
        "% "
        "left, clogged wet; cleared. Note: dusty";
    CHECK(ran.out == "Saved as entry 2, in place of entry 1.\n  Before: " + before +
                         "\n  Now:    " + after + "\n");
    CHECK(Hall::run({"log", hall.job, "--csv"})
              .says("K1-2,2026-03-18 08:05,Kim,8,3,75,clogged wet,cleared,dusty,5,2,6,yes"));

    SECTION("the corrected one is not corrected again, but what stands in its place") {
        ran = Hall::run({"visit", hall.job, "K1", "--corrects", "1", "--dead", "0"});
        CHECK(ran.exit == 1);
        CHECK(ran.complains("correct 2 instead, which stands in its place: " + after));
        ran = Hall::run({"visit", hall.job, "K1", "--corrects", "2", "--dead", "0"});
        CHECK(ran.says("Kim, 8 alive, 0 dead, 2 young"));
    }
    SECTION("fields are emptied by name") {
        ran = Hall::run({"visit", hall.job, "K1", "--corrects", "2", "--clear",
                         "dead,level,state,did,by,note,container,minutes,young,trap_nights,"
                         "feeding"});
        CHECK(ran.says("Now:    K1, 18 Mar 2026 08:05, 8 alive\n"));
        CHECK(Hall::run({"visit", hall.job, "K1", "--corrects", "3", "--clear", "seen"})
                  .complains("take it out with --withdraw"));
    }
    SECTION("another time, another container") {
        ran = Hall::run({"visit", hall.job, "K1-1", "--corrects", "2", "--at", "2026-03-19 07:00"});
        CHECK(ran.says("K1-1, 19 Mar 2026 07:00, Kim, 8 alive, 3 dead"));
    }
    SECTION("what changes nothing is told so") {
        ran = Hall::run({"visit", hall.job, "K1", "--corrects", "2", "--seen", "8"});
        CHECK(ran.exit == 1);
        CHECK(ran.complains("that is what entry 2 says already"));
        CHECK(Hall::run({"visit", hall.job, "K1", "--corrects", "2"}).exit == 1);
    }
    SECTION("wrong usage") {
        for (const std::vector<std::string>& more : std::vector<std::vector<std::string>>{
                 {"--clear", "seen"},
                 {"--clear", "everything", "--corrects", "2"},
                 {"--clear", "seen", "--seen", "3", "--corrects", "2"},
                 {"--feeding", "perhaps"},
                 {"--minutes", "0"}}) {
            INFO(more[1]);
            std::vector<std::string> all{"visit", hall.job, "K1"};
            all.insert(all.end(), more.begin(), more.end());
            CHECK(Hall::run(all).exit == 2);
        }
    }
    SECTION("taken out, it shows what it said, and is recorded anew") {
        ran = Hall::run({"visit", hall.job, "K1", "--corrects", "2", "--withdraw"});
        CHECK(ran.says("Took entry 2 out"));
        CHECK(ran.says("It said: " + after));
        ran = Hall::run({"visit", hall.job, "K1", "--corrects", "1", "--seen", "4"});
        CHECK(ran.exit == 1);
        CHECK(ran.complains("was taken out by entry 3; record the visit anew"));
    }
}

TEST_CASE("visit: no job, a job with errors, a log that is none") {
    const Hall hall;
    CHECK(Hall::run({"visit", hall.folder / "none.yaml", "K1", "--seen", "1"}).exit == 2);
    const std::string bad = hall.write("bad.yaml", "title: x\nbottles: 3\n");
    CHECK(Hall::run({"visit", bad, "K1", "--seen", "1"}).exit == 1);
    const std::string text = "this is not SQLite, but somebody's letter of some length";
    const std::string letter = hall.write("hall.visits.sqlite", text);
    const Ran ran = hall.visit("K1", {"--seen", "1"});
    CHECK(ran.exit == 3);
    CHECK(ran.complains("move it away"));
    CHECK(system::read_file(letter) == text);  // untouched
}

}  // namespace
}  // namespace gallipot::cli
