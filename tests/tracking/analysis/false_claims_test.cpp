#include <map>
#include <random>

#include "catch_all.hpp"

#include "world.hpp"

// What the report claims of jobs whose truth is known. ninja bench_evidence does the same at
// length.

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

struct Share {
    int claimed = 0, all = 0;
    void add(bool claim) {
        claimed += claim ? 1 : 0;
        ++all;
    }
    [[nodiscard]] double percent() const { return 100.0 * claimed / all; }
};

constexpr int runs = 250;
/// Five in a hundred, and what a share of 250 may be above it by chance: once in a thousand.
constexpr double five_percent = 9.6;

}  // namespace

TEST_CASE("an effect is claimed falsely in no more than one job in twenty", "[analysis]") {
    std::mt19937_64 random(23);
    for (const double scatter : {1.0, 3.0, 6.0})
        for (const auto& [treated, controls] :
             {std::pair{1, 1}, std::pair{3, 1}, std::pair{5, 3}, std::pair{12, 1}})
            for (const double differ : {0.0, 0.03})
                for (const double half : {0.0, 12.0}) {
                    World world{"both alike", treated, controls};
                    world.scatter = scatter;
                    world.slopes_differ = differ;
                    world.treated_half = world.control_half = half;
                    Share job, station;
                    for (int i = 0; i < runs; ++i) {
                        const Report report = report_on(world, random);
                        job.add(report.pests[0].efficacy.beyond_control);
                        for (const StationReport& each : report.stations)
                            if (!each.control) station.add(each.efficacy.beyond_control);
                    }
                    INFO(treated << '+' << controls << ", scatter " << scatter << ", differing "
                                 << differ << ", half in " << half);
                    CHECK(job.percent() < five_percent);
                    CHECK(station.percent() < 2.5);
                }
}

TEST_CASE("level counts do not fall, rise or come back; a bait that works is found to",
          "[analysis]") {
    std::mt19937_64 random(24);
    for (const double scatter : {1.0, 3.0, 6.0}) {
        INFO("scatter " << scatter);
        World level{"level", 6, 2};
        level.scatter = scatter;
        Share falls, rises, rebounds, gone, late;
        for (int i = 0; i < runs; ++i) {
            const Report report = report_on(level, random);
            for (const StationReport& each : report.stations) {
                if (each.control) continue;
                falls.add(each.trend.falls);
                rises.add(each.trend.rises);
                rebounds.add(each.has(Flag::rebound));
                gone.add(each.verdict == Verdict::gone);
            }
        }
        CHECK(falls.percent() < 5);
        CHECK(rises.percent() < 5);
        CHECK(rebounds.percent() < 5);
        CHECK(gone.percent() < 5);

        World halves = level;
        halves.treated_half = halves.control_half = 10;
        for (int i = 0; i < runs; ++i)
            for (const StationReport& each : report_on(halves, random).stations)
                if (!each.control) late.add(each.has(Flag::stalled));
        CHECK(late.percent() < 5);

        World works = level;
        works.treated_half = 5;
        works.controls = 3;
        Share found;
        for (int i = 0; i < runs; ++i)
            found.add(report_on(works, random).pests[0].efficacy.beyond_control);
        CHECK(found.percent() > (scatter < 6 ? 90 : 70));
    }
}

TEST_CASE("a claim stands on its conditions, whatever was counted", "[analysis]") {
    std::mt19937_64 random(25);
    std::map<Verdict, int> seen;
    for (int i = 0; i < 400; ++i) {
        World world{"any", 1 + i % 9, i % 4};
        world.scatter = 1 + i % 6;
        world.first = i % 7 == 0 ? 2 : 25;
        world.treated_half = i % 5 == 0 ? 0 : 3.0 + i % 11;
        world.slopes_differ = 0.04 * (i % 3);
        world.season = i % 2;
        world.drawn = i % 3 == 0 ? 3 : 1;
        world.days = {-1, 1, 2.5, 7, 14, 21};
        const Report report = report_on(world, random);
        for (const StationReport& each : report.stations) {
            const Trend& t = each.trend;
            ++seen[each.verdict];
            if (each.verdict == Verdict::falling)
                CHECK((t.falls && (t.drawn || t.last.seen < t.first.seen)));
            if (each.verdict == Verdict::rising) CHECK(t.rises);
            if (each.verdict == Verdict::rebound)
                CHECK((t.rebounds && t.first.seen > 0 && t.last.seen >= 2 * t.lowest));
            if (each.verdict == Verdict::stalled)
                CHECK((t.stays && !t.falls && !each.efficacy.held_down()));
            if (each.verdict == Verdict::gone) CHECK((t.gone && t.last.seen == 0));
            if (each.verdict == Verdict::none_now) CHECK((!t.gone && t.last.seen == 0));
            CHECK_FALSE((t.falls && t.rises));
            const Efficacy& effect = each.efficacy;
            if (effect.beyond_control)
                CHECK((effect.plain() && effect.chance && *effect.chance <= 0.05 &&
                       effect.places >= 3 && effect.controls >= 1));
            if (effect.interval) {
                CHECK(effect.interval->low <= *effect.percent);
                CHECK(effect.interval->high >= std::min(*effect.percent, 99.9999));
            }
            // No fall without what must not be concluded from it, or proof.
            const bool fell = each.verdict == Verdict::falling || each.verdict == Verdict::lower ||
                              each.verdict == Verdict::gone || each.verdict == Verdict::none_now;
            if (fell && each.caution == Caution::none)
                CHECK((effect.beyond_control || report.pests[0].efficacy.beyond_control ||
                       effect.formula == Formula::abbott));
            if (each.caution == Caution::one_control) CHECK(effect.controls == 1);
            if (each.caution == Caution::two_places) CHECK(!effect.beyond_control);
        }
    }
    for (const Verdict each : {Verdict::falling, Verdict::rising, Verdict::rebound,
                               Verdict::stalled, Verdict::gone, Verdict::none_now, Verdict::lower})
        CHECK(seen[each] > 0);
}
