#include "tracking/analysis/container_state.hpp"

#include <random>
#include <set>

#include "catch_all.hpp"

#include "made.hpp"
#include "tracking/analysis/verdict.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

Site of(int containers) {
    Site s = site();
    s.containers = containers;
    return s;
}

std::vector<ContainerState> after(const Site& s, const std::vector<Visit>& visits) {
    const auto all = histories({s}, visits);
    return containers_of(s, all.until(0, on_day(1000)));
}

std::vector<ContainerState> after(int containers, const std::vector<Visit>& visits) {
    return after(of(containers), visits);
}

}  // namespace

TEST_CASE("a missing container stays missing whatever is said of its station", "[analysis]") {
    const Made gone = Made(4).in(2).found(State::missing);
    for (const Made& later :
         {Made(5).level(80).saw(3), Made(5).do_it(Did::replaced), Made(5).do_it(Did::removed),
          Made(5).do_it(Did::cleared), Made(5).in(1).level(50), Made(5)}) {
        const auto states = after(3, {gone, later});
        CHECK(states[1].missing());
        CHECK_FALSE(states[1].standing());
        CHECK_FALSE(states[1].level_percent);
        CHECK_FALSE(states[0].missing());
        CHECK_FALSE(states[2].missing());
    }
    for (const Did did :
         {Did::cleared, Did::refilled, Did::replaced, Did::moved, Did::removed, Did::placed})
        CHECK_FALSE(after(3, {gone, Made(5).in(2).do_it(did)})[1].missing());
    CHECK_FALSE(after(3, {gone, Made(5).in(2).level(40)})[1].missing());
    CHECK(after(3, {gone, Made(5).in(2).saw(4)})[1].missing());  // counted round the empty place
    // Once it is back, what is said of the station is said of it too.
    CHECK(after(3, {gone, Made(5).in(2).do_it(Did::placed), Made(6).level(20)})[1].level_percent ==
          20);
}

TEST_CASE("all that a station has may be missing, and be found, at once", "[analysis]") {
    const Made gone = Made(4).found(State::missing);
    for (const ContainerState& each : after(3, {gone})) CHECK(each.missing());
    for (const ContainerState& each : after(3, {gone, Made(5).do_it(Did::replaced)}))
        CHECK(each.standing());
    CHECK_FALSE(after(1, {gone, Made(5).level(60)})[0].missing());
    CHECK(after(1, {gone, Made(5).saw(6)})[0].missing());
}

TEST_CASE("a container that was taken up stays so while the others are filled", "[analysis]") {
    const Made up = Made(4).in(1).do_it(Did::removed);
    CHECK(after(2, {up, Made(5).do_it(Did::replaced)})[0].taken_up);
    CHECK(after(2, {up, Made(5).do_it(Did::replaced)})[1].fresh->at == day(5));
    CHECK(after(2, {up, Made(5).in(1).do_it(Did::placed)})[0].fresh->at == day(5));
    CHECK_FALSE(after(2, {up, Made(5).in(1).do_it(Did::placed)})[0].taken_up);
}

TEST_CASE("a container holds what it was filled with last, and what was left below", "[analysis]") {
    CHECK(after(1, {})[0].fresh->at == placed);
    CHECK(after(1, {Made(5).do_it(Did::replaced)})[0].fresh->at == day(5));
    const auto topped =
        after(1, {Made(5).do_it(Did::replaced), Made(7).level(30).do_it(Did::refilled),
                  Made(9).do_it(Did::refilled)})[0];
    CHECK(topped.fresh->at == day(5));
    CHECK(topped.topped_up == std::vector{Filling{day(7)}, Filling{day(9)}});
    CHECK(topped.filled() == day(9));
    CHECK(topped.level_percent == 100);
    CHECK(after(1, {Made(7).do_it(Did::refilled), Made(8).do_it(Did::replaced)})[0]
              .topped_up.empty());
    // Found again, it holds what it held.
    CHECK(after(1, {Made(5).found(State::missing), Made(6).do_it(Did::placed)})[0].fresh->at ==
          placed);
    Site unplaced = site();
    unplaced.placed.reset();
    CHECK_FALSE(after(unplaced, {})[0].set_out);
    CHECK(after(unplaced, {Made(3).do_it(Did::placed)})[0].fresh->at == day(3));
    CHECK(after(unplaced, {Made(3).level(70)})[0].set_out);
    CHECK_FALSE(after(unplaced, {Made(3).level(70)})[0].fresh);
}

TEST_CASE("where the job does not say when it was set out the log does", "[analysis]") {
    Site unplaced = site();
    unplaced.placed.reset();
    unplaced.due_from = placed;
    unplaced.replace_by.reset();
    const auto all = histories({unplaced}, {Made(-3).saw(40), Made(2).do_it(Did::placed)});
    const Site known = as_set_out(unplaced, all.until(0, on_day(1000)));
    CHECK(known.placed == day(2));
    CHECK(known.due.front() == day(2 + 1.0 / 24));
    CHECK(known.replace_by == on_day(32));
    CHECK_FALSE(as_set_out(unplaced, all.until(0, on_day(1))).placed);
    // What the job says stands.
    CHECK(as_set_out(site(), all.until(0, on_day(1000))).placed == placed);
}

TEST_CASE("what is to be done is said of each container", "[analysis]") {
    const auto steps = [](int containers, const std::vector<Visit>& visits, int as_of) {
        std::vector<std::pair<Action, int>> all;
        for (const Step& step : station({of(containers)}, visits, as_of).steps)
            all.emplace_back(step.action, step.container);
        return all;
    };
    using All = std::vector<std::pair<Action, int>>;
    const Made looked = Made(9.9).level(100);
    CHECK(steps(3, {looked, Made(10).in(2).found(State::missing)}, 10) ==
          All{{Action::find, 2}, {Action::look, 0}, {Action::replace, 1}, {Action::replace, 3}});
    CHECK(steps(3, {looked, Made(10).found(State::clogged)}, 10) ==
          All{{Action::clear, 0}, {Action::look, 0}, {Action::replace, 0}});
    CHECK(steps(2,
                {looked, Made(10).in(1).found(State::spilt), Made(10).in(2).found(State::mouldy)},
                10) ==
          All{{Action::wipe_up, 1}, {Action::replace, 2}, {Action::look, 0}, {Action::replace, 1}});
}

TEST_CASE("a late visit and a bait past its date are two flags", "[analysis]") {
    Site s = site();
    s.replace_by = on_day(8);
    const auto flags = [&](const std::vector<Visit>& visits, int as_of) {
        const StationReport report = station({s}, visits, as_of);
        return std::pair(report.has(Flag::overdue), report.has(Flag::past_date));
    };
    CHECK(flags({Made(4).saw(5)}, 8) == std::pair(false, false));
    CHECK(flags({Made(4).saw(5)}, 9) == std::pair(false, true));
    CHECK(flags({Made(4).saw(5)}, 11) == std::pair(true, true));
    CHECK(flags({Made(10).saw(5)}, 11) == std::pair(false, true));
    CHECK(flags({Made(4).saw(5).do_it(Did::replaced)}, 11) == std::pair(true, false));
}

TEST_CASE("one missing cup of eight is not eight", "[analysis]") {
    const Site s = of(8);
    const auto used = [&](const std::vector<Visit>& visits) {
        const auto all = histories({s}, visits);
        return feeding_of(s, all.until(0, on_day(1000))).used;
    };
    CHECK(used({Made(4).in(2).found(State::missing)}).put_out == 8);
    CHECK(used({Made(4).in(2).found(State::missing)}).gone == 1);
    CHECK(used({Made(4).level(50), Made(5).in(2).found(State::missing)}).gone == 4.5);
    // A routine visit says nothing of it; found again it is not gone.
    CHECK(used({Made(4).in(2).found(State::missing), Made(5).level(75)}).gone == 7 * 0.25 + 1);
    const Made found = Made(6).in(2).level(75);
    CHECK(used({Made(4).in(2).found(State::missing), Made(5).level(75), found}).gone == 2);
    CHECK(used({Made(4).in(2).found(State::missing), Made(5).level(75), found}).put_out == 8);
    const Made another = Made(6).in(2).do_it(Did::replaced);
    CHECK(used({Made(4).in(2).found(State::missing), another}).put_out == 9);
    CHECK(used({Made(4).in(2).found(State::missing), another}).gone == 1);
}

namespace {

/// A plain model of one container, written by the rules of PRODUCT and not after the program.
struct Cup {
    std::set<State> open;
    bool up = false, apart = false;
    double filled = 0;

    void hear(const Visit& v, bool mine, bool alone) {
        if (!mine && apart) return;
        if (v.level_percent) open.erase(State::missing);
        if (v.level_percent && *v.level_percent > 0) open.erase(State::dry);
        if (v.level_percent == 0) open.insert(State::dry);
        for (const State s : gallipot::visit::all_states())
            if (v.state.has(s)) open.insert(s);
        const auto did = [&](Did d) { return v.did.has(d); };
        const bool bottom = open.contains(State::dry);
        const bool fresh = did(Did::replaced) || (up && (did(Did::placed) || did(Did::refilled)));
        if (fresh || did(Did::removed)) open.clear();
        if (did(Did::cleared)) open.erase(State::clogged), open.erase(State::spilt);
        if (did(Did::refilled)) open.erase(State::spilt), open.erase(State::dry);
        if (did(Did::moved) || did(Did::placed)) open.erase(State::moved);
        if (!v.did.empty()) open.erase(State::missing);
        if (fresh || (bottom && did(Did::refilled))) filled = days_between(placed, v.time);
        if (did(Did::replaced) || did(Did::refilled) || did(Did::placed)) up = false;
        if (did(Did::removed)) up = true;
        const bool away = up || open.contains(State::missing);
        apart = away && (apart || (mine && !alone));
    }
};

}  // namespace

TEST_CASE("random entries leave each container as a plain model has it", "[analysis]") {
    std::mt19937 random(22);
    const auto one_in = [&](unsigned n) { return random() % n == 0; };
    for (int run = 0; run < 400; ++run) {
        const int containers = 1 + static_cast<int>(random() % 4);
        std::vector<Visit> visits;
        std::vector<Cup> cups(static_cast<std::size_t>(containers));
        for (int i = 0; i < 25; ++i) {
            Made v(0.5 + i);
            if (one_in(2)) v.in(1 + static_cast<int>(random() % static_cast<unsigned>(containers)));
            if (one_in(2)) v.level(static_cast<int>(random() % 5) * 25);
            for (const State s : gallipot::visit::all_states())
                if (one_in(9)) v.found(s);
            for (const Did d : gallipot::visit::all_dids())
                if (one_in(9)) v.do_it(d);
            visits.push_back(v);
            for (int c = 1; c <= containers; ++c) {
                const bool alone = containers == 1;
                if (v.container == 0 || v.container == c)
                    cups[static_cast<std::size_t>(c - 1)].hear(v, v.container == c || alone, alone);
            }
            const auto states = after(containers, visits);
            for (std::size_t c = 0; c < cups.size(); ++c) {
                CAPTURE(run, i, c);
                for (const State s : gallipot::visit::all_states())
                    REQUIRE(states[c].open.has(s) == cups[c].open.contains(s));
                REQUIRE(states[c].taken_up == cups[c].up);
                REQUIRE(std::abs(days_between(placed, states[c].fresh->at) - cups[c].filled) <
                        0.001);
            }
        }
    }
}
