#include <fstream>
#include <map>
#include <random>
#include <sys/wait.h>
#include <unistd.h>

#include "catch_all.hpp"

#include "base/system/error.hpp"
#include "base/system/guard.hpp"
#include "folder.hpp"
#include "golden.hpp"
#include "hooked_files.hpp"
#include "plan_for_tests.hpp"
#include "tracking/log/log.hpp"

/// Everything that can go wrong with the log's files, at every call: after each, what was confirmed
/// is there, what was there before is whole, and a change is there wholly or not at all.
namespace gallipot::log {
namespace {

namespace fs = std::filesystem;
using tests::at;
using tests::FileCall;
using tests::Folder;
using tests::HookedFiles;

const Instant some_time{std::chrono::seconds(1'805'000'000)};

visit::Visit seen(int count) {
    visit::Visit visit;
    visit.station = "K1";
    visit.time = at(2027, 3, 18, 8, count % 60);
    visit.seen = count;
    visit.note = std::string(static_cast<std::size_t>(count) * 7 % 900, 'n');
    return visit;
}

/// Everything in a log, in order of number.
std::map<std::int64_t, Entry> all_of(const fs::path& file) {
    const Log log(file);
    std::map<std::int64_t, Entry> entries;
    log.each(
        Log::Which::all,
        [&](const Entry& entry) {
            entries.emplace(entry.number, entry);
            return true;
        },
        [](const Unreadable& entry) { FAIL("entry " << entry.number << " is unreadable"); });
    CHECK_FALSE(log.damage());
    return entries;
}

/// What is done while something goes wrong, and how many entries it adds.
struct Deed {
    const char* name;
    std::function<void(Log&, const fs::path& folder)> act;
    std::size_t adds = 0;
};

const std::vector<Deed>& deeds() {
    static const std::vector<Deed> all{
        {"record",
         [](Log& log, const fs::path&) {
             log.record({seen(50), "t", {}, false}, some_time);
         },
         1},
        {"correct",
         [](Log& log, const fs::path&) {
             log.record({seen(8), "", 2, false}, some_time);
         },
         1},
        {"withdraw",
         [](Log& log, const fs::path&) {
             log.record({seen(3), "", 3, true}, some_time);
         },
         1},
        {"import",
         [](Log& log, const fs::path&) {
             log.add_all({seen(1), seen(60), seen(61), seen(62)}, some_time);
         },
         3},
        {"back up", [](Log& log, const fs::path& folder) { log.back_up(folder / "copy"); }},
        {"read", [](Log& log, const fs::path&) { (void)log.last("K1", 9); }},
    };
    return all;
}

/// A log of five entries, made once.
class Start {
  public:
    Start() {
        Log log(folder_ / "log");
        for (int i = 1; i <= 5; ++i) log.record({seen(i), "", {}, false}, some_time);
    }
    /// A fresh copy of it in `folder`.
    void copy_to(const fs::path& folder) const {
        system::forget_protected();  // the copy of the last time is a log that was read
        for (const char* name : {"log", "log-wal", "log-shm", "copy", "copy-journal"})
            fs::remove(folder / name);
        fs::copy_file(folder_ / "log", folder / "log");
    }

  private:
    Folder folder_;
};

/// Counted for the report: GALLIPOT_FIGURES=1 prints them.
struct Figures {
    std::int64_t calls = 0;
    std::int64_t states = 0;
    void print(const char* what) const {
        if (std::getenv("GALLIPOT_FIGURES") != nullptr)
            std::printf("%s: %lld calls, %lld states checked\n", what,
                        static_cast<long long>(calls), static_cast<long long>(states));
    }
};

/// What the log may hold after a deed that was confirmed, or not.
void check_state(const fs::path& folder, const Deed& deed, bool confirmed,
                 const std::map<std::int64_t, Entry>& before) {
    const auto after = all_of(folder / "log");
    for (const auto& [number, entry] : before) {
        const auto found = after.find(number);
        REQUIRE(found != after.end());
        CHECK(found->second == entry);
    }
    const std::size_t added = after.size() - before.size();
    if (confirmed)
        CHECK(added == deed.adds);
    else
        CHECK((added == 0 || added == deed.adds));
    if (fs::exists(folder / "copy")) CHECK(all_of(folder / "copy") == before);
}

TEST_CASE("log: whichever call of the file layer fails, nothing confirmed is lost") {
    const Folder folder;
    const fs::path place = folder / ".";
    HookedFiles files;
    const Start start;
    Figures figures;
    for (const Deed& deed : deeds())
        for (const bool from_then_on : {false, true}) {
            for (std::int64_t n = 1;; ++n) {
                start.copy_to(place);
                const auto before = all_of(place / "log");
                INFO(deed.name << ", call " << n << (from_then_on ? " and all after it" : ""));
                bool confirmed = false;
                bool reached = false;
                std::string what;
                try {
                    Log log(place / "log");
                    files.at_each_call([&](const FileCall& call) {
                        const bool fails = from_then_on ? call.number >= n : call.number == n;
                        if (fails && !reached) what = std::string(call.what) + " " + call.file;
                        reached = reached || fails;
                        return fails ? call.usual_error : 0;
                    });
                    deed.act(log, place);
                    confirmed = true;
                    files.leave_alone();
                } catch (const system::SystemError&) {
                }
                files.leave_alone();
                INFO(what);
                check_state(place, deed, confirmed, before);
                ++figures.states;
                if (!reached) break;
                ++figures.calls;
            }
        }
    figures.print("failing calls");
    CHECK(figures.calls > 300);
}

/// In a process of its own, ended at the n-th call as SIGKILL or a power cut would.
enum class End { killed, power_cut };

/// Whether it was reached, and whether the deed was confirmed before.
std::pair<bool, bool> ended_at(HookedFiles& files, const Deed& deed, const fs::path& place,
                               std::int64_t n, End end, unsigned seed) {
    constexpr int not_reached = 40;
    constexpr int failed = 41;
    constexpr int killed = 42;
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        int code = failed;
        try {
            Log log(place / "log");
            files.at_each_call([&](const FileCall& call) {
                if (call.number != n) return 0;
                std::mt19937 random(seed);
                if (end == End::power_cut) files.lose_power([&] { return random() % 2 == 0; });
                ::_exit(killed);
            });
            deed.act(log, place);
            files.leave_alone();
            code = not_reached;
        } catch (...) {
        }
        ::_exit(code);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    REQUIRE(WIFEXITED(status));
    REQUIRE(WEXITSTATUS(status) != failed);
    return {WEXITSTATUS(status) == killed, WEXITSTATUS(status) == not_reached};
}

void end_everywhere(End end, int seeds, std::int64_t step, const char* name) {
    const Folder folder;
    const fs::path place = folder / ".";
    HookedFiles files;
    const Start start;
    Figures figures;
    for (const Deed& deed : deeds())
        for (int seed = 0; seed < seeds; ++seed)
            for (std::int64_t n = 1 + seed % step;; n += step) {
                start.copy_to(place);
                const auto before = all_of(place / "log");
                INFO(deed.name << ", call " << n << ", seed " << seed);
                const auto [reached, confirmed] =
                    ended_at(files, deed, place, n, end,
                             static_cast<unsigned>(seed) * 1000u + static_cast<unsigned>(n));
                check_state(place, deed, confirmed, before);
                ++figures.states;
                if (!reached) break;
                ++figures.calls;
            }
    figures.print(name);
    CHECK(figures.calls > 20);
}

TEST_CASE("log: killed at some call, nothing confirmed is lost") {
    end_everywhere(End::killed, 1, 7, "some kills");
}
TEST_CASE("log: without power at some call, nothing confirmed is lost") {
    end_everywhere(End::power_cut, 1, 7, "some power cuts");
}
TEST_CASE("log: killed at every call, nothing confirmed is lost", "[.slow]") {
    end_everywhere(End::killed, 1, 1, "kills");
}
TEST_CASE("log: without power at every call, nothing confirmed is lost", "[.slow]") {
    end_everywhere(End::power_cut, 8, 1, "power cuts");
}

TEST_CASE("log: whichever call fails while a log is made or brought up to date, it is made later") {
    const Folder folder;
    const fs::path file = folder / "log";
    const fs::path old = fs::path(GALLIPOT_SOURCE_DIR) / "tests/tracking/log/data/format1.sqlite";
    HookedFiles files;
    Figures figures;
    for (const bool migrated : {false, true})
        for (std::int64_t n = 1;; ++n) {
            for (const char* part : {"", "-wal", "-shm", "-journal"})
                fs::remove(file.string() + part);
            if (migrated) fs::copy_file(old, file);
            INFO((migrated ? "migrated" : "made") << ", call " << n);
            bool reached = false;
            files.at_each_call([&](const FileCall& call) {
                reached = reached || call.number == n;
                return call.number == n ? call.usual_error : 0;
            });
            try {
                const Log log(file);
            } catch (const system::SystemError&) {
            }
            files.leave_alone();
            CHECK(all_of(file).size() == (migrated ? 5 : 0));
            ++figures.states;
            if (!reached) break;
            ++figures.calls;
        }
    figures.print("failing calls of opening");
}

}  // namespace
}  // namespace gallipot::log
