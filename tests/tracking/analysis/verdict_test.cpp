#include "tracking/analysis/verdict.hpp"

#include <algorithm>
#include <cmath>

#include "catch_all.hpp"

#include "made.hpp"
#include "tracking/analysis/rules.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

std::optional<Day> when(const StationReport& report, Action action) {
    for (const Step& step : report.steps)
        if (step.action == action) return step.on;
    return std::nullopt;
}

StationReport alone(const std::vector<Visit>& visits, int as_of) {
    return station({site()}, visits, as_of);
}

}  // namespace

TEST_CASE("nothing counted, nothing claimed", "[analysis]") {
    CHECK(alone({}, -1).verdict == Verdict::not_started);
    CHECK(alone({}, 0).verdict == Verdict::never_visited);
    CHECK(alone({}, 0).has(Flag::never_visited));
    CHECK(when(alone({}, 2), Action::visit) == on_day(2));
    CHECK(alone({Made(1).level(90)}, 1).verdict == Verdict::not_counted);
    const auto once = alone(counted({{0, 20}}), 1);
    CHECK(once.verdict == Verdict::counted_once);
    CHECK(once.trend.change_percent == 0);
    CHECK(once.trend.decline.fitted == Fitted::too_few);
}

TEST_CASE("a fall is claimed when the counts carry it", "[analysis]") {
    const auto report = alone(counted({{0, 24}, {1, 20}, {4, 11}, {7, 7}, {10, 4}}), 10);
    CHECK(report.verdict == Verdict::falling);
    CHECK(*report.trend.change_percent == Approx(-100.0 * 20 / 24));
    REQUIRE(report.trend.half);
    CHECK(report.trend.half->days > *report.trend.half->low);
    CHECK(report.trend.half->days < *report.trend.half->high);
    CHECK(when(report, Action::keep_going) == on_day(21));  // the window's end
    CHECK(when(report, Action::look) == on_day(21));
    CHECK(report.flags.empty());

    // The same share from a handful of pests may be chance.
    CHECK(alone(counted({{0, 4}, {4, 2}, {10, 1}}), 10).verdict == Verdict::lower);
    // Two counts say nothing of how wide they scatter: it must be plain at six times chance.
    CHECK(alone(counted({{0, 240}, {10, 40}}), 10).verdict == Verdict::falling);
    CHECK(alone(counted({{0, 24}, {10, 4}}), 10).verdict == Verdict::lower);
    CHECK(alone(counted({{0, 24}, {10, 16}}), 10).verdict == Verdict::no_change);
    CHECK(alone(counted({{0, 40}, {10, 240}}), 10).verdict == Verdict::rising);
    // 2 x 0.5^(31/6) is 0.056, 2 x 0.5^(33/6) 0.044.
    CHECK_FALSE(alone(counted({{0, 31}, {10, 0}}), 10).trend.falls);
    CHECK(alone(counted({{0, 33}, {10, 0}}), 10).trend.falls);
}

TEST_CASE("without a control other causes are named, with one the fall must go beyond it",
          "[analysis]") {
    const auto fell = counted({{0, 24}, {1, 20}, {4, 11}, {7, 7}, {10, 4}});
    CHECK(alone(fell, 10).caution == Caution::no_control);
    const auto with = [&](const std::vector<std::pair<double, int>>& control_counts) {
        return station({site(), control()}, together(fell, counted(control_counts, "C1")), 10);
    };
    CHECK(with({{0, 20}, {4, 21}, {10, 22}}).caution == Caution::two_places);
    CHECK(with({{0, 20}, {4, 11}, {10, 5}}).caution == Caution::like_control);
    CHECK(with({{0, 20}, {4, 18}, {10, 0}}).caution == Caution::control_gone);
    CHECK(with({}).caution == Caution::not_together);
    CHECK(with({{0, 0}, {10, 0}}).caution == Caution::none_at_control);
    // No fall, no caution.
    CHECK(alone(counted({{0, 24}, {10, 23}}), 10).caution == Caution::none);
}

TEST_CASE("gone is gone for a fortnight before it is taken up", "[analysis]") {
    const auto visits = counted({{0, 24}, {4, 16}, {10, 0}});
    const auto early = alone(visits, 11);
    CHECK(early.verdict == Verdict::gone);
    // At a mean of two, none is seen once in a while anyway.
    CHECK(alone(counted({{0, 2}, {4, 2}, {10, 0}}), 11).verdict == Verdict::none_now);
    CHECK(when(alone(counted({{0, 2}, {4, 2}, {10, 0}}), 11), Action::keep_going) == on_day(24));
    CHECK(early.trend.none_since == day(10));
    CHECK(when(early, Action::keep_going) == on_day(24));
    CHECK_FALSE(when(early, Action::take_up));
    // The fortnight is over, but nobody has looked since: look first.
    CHECK_FALSE(when(alone(visits, 26), Action::take_up));
    const auto late = alone(together(visits, counted({{21, 0}, {25, 0}})), 26);
    CHECK(when(late, Action::take_up) == on_day(26));
    const auto over = alone(together(visits, {Made(26).saw(0).do_it(Did::removed)}), 60);
    CHECK(over.verdict == Verdict::retired);
    CHECK(over.steps.empty());
    CHECK(over.flags.empty());
}

TEST_CASE("back again after a fall is a rebound", "[analysis]") {
    const auto back = alone(counted({{0, 40}, {4, 12}, {10, 2}, {14, 25}, {21, 38}}), 21);
    CHECK(back.has(Flag::rebound));
    CHECK(back.verdict == Verdict::rebound);
    CHECK(when(back, Action::replace) == on_day(21));
    CHECK(alone(counted({{0, 40}, {4, 3}, {10, 40}}), 10).has(Flag::rebound));
    // Three counts that scatter as counts do are no rebound.
    CHECK_FALSE(alone(counted({{0, 24}, {4, 3}, {10, 12}}), 10).has(Flag::rebound));
    CHECK_FALSE(alone(counted({{0, 24}, {4, 0}, {10, 5}}), 10).has(Flag::rebound));
    CHECK_FALSE(alone(counted({{0, 12}, {4, 10}, {10, 24}}), 10).has(Flag::rebound));
    // Nothing can come back where nothing was.
    CHECK_FALSE(alone(counted({{0, 0}, {4, 0}, {10, 60}}), 10).has(Flag::rebound));
}

TEST_CASE("what the bait draws at first is no rebound, and its fall is a fall", "[analysis]") {
    // Few just after setting out, then many: as of day 3 they come to the bait.
    const auto drawn = alone(counted({{-0.1, 20}, {0.04, 6}, {1, 70}, {3, 64}}), 3);
    CHECK_FALSE(drawn.has(Flag::rebound));
    CHECK(drawn.trend.drawn);
    const auto later =
        alone(counted({{-0.1, 20}, {0.04, 6}, {1, 70}, {3, 64}, {7, 41}, {14, 24}, {21, 13}}), 21);
    CHECK(later.verdict == Verdict::falling);
    CHECK(later.trend.drawn->seen == 70);
    CHECK(later.trend.first.seen == 20);
    // Still more than before placing: a fall none the less.
    CHECK(alone(counted({{-0.1, 8}, {1, 70}, {3, 66}, {7, 40}, {10, 26}}), 10).verdict ==
          Verdict::falling);
    // Hardly more than before is chance: the line takes in all.
    CHECK_FALSE(alone(counted({{-0.1, 20}, {1, 24}, {7, 12}}), 7).trend.drawn);
}

TEST_CASE("no fall past the usual window is stalled", "[analysis]") {
    const auto flat = counted({{0, 24}, {4, 26}, {10, 22}, {16, 25}, {22, 23}});
    CHECK(alone(flat, 22).has(Flag::stalled));
    CHECK(alone(flat, 22).verdict == Verdict::stalled);
    CHECK(when(alone(flat, 22), Action::change_bait) == on_day(22));
    CHECK_FALSE(alone(counted({{0, 24}, {4, 26}, {10, 22}, {20, 23}}), 20).has(Flag::stalled));
    CHECK_FALSE(alone(counted({{0, 24}, {4, 20}, {10, 15}, {22, 9}}), 22).has(Flag::stalled));
    // The last count decides, not the calendar: nobody has looked since day 10.
    CHECK_FALSE(alone(counted({{0, 24}, {4, 26}, {10, 22}}), 40).has(Flag::stalled));
    // A handful of pests does not say that there was no fall.
    CHECK_FALSE(alone(counted({{0, 4}, {4, 5}, {10, 4}, {22, 3}}), 22).has(Flag::stalled));
    // Level here, while there came to be four times as many without bait: the bait is not at fault.
    const auto up = counted({{0, 20}, {4, 31}, {10, 42}, {16, 60}, {22, 81}}, "C1");
    const auto held = station({site(), control()}, together(flat, up), 22);
    CHECK_FALSE(held.has(Flag::stalled));
    CHECK_FALSE(when(held, Action::change_bait));
    CHECK(*held.efficacy.percent > 50);
    // Eight weeks on it is for somebody who knows the species.
    const auto still = together(flat, counted({{40, 25}, {57, 24}}));
    CHECK(when(alone(still, 57), Action::call_professional) == on_day(57));
    // Where nobody knows when a result shows, nothing is late.
    Site timber = site();
    timber.window.reset();
    CHECK_FALSE(station({timber}, flat, 22).has(Flag::stalled));
}

TEST_CASE("what was found and not put right is flagged and comes first", "[analysis]") {
    const auto with = [](State state) {
        return alone({Made(0).saw(20), Made(4).saw(12).level(60).found(state)}, 5);
    };
    const std::vector<std::tuple<State, Flag, Action, Why>> all{
        {State::clogged, Flag::clogged, Action::clear, Why::none},
        {State::wet, Flag::wet, Action::replace, Why::spoilt},
        {State::dry, Flag::dry, Action::top_up, Why::dry},
        {State::spilt, Flag::spilt, Action::wipe_up, Why::none},
        {State::moved, Flag::moved, Action::put_back, Why::none},
        {State::missing, Flag::missing, Action::find, Why::none},
        {State::mouldy, Flag::mouldy, Action::replace, Why::spoilt}};
    for (const auto& [state, flag, action, why] : all) {
        const auto report = with(state);
        CHECK(report.flags == std::vector{flag});
        CHECK(report.steps.front() == Step{action, on_day(5), why});
        CHECK(word(flag) == gallipot::visit::word(state));
    }
    CHECK(word(Flag::never_visited) == "never visited");
    const auto again = alone({Made(1).found(State::clogged).do_it(Did::cleared),
                              Made(4).found(State::clogged).do_it(Did::cleared)},
                             5);
    CHECK(again.flags.empty());
    CHECK(when(again, Action::move_it) == on_day(5));
}

TEST_CASE("steps have dates: next visit, top up, replace", "[analysis]") {
    const auto report = alone({Made(0).saw(20), Made(4).saw(12).level(84)}, 5);
    CHECK(when(report, Action::look) == on_day(10));
    CHECK(when(report, Action::replace) == on_day(30));
    // 4 % a day, read to 5 %: in the worst case 84 % is gone 84/(4 + 1.96 x 5/4) = 13.0 days later.
    CHECK(when(report, Action::top_up) == on_day(17));
    CHECK(std::ranges::is_sorted(report.steps));
    // Past its date: today.
    const auto old = alone({Made(0).saw(20), Made(29).saw(3)}, 34);
    CHECK(old.has(Flag::past_date));
    CHECK(when(old, Action::replace) == on_day(34));
    const auto late = alone({Made(0).saw(20), Made(4).saw(12)}, 11);
    CHECK(late.has(Flag::overdue));
    CHECK(late.steps.front() == Step{Action::visit, on_day(11)});
}

TEST_CASE("a filling that ends before it runs empty is not topped up", "[analysis]") {
    // 1 % a day lasts long past the thirty days that the bait keeps.
    const auto slow = alone({Made(0).saw(20), Made(10).saw(9).level(90)}, 11);
    CHECK(slow.feeding.first_empty());
    CHECK_FALSE(when(slow, Action::top_up));
    CHECK(when(slow, Action::replace) == on_day(30));
    // Fresh bait today makes a topping up moot.
    const auto mouldy =
        alone({Made(0).saw(20), Made(10).saw(9).level(10).found(State::mouldy)}, 11);
    CHECK(when(mouldy, Action::replace) == on_day(11));
    CHECK_FALSE(when(mouldy, Action::top_up));
}

TEST_CASE("a bait the pests could not get at is not blamed", "[analysis]") {
    auto flat = counted({{0, 24}, {4, 26}, {10, 22}, {16, 25}, {22, 23}});
    CHECK(when(alone(flat, 22), Action::change_bait) == on_day(22));
    flat.back().state.add(State::clogged);
    const auto clogged = alone(flat, 22);
    CHECK(clogged.has(Flag::stalled));
    CHECK(when(clogged, Action::clear) == on_day(22));
    CHECK_FALSE(when(clogged, Action::change_bait));
    // Back again is one trouble, no fall another.
    const auto back = alone(counted({{0, 60}, {4, 5}, {10, 45}, {22, 58}}), 22);
    CHECK(back.flags == std::vector{Flag::rebound});
}

TEST_CASE("more at first is usual", "[analysis]") {
    const auto report = alone(counted({{0, 12}, {1.0 / 24, 35}, {1, 31}}), 1);
    CHECK(report.early);
    CHECK_FALSE(alone(counted({{0, 12}, {4, 35}, {10, 31}}), 10).early);
}

TEST_CASE("where none ever came the place is wrong, once there was time", "[analysis]") {
    const auto none = counted({{0, 0}, {4, 0}, {10, 0}});
    CHECK(alone(none, 10).verdict == Verdict::none_seen);
    CHECK(when(alone(none, 10), Action::keep_going) == on_day(21));
    CHECK(when(alone(together(none, counted({{22, 0}})), 22), Action::move_it) == on_day(22));
    CHECK_FALSE(alone(none, 10).trend.change_percent);
}

TEST_CASE("edge cases hold no nonsense", "[analysis]") {
    const std::vector<std::vector<std::pair<double, int>>> cases{
        {},
        {{0, 0}},
        {{0, 1'000'000}},
        {{0, 0}, {4, 0}},
        {{0, 0}, {4, 9}},
        {{0, 9}, {4, 0}},
        {{0, 0}, {0, 9}},
        {{0, 1'000'000}, {4, 999'999}, {10, 1}},
        {{0, 1}, {100'000, 1}},
        {{0, 5}, {0.0007, 5}, {0.0014, 5}},
        {{0, 0}, {1, 12}, {4, 7}, {10, 3}, {21, 1}},
    };
    for (const auto& counts : cases) {
        for (const int as_of : {-100, 0, 30, 100'000}) {
            std::vector<Visit> visits;
            for (const auto& [days, seen] : counts)
                if (days < as_of + 1) visits.push_back(Made(days).saw(seen).level(50));
            const auto report = alone(visits, as_of);
            if (report.trend.change_percent) CHECK(std::isfinite(*report.trend.change_percent));
            for (const auto& fall : {report.trend.half, report.trend.tenth}) {
                if (!fall) continue;
                CHECK(std::isfinite(fall->days));
                CHECK(fall->days > 0);
                if (fall->low) CHECK(*fall->low > 0);
                if (fall->low) CHECK(*fall->low <= fall->days);
                if (fall->high) CHECK(*fall->high >= fall->days);
            }
            for (const Step& step : report.steps) CHECK((step.on >= on_day(as_of) || as_of < 0));
            CHECK((report.trend.falls && report.trend.rises) == false);
        }
    }
}

// What people who bait say, with no source: none of it may be judged the other way.
TEST_CASE("common practice: sweet liquid bait shows a clear fall within ten days",
          "[analysis][practice]") {
    const auto report = alone(counted({{0, 30}, {1.0 / 24, 41}, {1, 33}, {4, 15}, {10, 4}}), 10);
    CHECK(report.verdict == Verdict::falling);
    CHECK(report.trend.half->days < 10);
    REQUIRE(report.trend.half->high);
}

TEST_CASE("common practice: dry bait shows within one to two weeks", "[analysis][practice]") {
    Site dry = site();
    dry.window = Window{3, 15};
    const auto slow = counted({{0, 18}, {1, 19}, {4, 17}, {7, 16}});
    CHECK_FALSE(station({dry}, slow, 7).has(Flag::stalled));
    CHECK(when(station({dry}, slow, 7), Action::keep_going) == on_day(15));
    CHECK(station({dry}, together(slow, counted({{10, 9}, {14, 3}})), 14).verdict ==
          Verdict::falling);
    CHECK(station({dry}, together(slow, counted({{10, 18}, {16, 17}})), 16).has(Flag::stalled));
}

TEST_CASE("common practice: a 40 mL cup can last a month outdoors", "[analysis][practice]") {
    Site cup = site();
    cup.filling = gallipot::units::mL(40);
    const auto report =
        station({cup}, {Made(1).level(95), Made(4).level(90), Made(10).level(70)}, 10);
    const Level* level = report.feeding.first_empty();
    REQUIRE(level);
    CHECK(level->empty->at > day(28));
    CHECK(level->empty->at < day(40));
    CHECK(level->empty->low < day(31));
    CHECK_FALSE(report.has(Flag::dry));
}

TEST_CASE("common practice: other sprays are held off for two to three weeks",
          "[analysis][practice]") {
    CHECK(rules::usual_days_low == 14);
    CHECK(rules::usual_days_high == 21);
}

TEST_CASE("cockroaches are gone after 45 days and two empty rounds of traps", "[analysis]") {
    Site roaches = site();
    roaches.gone_days = 45;
    roaches.empty_counts = 2;
    roaches.empty_traps = true;
    const auto trapped = [](double days, int caught) {
        Made visit = Made(days).saw(caught);
        visit.trap_nights = 6;
        return visit;
    };
    const auto step_of = [&](const std::vector<Visit>& visits, int as_of) {
        const StationReport report = station({roaches}, visits, as_of);
        CHECK((report.verdict == Verdict::gone || report.verdict == Verdict::none_now));
        for (const Step& step : report.steps)
            if (step.action == Action::take_up || step.action == Action::keep_going) return step;
        return Step{};
    };
    const std::vector<Visit> fell{trapped(0, 12), trapped(10, 3), trapped(20, 0)};
    const auto then = [&](std::vector<Visit> more) { return together(fell, more); };
    // One empty round, 45 days ago or not, is not two.
    CHECK(step_of(fell, 70).why == Why::until_traps);
    CHECK(step_of(fell, 20).on == on_day(65));
    // Two, but not yet 45 days apart.
    CHECK(step_of(then({trapped(64, 0)}), 64) ==
          Step{Action::keep_going, on_day(65), Why::until_gone});
    CHECK(step_of(then({trapped(65, 0)}), 65) == Step{Action::take_up, on_day(65), Why::gone, 45});
    CHECK(step_of(then({trapped(30, 0), Made(65).saw(0)}), 65).action == Action::take_up);
    // Looked for with a torch alone: 36 in 100 who have them never see one.
    CHECK(step_of(then({Made(65).saw(0)}), 65) ==
          Step{Action::keep_going, on_day(65), Why::until_traps, 2});
    // The same round of traps twice in the log is one round.
    CHECK(step_of(then({Made(65).saw(0), trapped(20.05, 0)}), 65).why == Why::until_traps);
    // One caught in between, and it begins again.
    const auto again = then({trapped(40, 1), trapped(65, 0)});
    CHECK(step_of(again, 65).why == Why::until_traps);
    CHECK(step_of(together(again, {trapped(110, 0)}), 110).action == Action::take_up);

    // Where the table of pests asks for no traps, two counts of none do.
    roaches.empty_traps = false;
    CHECK(step_of({Made(0).saw(12), Made(20).saw(0), Made(65).saw(0)}, 65).action ==
          Action::take_up);
}
