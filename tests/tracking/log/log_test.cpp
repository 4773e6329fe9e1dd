#include "tracking/log/log.hpp"

#include <atomic>
#include <fstream>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

#include "catch_all.hpp"

#include "base/system/files.hpp"
#include "folder.hpp"
#include "golden.hpp"
#include "plan_for_tests.hpp"

namespace gallipot::log {
namespace {

using tests::at;
using tests::Folder;
using visit::Did;

const Instant some_time{std::chrono::seconds(1'805'000'000)};

visit::Visit seen(int count, LocalTime time = at(2027, 3, 18, 8, 5)) {
    visit::Visit visit;
    visit.station = "K1";
    visit.time = time;
    visit.seen = count;
    return visit;
}

std::vector<std::int64_t> numbers(const Log& log, Log::Which which) {
    std::vector<std::int64_t> numbers;
    log.each(
        which,
        [&](const Entry& entry) {
            numbers.push_back(entry.number);
            return true;
        },
        [](const Unreadable& entry) { FAIL("entry " << entry.number << " is unreadable"); });
    return numbers;
}

std::string failure(const std::function<void()>& act) {
    try {
        act();
    } catch (const system::Error& error) {
        return error.what();
    }
    return "nothing was thrown";
}

TEST_CASE("log: what was recorded is there after opening again") {
    const Folder folder;
    visit::Visit visit = seen(9);
    visit.container = 2;
    visit.by = "Hall caretaker";
    visit.dead = 0;
    visit.level_percent = 75;
    visit.state = {visit::State::clogged, visit::State::mouldy};
    visit.did = {Did::cleared, Did::removed};
    visit.note = "two\nlines'; DROP TABLE entry; --";
    {
        Log log(folder / "hall.visits.sqlite");
        const Recorded recorded = log.record({visit, "form-1", {}, false}, some_time);
        CHECK(recorded.outcome == Outcome::recorded);
        CHECK(recorded.entry.number == 1);
    }
    const Log log(folder / "hall.visits.sqlite");
    const auto entry = log.find(1);
    REQUIRE(entry);
    CHECK(entry->visit == visit);
    CHECK(entry->recorded == some_time);
    CHECK_FALSE(entry->corrects);
    CHECK_FALSE(log.find(2));
}

TEST_CASE("log: the same form twice is one visit") {
    const Folder folder;
    Log log(folder / "log");
    CHECK(log.record({seen(9), "form-1", {}, false}, some_time).outcome == Outcome::recorded);
    // The second tap comes in the next minute.
    const visit::Visit later = seen(9, at(2027, 3, 18, 8, 6));
    const auto again = log.record({later, "form-1", {}, false, true}, some_time);
    CHECK(again.outcome == Outcome::already);
    CHECK(again.entry.number == 1);
    // But a time that somebody set is content.
    CHECK(log.record({later, "form-1", {}, false}, some_time).outcome == Outcome::form_used);
    // Sent again with other content: nobody's typing may be lost silently.
    const auto other = log.record({seen(7), "form-1", {}, false}, some_time);
    CHECK(other.outcome == Outcome::form_used);
    CHECK(other.entry.visit.seen == 9);
    CHECK(log.record({seen(7), "form-2", {}, false}, some_time).entry.number == 2);
    CHECK(log.record({seen(7), "", {}, false}, some_time).entry.number == 3);
    CHECK(log.record({seen(7), "", {}, false}, some_time).entry.number == 4);
}

TEST_CASE("log: a correction takes the place of an entry, which stays") {
    const Folder folder;
    Log log(folder / "log");
    log.record({seen(90), "", {}, false}, some_time);
    log.record({seen(5, at(2027, 3, 19, 8, 0)), "", {}, false}, some_time);
    const auto correction = log.record({seen(9), "", 1, false}, some_time);
    CHECK(correction.outcome == Outcome::recorded);
    CHECK(numbers(log, Log::Which::active) == std::vector<std::int64_t>{3, 2});
    CHECK(numbers(log, Log::Which::all) == std::vector<std::int64_t>{1, 3, 2});
    CHECK(log.find(1)->visit.seen == 90);

    SECTION("only one correction of an entry: the later one is told what stands now") {
        const auto late = log.record({seen(8), "", 1, false}, some_time);
        CHECK(late.outcome == Outcome::corrected_since);
        CHECK(late.entry.number == 3);
        CHECK(numbers(log, Log::Which::all).size() == 3);
    }
    SECTION("a correction can be corrected") {
        CHECK(log.record({seen(8), "", 3, false}, some_time).outcome == Outcome::recorded);
        CHECK(numbers(log, Log::Which::active) == std::vector<std::int64_t>{4, 2});
        CHECK(log.record({seen(8), "", 1, false}, some_time).entry.number == 4);
    }
    SECTION("taken back, nothing stands in its place") {
        CHECK(log.record({seen(9), "", 3, true}, some_time).outcome == Outcome::recorded);
        CHECK(numbers(log, Log::Which::active) == std::vector<std::int64_t>{2});
        CHECK(numbers(log, Log::Which::all).size() == 4);
        CHECK(log.record({seen(9), "", 4, false}, some_time).outcome == Outcome::corrected_since);
    }
    SECTION("not across stations, and not of nothing") {
        visit::Visit elsewhere = seen(9);
        elsewhere.station = "C1";
        CHECK(log.record({elsewhere, "", 2, false}, some_time).outcome == Outcome::nothing_there);
        CHECK(log.record({seen(9), "", 77, false}, some_time).outcome == Outcome::nothing_there);
        CHECK(numbers(log, Log::Which::all).size() == 3);
    }
}

TEST_CASE("log: the last visits of a station, its first count, when it was replaced") {
    const Folder folder;
    Log log(folder / "log");
    visit::Visit uncounted = seen(0, at(2027, 3, 2, 19, 30));
    uncounted.seen.reset();
    uncounted.did = {Did::replaced};
    log.record({seen(30, at(2027, 3, 6, 9, 0)), "", {}, false}, some_time);
    log.record({seen(120, at(2027, 3, 3, 9, 0)), "", {}, false}, some_time);  // written up later
    log.record({uncounted, "", {}, false}, some_time);
    visit::Visit elsewhere = seen(1);
    elsewhere.station = "C1";
    log.record({elsewhere, "", {}, false}, some_time);
    const auto last = log.last("K1", 2);
    REQUIRE(last.size() == 2);
    CHECK(last[0].visit.seen == 30);
    CHECK(last[1].visit.seen == 120);
    CHECK(log.first_count("K1")->visit.seen == 120);
    // Of those made by the time of placing the last; without one, the first of all.
    CHECK(log.first_count("K1", last[0].visit.time)->visit.seen == 30);
    CHECK(log.first_count("K1", last[1].visit.time)->visit.seen == 120);
    CHECK(log.first_count("K1", at(2020, 1, 1, 0, 0))->visit.seen == 120);
    CHECK(log.last_replaced("K1")->number == 3);
    CHECK_FALSE(log.last_replaced("C1"));
    CHECK(log.last("K", 9).empty());
    log.record({seen(110, at(2027, 3, 3, 9, 0)), "", 2, false}, some_time);
    CHECK(log.first_count("K1")->visit.seen == 110);
    CHECK(log.last("K1", 9).size() == 3);
}

TEST_CASE("log: the same list twice adds nothing, and alike visits in a list stay as many") {
    const Folder folder;
    Log log(folder / "log");
    const std::vector<visit::Visit> list{seen(9), seen(9), seen(4, at(2027, 3, 19, 8, 0))};
    CHECK(log.add_all(list, some_time) == 3);
    CHECK(log.add_all(list, some_time) == 0);
    CHECK(log.add_all({seen(9), seen(5)}, some_time) == 1);
    CHECK(numbers(log, Log::Which::all).size() == 4);
    // Corrected meanwhile: the old file does not bring it back.
    log.record({seen(3, at(2027, 3, 19, 8, 0)), "", 3, false}, some_time);
    CHECK(log.add_all(list, some_time) == 0);
}

TEST_CASE("log: nothing can be changed or taken out, not even with other programs") {
    const Folder folder;
    const auto file = folder / "log";
    { Log(file).record({seen(9), "", {}, false}, some_time); }
    for (const char* sql : {"UPDATE entry SET seen = 0", "DELETE FROM entry"}) {
        const std::string command = "sqlite3 '" + file.string() + "' '" + sql + "' 2>&1";
        std::string answer;
        FILE* pipe = ::popen(command.c_str(), "r");
        REQUIRE(pipe != nullptr);
        for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe))
            answer += static_cast<char>(c);
        ::pclose(pipe);
        CHECK(answer.find("append-only") != std::string::npos);
    }
    CHECK(Log(file).find(1)->visit.seen == 9);
}

TEST_CASE("log: each() shows one moment, whatever is added meanwhile") {
    const Folder folder;
    Log log(folder / "log");
    std::vector<visit::Visit> visits;
    for (int i = 0; i < 1200; ++i)
        visits.push_back(seen(i, at(2027, 3, 1, 0, 0) + std::chrono::minutes(i)));
    log.add_all(visits, some_time);
    std::size_t shown = 0;
    int last_seen = -1;
    bool in_order = true;
    const auto use = [&](const Entry& entry) {
        in_order = in_order && entry.visit.seen == last_seen + 1;
        last_seen = *entry.visit.seen;
        if (++shown == 10) {
            log.record({seen(5, at(2028, 1, 1, 0, 0)), "", {}, false}, some_time);
            log.record({seen(7, at(2027, 1, 1, 0, 0)), "", 1000, false}, some_time);
        }
        return true;
    };
    log.each(Log::Which::active, use, [](const Unreadable&) { FAIL("unreadable"); });
    CHECK(shown == 1200);
    CHECK(in_order);
}

TEST_CASE("log: files that are none of ours stay as they are") {
    const Folder folder;
    std::ofstream(folder / "text") << "a shopping list, long enough to be no header of any kind";
    CHECK(failure([&] { Log log(folder / "text"); }).find("it is not a visit log") !=
          std::string::npos);
    CHECK(tests::slurp(folder / "text").substr(0, 15) == "a shopping list");

    const std::string other = (folder / "other").string();
    REQUIRE(::system(("sqlite3 '" + other + "' 'CREATE TABLE t (a)'").c_str()) == 0);
    const std::string before = tests::slurp(other);
    CHECK(failure([&] { Log log(other); }).find("is not a visit log of gallipot") !=
          std::string::npos);
    CHECK(tests::slurp(other) == before);

    const std::string newer = (folder / "newer").string();
    { const Log log(newer); }
    REQUIRE(::system(("sqlite3 '" + newer + "' 'PRAGMA user_version = 99'").c_str()) == 0);
    CHECK(failure([&] { Log log(newer); }).find("written by a newer gallipot") !=
          std::string::npos);

    CHECK(failure([&] { Log log(folder / "no/such/folder"); }).find("cannot be opened") !=
          std::string::npos);
}

TEST_CASE("log: a damaged file is noticed when it is looked over") {
    const Folder folder;
    const auto file = folder / "log";
    {
        Log log(file);
        std::vector<visit::Visit> visits;
        for (int i = 0; i < 2000; ++i) visits.push_back(seen(i));
        log.add_all(visits, some_time);
    }
    {
        std::fstream bytes(file, std::ios::in | std::ios::out | std::ios::binary);
        bytes.seekp(4096 * 12);
        bytes << std::string(4096, '\x5A');
    }
    CHECK(failure([&] { Log log(file); }).find("damaged") != std::string::npos);
}

TEST_CASE("log: a backup is whole, and replaces an older one only then") {
    const Folder folder;
    Log log(folder / "log");
    log.record({seen(9), "", {}, false}, some_time);
    std::ofstream(folder / "letter") << "Dear all";
    CHECK(failure([&] { log.back_up(folder / "letter"); }).find("another kind") !=
          std::string::npos);
    log.back_up(folder / "copy");
    std::atomic<bool> stop = false;
    std::thread writer([&] {
        while (!stop) log.record({seen(1), "", {}, false}, some_time);
    });
    for (int i = 0; i < 5; ++i) log.back_up(folder / "copy");
    stop = true;
    writer.join();
    const Log copy(folder / "copy");
    CHECK(copy.find(1)->visit.seen == 9);
    for (const auto& file : std::filesystem::directory_iterator(folder / "."))
        CHECK(file.path().filename().string().front() != '.');
    CHECK(failure([&] { log.back_up(folder / "log"); }).find("it is the visit log") !=
          std::string::npos);
    CHECK(failure([&] { log.back_up(folder / "no/copy"); }).find("cannot write") !=
          std::string::npos);
}

TEST_CASE("log: processes share it, and opening it at the same moment makes it once") {
    const Folder folder;
    const auto file = folder / "log";
    constexpr int processes = 4;
    constexpr int each = 15;
    std::vector<pid_t> children;
    for (int p = 0; p < processes; ++p) {
        const pid_t child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            int code = 0;
            try {
                Log log(file);
                for (int i = 0; i < each; ++i)
                    log.record({seen(p * each + i), std::to_string(p * each + i), {}, false},
                               some_time);
            } catch (const system::SystemError& error) {
                std::fprintf(stderr, "%s\n", error.what());
                code = 1;
            } catch (...) {
                code = 2;
            }
            ::_exit(code);
        }
        children.push_back(child);
    }
    for (const pid_t child : children) {
        int status = 0;
        ::waitpid(child, &status, 0);
        CHECK(status == 0);
    }
    CHECK(numbers(Log(file), Log::Which::all).size() == processes * each);
}

TEST_CASE("log: it stands beside the job") {
    CHECK(file_beside("jobs/hall.yaml") == "jobs/hall.visits.sqlite");
    CHECK(file_beside("hall.yaml") == "hall.visits.sqlite");
    CHECK(file_beside("a.b.yml") == "a.b.visits.sqlite");
}

}  // namespace
}  // namespace gallipot::log
