#include "tracking/analysis/station_state.hpp"

#include "catch_all.hpp"

#include "made.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

StationState station_state(const std::vector<Visit>& visits, int containers = 1) {
    Site s = site();
    s.containers = containers;
    const auto all = histories({s}, visits);
    return station_state_of(s, all.until(0, on_day(1000)));
}

}  // namespace

TEST_CASE("a trouble stays open until it is put right", "[analysis]") {
    const auto open_after = [](State state, Did did) {
        return station_state({Made(4).found(state).do_it(did)}).open.has(state);
    };
    CHECK_FALSE(open_after(State::clogged, Did::cleared));
    CHECK(open_after(State::clogged, Did::refilled));
    CHECK_FALSE(open_after(State::dry, Did::refilled));
    CHECK(open_after(State::dry, Did::cleared));
    CHECK_FALSE(open_after(State::mouldy, Did::replaced));
    CHECK(open_after(State::mouldy, Did::refilled));  // fresh bait on mould is mouldy bait
    CHECK(open_after(State::wet, Did::refilled));
    CHECK_FALSE(open_after(State::missing, Did::replaced));
    CHECK_FALSE(open_after(State::moved, Did::moved));
    CHECK_FALSE(open_after(State::spilt, Did::cleared));
    for (const State state : gallipot::visit::all_states()) {
        CHECK(station_state({Made(4).found(state)}).open.has(state));
        CHECK_FALSE(open_after(state, Did::replaced));
        CHECK_FALSE(open_after(state, Did::removed));
        // Nobody says that it was put right: it was not.
        CHECK(station_state({Made(4).found(state), Made(5)}).open.has(state));
    }
    CHECK(station_state({Made(4).level(0)}).open.has(State::dry));
    CHECK_FALSE(station_state({Made(4).level(0).do_it(Did::refilled)}).open.has(State::dry));
    CHECK_FALSE(station_state({Made(4).level(5)}).open.has(State::dry));
}

// Ours: a powder that is dry is as it should be; that none is left is another matter.
TEST_CASE("a dry bait that was found dry has no trouble", "[analysis]") {
    Site powder = site();
    powder.powder = true;
    const auto open = [&](const Visit& visit) {
        const auto all = histories({powder}, {visit});
        return station_state_of(powder, all.until(0, on_day(1000))).open;
    };
    CHECK(open(Made(4).found(State::dry)).empty());
    CHECK(open(Made(4).found(State::wet)).has(State::wet));
    CHECK(open(Made(4).level(0)).has(State::dry));
}

TEST_CASE("a station is retired once all that stood there is taken up", "[analysis]") {
    CHECK_FALSE(station_state({Made(4).in(1).do_it(Did::removed)}, 2).retired);
    CHECK(station_state({Made(4).in(1).do_it(Did::removed), Made(5).in(2).do_it(Did::removed)}, 2)
              .retired);
    CHECK(station_state({Made(4).do_it(Did::removed)}, 2).retired);
    CHECK_FALSE(
        station_state({Made(4).do_it(Did::removed), Made(9).do_it(Did::replaced)}, 1).retired);
    // One that nobody has found yet is not taken up with the others.
    CHECK_FALSE(station_state({Made(4).in(1).found(State::missing), Made(5).do_it(Did::removed)}, 2)
                    .retired);
}

TEST_CASE("the same trouble twice is the place's fault, until it is moved", "[analysis]") {
    CHECK_FALSE(station_state({Made(4).found(State::wet)}).place_at_fault);
    CHECK(station_state({Made(4).found(State::wet).do_it(Did::replaced),
                         Made(10).found(State::wet).do_it(Did::replaced)})
              .place_at_fault);
    CHECK_FALSE(
        station_state({Made(4).found(State::wet), Made(10).found(State::clogged)}).place_at_fault);
    CHECK_FALSE(station_state({Made(4).found(State::wet), Made(10).found(State::wet),
                               Made(11).do_it(Did::moved)})
                    .place_at_fault);
    CHECK_FALSE(
        station_state({Made(4).found(State::dry), Made(10).found(State::dry)}).place_at_fault);
}

TEST_CASE("a visit counts for the planned one it is nearest to", "[analysis]") {
    const Site s = site();
    const auto due = [&](std::optional<double> last, int as_of) {
        return *next_due(s, last ? std::optional(day(*last)) : std::nullopt, on_day(as_of));
    };
    CHECK(due(std::nullopt, 0).on == on_day(0));
    CHECK_FALSE(due(std::nullopt, 0).overdue);
    CHECK(due(std::nullopt, 1).overdue);
    CHECK(due(4, 5).on == on_day(10));
    CHECK(due(8, 9).on == on_day(21));  // nearer to day 10 than to day 4
    CHECK(due(6, 9).on == on_day(10));
    CHECK_FALSE(due(4, 10).overdue);  // all day long
    CHECK(due(4, 11).overdue);
    CHECK(due(4, 11).on == on_day(10));
    // Three planned visits missed, one made since: nothing is overdue.
    CHECK(due(22, 23).on == on_day(30));
    // After the plan's end, once a week.
    CHECK(due(30, 31).on == on_day(37));
    CHECK(due(44, 50).on == on_day(51));
    CHECK(due(44, 52).overdue);
    CHECK_FALSE(next_due(Site{}, std::nullopt, on_day(0)));
}

TEST_CASE("bait put out anew keeps for its own time", "[analysis]") {
    CHECK(*replace_by(station_state({})) == on_day(30));
    CHECK(*replace_by(station_state({Made(10).do_it(Did::replaced)})) == on_day(40));
    CHECK(*replace_by(station_state({Made(10).do_it(Did::refilled)})) == on_day(30));
    // Filled again once it was empty, it holds nothing but what is new.
    CHECK(*replace_by(station_state({Made(10).level(0).do_it(Did::refilled)})) == on_day(40));
    // The soonest of them; not that of one that is not there.
    const Made fresh = Made(10).in(1).do_it(Did::replaced);
    CHECK(*replace_by(station_state({fresh}, 2)) == on_day(30));
    CHECK(*replace_by(station_state({fresh, Made(11).in(2).found(State::missing)}, 2)) ==
          on_day(40));
    CHECK_FALSE(replace_by(station_state({Made(11).do_it(Did::removed)})));
}
