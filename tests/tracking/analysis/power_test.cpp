#include "tracking/analysis/power.hpp"

#include <random>

#include "catch_all.hpp"

#include "tracking/analysis/quantile.hpp"
#include "world.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

TEST_CASE("the power of a t test is R's", "[analysis]") {
    // R: 1 - pt(qt(0.975, 6), 6, ncp = 2.5), and with ncp = 4 on 3 degrees
    CHECK(t_power(2.5, 6, 0.95) == Approx(0.553752577848).epsilon(1e-8));
    CHECK(t_power(4, 3, 0.95) == Approx(0.754983839725).epsilon(1e-8));
}

TEST_CASE("what a plan of counts can show is what simulated jobs show", "[analysis]") {
    std::mt19937_64 random(26);
    constexpr int runs = 300;
    for (const auto& [treated, controls] :
         {std::pair{4, 2}, std::pair{5, 3}, std::pair{8, 4}, std::pair{12, 2}})
        for (const double share : {0.5, 0.2}) {
            World world{"planned", treated, controls};
            world.first = 20;
            world.scatter = 3;
            world.slopes_differ = 0.02;
            world.days = {0, 4, 8, 14, 21};
            world.treated_half = 21 * std::log(0.5) / std::log(share);
            int found = 0;
            for (int i = 0; i < runs; ++i)
                found += report_on(world, random).pests[0].efficacy.beyond_control ? 1 : 0;
            Design design;
            design.treated = static_cast<std::size_t>(treated);
            design.controls = static_cast<std::size_t>(controls);
            design.days = world.days;
            INFO(treated << '+' << controls << " to " << share << ": " << 1.0 * found / runs);
            CHECK(power(design, share) == Approx(1.0 * found / runs).margin(0.15));
        }
}

TEST_CASE("what can never be told has no power", "[analysis]") {
    Design design{"ants", 5, 0, {0, 7, 14, 21}};
    CHECK(power(design, 0.2) == 0);
    CHECK(controls_wanted(design, 0.2));
    design.treated = design.controls = 1;
    CHECK(power(design, 0.2) == 0);
    design.days = {0};
    design.controls = 3;
    CHECK(power(design, 0.2) == 0);
    CHECK_FALSE(controls_wanted(design, 0.5));
    // More controls, more counts, more power.
    const Design few{"ants", 5, 2, {0, 7, 21}}, more{"ants", 5, 3, {0, 7, 21}},
        often{"ants", 5, 2, {0, 4, 7, 14, 21}};
    CHECK(power(more, 0.5) > power(few, 0.5));
    CHECK(power(often, 0.5) > power(few, 0.5));
}
