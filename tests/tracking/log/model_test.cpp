#include <algorithm>
#include <map>
#include <optional>
#include <random>
#include <set>
#include <sys/wait.h>
#include <unistd.h>

#include "catch_all.hpp"

#include "base/system/guard.hpp"
#include "folder.hpp"
#include "hooked_files.hpp"
#include "plan_for_tests.hpp"
#include "tracking/log/log.hpp"

/// The log against a plain map, under random work and random ends of the process.
namespace gallipot::log {
namespace {

using tests::at;
using tests::FileCall;

const Instant some_time{std::chrono::seconds(1'805'000'000)};

/// What the log is meant to be.
class Model {
  public:
    Outcome record(const Draft& draft) {
        if (!draft.token.empty()) {
            const auto used = by_token_.find(draft.token);
            if (used != by_token_.end()) {
                const Entry& entry = entries_.at(used->second);
                return entry.visit == draft.visit && entry.corrects == draft.corrects &&
                               entry.withdrawn == draft.withdrawn
                           ? Outcome::already
                           : Outcome::form_used;
            }
        }
        if (draft.corrects) {
            const auto old = entries_.find(*draft.corrects);
            if (old == entries_.end() || old->second.visit.station != draft.visit.station)
                return Outcome::nothing_there;
            if (later_.contains(old->first) || old->second.withdrawn)
                return Outcome::corrected_since;
        }
        add(draft);
        return Outcome::recorded;
    }

    std::size_t add_all(const std::vector<visit::Visit>& visits) {
        std::set<std::int64_t> taken;
        std::size_t added = 0;
        for (const visit::Visit& visit : visits) {
            bool there = false;
            for (const auto& [number, entry] : entries_)
                if (!there && !entry.withdrawn && entry.visit == visit)
                    there = taken.insert(number).second;
            if (there) continue;
            taken.insert(add({visit, "", {}, false}));
            ++added;
        }
        return added;
    }

    [[nodiscard]] std::int64_t active(std::int64_t number) const {
        for (auto later = later_.find(number); later != later_.end(); later = later_.find(number))
            number = later->second;
        return number;
    }
    [[nodiscard]] bool stands(std::int64_t number) const {
        return !later_.contains(number) && !entries_.at(number).withdrawn;
    }
    [[nodiscard]] const std::map<std::int64_t, Entry>& entries() const { return entries_; }
    [[nodiscard]] std::vector<Entry> last(const std::string& station, std::size_t maximum) const {
        std::vector<Entry> found;
        for (const auto& [number, entry] : entries_)
            if (stands(number) && entry.visit.station == station) found.push_back(entry);
        std::sort(found.begin(), found.end(), [](const Entry& a, const Entry& b) {
            return std::pair(a.visit.time, a.number) > std::pair(b.visit.time, b.number);
        });
        found.resize(std::min(found.size(), maximum));
        return found;
    }

  private:
    std::int64_t add(const Draft& draft) {
        const auto number = static_cast<std::int64_t>(entries_.size()) + 1;
        entries_.emplace(number,
                         Entry{number, draft.visit, draft.corrects, draft.withdrawn, some_time});
        if (!draft.token.empty()) by_token_[draft.token] = number;
        if (draft.corrects) later_[*draft.corrects] = number;
        return number;
    }

    std::map<std::int64_t, Entry> entries_;
    std::map<std::string, std::int64_t> by_token_;
    std::map<std::int64_t, std::int64_t> later_;  ///< by what it corrects
};

std::map<std::int64_t, Entry> all_of(const Log& log) {
    std::map<std::int64_t, Entry> entries;
    log.each(
        Log::Which::all,
        [&](const Entry& entry) {
            entries.emplace(entry.number, entry);
            return true;
        },
        [](const Unreadable& entry) { FAIL("entry " << entry.number << " is unreadable"); });
    return entries;
}

class Play {
  public:
    explicit Play(unsigned seed) : random_(seed) {}

    void run(int steps) {
        for (int i = 0; i < steps; ++i) {
            step();
            if (i % 20 == 0) compare(*log_);
        }
        compare(*log_);
        if (std::getenv("GALLIPOT_FIGURES") != nullptr)
            std::printf("model: %d steps, %d ends of a process, %zu entries, %d states compared\n",
                        steps, ends_, model_.entries().size(), compared_);
    }

  private:
    unsigned below(unsigned end) { return static_cast<unsigned>(random_() % end); }

    visit::Visit visit() {
        visit::Visit visit;
        visit.station = "K" + std::to_string(1 + below(3));
        visit.time = at(2027, 3, 1 + below(20), static_cast<int>(below(24)), 0);
        visit.container = static_cast<int>(below(3));
        if (below(4) != 0) visit.seen = static_cast<int>(below(5));
        if (below(4) == 0) visit.dead = static_cast<int>(below(5));
        if (below(3) == 0) visit.level_percent = static_cast<int>(below(5)) * 25;
        if (below(3) == 0) visit.state = {visit::State::wet};
        if (below(3) == 0) visit.did = {visit::Did::replaced, visit::Did::moved};
        if (below(3) == 0) visit.note = std::string(below(600), 'n');
        if (below(5) == 0) visit.feeding = below(2) == 0;
        if (below(5) == 0) visit.young = static_cast<int>(below(9));
        return visit;
    }
    std::int64_t some_number() {
        return 1 + below(static_cast<unsigned>(model_.entries().size()) + 2);
    }

    Draft draft() {
        Draft draft{visit(), "", {}, false};
        if (below(3) == 0) draft.token = "form-" + std::to_string(below(60));
        if (below(2) == 0) {
            draft.corrects = some_number();
            draft.withdrawn = below(4) == 0;
            const auto old = model_.entries().find(*draft.corrects);
            if (old != model_.entries().end() && below(5) != 0)
                draft.visit.station = old->second.visit.station;
        }
        return draft;
    }
    std::vector<visit::Visit> list() {
        std::vector<visit::Visit> visits;
        for (unsigned i = below(12); i > 0; --i) {
            const auto known = model_.entries().find(some_number());
            visits.push_back(known != model_.entries().end() && below(2) == 0 ? known->second.visit
                                                                              : visit());
            if (below(4) == 0) visits.push_back(visits.back());
        }
        return visits;
    }

    void step() {
        switch (below(10)) {
            case 0:
                log_.reset();
                log_.emplace(file_);
                break;
            case 1: {
                system::forget_protected();  // the last copy was read as a log
                log_->back_up(folder_ / "copy");
                compare(Log(folder_ / "copy"));
                // Opened, a copy becomes a log in use, which no backup replaces.
                for (const char* end : {"", "-wal", "-shm"})
                    std::filesystem::remove(folder_ / (std::string("copy") + end));
                break;
            }
            case 2:
            case 3: {
                const auto visits = list();
                CHECK(log_->add_all(visits, some_time) == model_.add_all(visits));
                break;
            }
            case 4:
                end_amid();
                break;
            default: {
                const Draft next = draft();
                CHECK(log_->record(next, some_time).outcome == model_.record(next));
            }
        }
        const auto number = some_number();
        const auto active = log_->active(number);
        CHECK(active.has_value() == model_.entries().contains(number));
        if (active) CHECK(active->number == model_.active(number));
        CHECK(log_->last("K2", 7) == model_.last("K2", 7));
    }

    /// The same work in a process of its own, which ends somewhere on the way.
    void end_amid() {
        const bool import = below(3) == 0;
        const auto visits = list();
        const Draft next = draft();
        const std::int64_t end = 1 + below(160);
        const bool power_cut = below(2) == 0;
        const unsigned seed = below(1'000'000);
        log_.reset();
        const pid_t child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            try {
                Log log(file_);
                files_.at_each_call([&](const FileCall& call) {
                    if (call.number != end) return 0;
                    std::mt19937 chance(seed);
                    if (power_cut) files_.lose_power([&] { return chance() % 2 == 0; });
                    ::_exit(1);
                });
                if (import)
                    log.add_all(visits, some_time);
                else
                    log.record(next, some_time);
                ::_exit(0);
            } catch (...) {
                ::_exit(2);
            }
        }
        int status = 0;
        ::waitpid(child, &status, 0);
        files_.look_again();
        REQUIRE(WIFEXITED(status));
        REQUIRE(WEXITSTATUS(status) != 2);
        const bool confirmed = WEXITSTATUS(status) == 0;
        Model after = model_;
        if (import)
            after.add_all(visits);
        else
            after.record(next);
        log_.emplace(file_);
        const auto there = all_of(*log_);
        CHECK((there == after.entries() || (!confirmed && there == model_.entries())));
        if (there == after.entries()) model_ = after;
        ++ends_;
    }

    void compare(const Log& log) {
        CHECK(all_of(log) == model_.entries());
        CHECK_FALSE(log.damage());
        std::set<std::int64_t> active;
        log.each(
            Log::Which::active,
            [&](const Entry& entry) {
                active.insert(entry.number);
                return true;
            },
            [](const Unreadable& entry) { FAIL("entry " << entry.number << " is unreadable"); });
        std::set<std::int64_t> wanted;
        for (const auto& [number, entry] : model_.entries())
            if (model_.stands(number)) wanted.insert(number);
        CHECK(active == wanted);
        ++compared_;
    }

    tests::Folder folder_;
    const std::filesystem::path file_ = folder_ / "log";
    tests::HookedFiles files_;
    std::mt19937 random_;
    Model model_;
    std::optional<Log> log_{std::in_place, file_};
    int ends_ = 0;
    int compared_ = 0;
};

TEST_CASE("log: it is what a plain map says, through every kind of work and end") {
    Play(20270318).run(150);
}
TEST_CASE("log: it is what a plain map says, for long", "[.slow]") {
    for (unsigned seed = 1; seed <= 10; ++seed) {
        INFO(seed);
        Play(seed).run(600);
    }
}

}  // namespace
}  // namespace gallipot::log
