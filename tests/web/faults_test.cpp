#include <atomic>
#include <cstdlib>
#include <map>
#include <sqlite3.h>

#include "catch_all.hpp"

#include "served.hpp"
#include "tracking/log/hooked_files.hpp"

/// Every call of the log's file layer fails once, one after the other, while phones post: what was
/// answered with "saved" is in the log, exactly once; what was not comes back with what was typed,
/// and sent again it is there exactly once; and the server lives.
namespace gallipot::web {
namespace {

using tests::FileCall;
using tests::HookedFiles;
using tests::Served;
using tests::status;

struct Failure {
    const char* name;
    int error;   ///< 0: the usual one of that call
    bool lasts;  ///< all later calls fail too, as on a disk that stays broken
};

/// One visit that a phone wants kept.
struct Sent {
    std::string station;
    std::string token;
    std::string answer;

    [[nodiscard]] bool confirmed() const { return status(answer) == "HTTP/1.1 303"; }
    void send(const Served& served) {
        answer = served.post(served.house.station(station),
                             "token=" + token + "&seen=9&by=Kim&note=note+" + token);
    }
};

/// How often each note is in the log.
std::map<std::string, int> notes(Served& served) {
    std::map<std::string, int> found;
    for (const char* station : {"K1", "K2", "E1", "R1"})
        for (const auto& entry : served.house.visits().last(station, 1'000'000))
            ++found[entry.visit.note];
    return found;
}

/// What the answer to a form that was not recorded must hold.
void check_brought_back(const Sent& form) {
    CHECK(status(form.answer) == "HTTP/1.1 503");
    CHECK(form.answer.find("note " + form.token) != std::string::npos);
    CHECK(tests::hidden_value(form.answer, "token") == form.token);
    CHECK(form.answer.find("value=\"Kim\"") != std::string::npos);
}

class Trial {
  public:
    explicit Trial(std::size_t phones)
        : served_({}, Rates{.posts = {1e9, std::chrono::milliseconds(1)}}) {
        for (std::size_t i = 0; i < phones; ++i) forms_.emplace_back();
    }

    /// How many calls it takes when none fails.
    std::int64_t count() {
        files_.at_each_call([](const FileCall&) { return 0; });
        post("count");
        const std::int64_t calls = files_.calls();
        files_.leave_alone();
        for (const Sent& form : forms_) REQUIRE(form.confirmed());
        return calls;
    }

    /// The n-th call fails while every phone posts once.
    void fail_at(std::int64_t n, const Failure& failure) {
        INFO(failure.name << ", call " << n);
        files_.at_each_call([&](const FileCall& call) {
            const bool fails = failure.lasts ? call.number >= n : call.number == n;
            if (!fails) return 0;
            return failure.error == 0 ? call.usual_error : failure.error;
        });
        const std::string name = std::string(failure.name) + std::to_string(n);
        post(name);
        const std::string overview = served_.get(served_.house.overview());
        files_.leave_alone();
        CHECK((status(overview) == "HTTP/1.1 200" || status(overview) == "HTTP/1.1 503"));

        auto found = notes(served_);
        for (Sent& form : forms_) {
            const int times = found["note " + form.token];
            if (form.confirmed()) {
                CHECK(times == 1);
                ++confirmed;
            } else {
                CHECK(times <= 1);
                check_brought_back(form);
                ++brought_back;
                form.send(served_);
                CHECK(form.confirmed());
            }
        }
        found = notes(served_);
        for (const Sent& form : forms_) CHECK(found["note " + form.token] == 1);
        for (const auto& [note, times] : found) CHECK(times == 1);
    }

    void print(const char* what, std::int64_t calls) const {
        if (std::getenv("GALLIPOT_FIGURES") != nullptr)
            std::printf("%s: %lld calls, %d posts confirmed, %d brought back, none lost or twice\n",
                        what, static_cast<long long>(calls), confirmed, brought_back);
    }

    int confirmed = 0;
    int brought_back = 0;

  private:
    void post(const std::string& name) {
        static constexpr std::array stations{"K1", "K2", "E1", "R1"};
        std::vector<std::thread> phones;
        for (std::size_t i = 0; i < forms_.size(); ++i) {
            forms_[i] = {stations[i % stations.size()], name + "-" + std::to_string(i), ""};
            phones.emplace_back([this, i] { forms_[i].send(served_); });
        }
        for (std::thread& phone : phones) phone.join();
    }

    HookedFiles files_;  // before the log is opened
    Served served_;
    std::vector<Sent> forms_;
};

TEST_CASE("faults: every call of the log fails once while a phone posts") {
    Trial trial(1);
    const std::int64_t calls = trial.count();
    REQUIRE(calls > 10);
    const Failure once{"once", 0, false};
    for (std::int64_t n = 1; n <= calls; ++n) trial.fail_at(n, once);
    CHECK(trial.brought_back > 0);
    trial.print("one phone, once", calls);
}

TEST_CASE("faults: in every way, while four phones post", "[.slow]") {
    for (const Failure& failure :
         {Failure{"once", 0, false}, Failure{"lasts", 0, true}, Failure{"full", SQLITE_FULL, true},
          Failure{"io", SQLITE_IOERR, false}}) {
        Trial trial(4);
        const std::int64_t calls = trial.count();
        for (std::int64_t n = 1; n <= calls; ++n) trial.fail_at(n, failure);
        trial.print(failure.name, calls);
    }
}

}  // namespace
}  // namespace gallipot::web
