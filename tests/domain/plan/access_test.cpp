#include <fmt/format.h>

#include "planned.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using Catch::Matchers::ContainsSubstring;

namespace {

/// Half borax by volume: a cup of 20 mL holds some 5.5 g as boric acid.
std::string with(const std::string& openings, const std::string& more,
                 const std::string& fill = "20 mL") {
    return head +
           "mixes:\n  dry: { title: Dry, against: cockroaches, form: dry, basis: parts by "
           "volume,\n    ingredients: { borax: 1, icing sugar: 1 }, batch: 200 mL, lasts: 90 d }\n"
           "containers: { saucer: { holds: 30 mL, fill: " +
           fill + ", openings: " + openings +
           " } }\n"
           "stations:\n  - { id: K1, place: Kitchen, mix: dry, container: saucer" +
           more + " }\n";
}

const std::string holes = "6 side holes of 6 mm";

std::string errors(const std::string& text) {
    const Planned it = plan_of(text);
    std::string all;
    for (const auto& found : it.out.in_order()) {
        if (found.severity != diag::Severity::error) continue;
        all += (all.empty() ? "" : " ") + found.code + ":" + std::to_string(found.place.line);
    }
    return all;
}

}  // namespace

TEST_CASE("near children or pets a container over 100 mg/kg must be shut in") {
    CHECK(errors(with(holes, ", near: [children]")) == "dose-in-reach:10");
    CHECK(errors(with(holes, ", near: [food, pets]")) == "dose-in-reach:10");
    CHECK(errors(with(holes, ", near: [food]")).empty());
    CHECK(errors(with(holes, "")).empty());
    CHECK(errors(with(holes, ", near: [children], locked: true")).empty());
    CHECK(errors(with(holes, ", near: [children], locked: false")) == "dose-in-reach:10");

    const Planned it = plan_of(with(holes, ", near: [children]"));
    CHECK_THAT(it.message("dose-in-reach"),
               ContainsSubstring("'K1'") && ContainsSubstring("more than 100"));
    // The limit itself may stand: 100 mg/kg are 1 g.
    const double whole = units::in_g(it.station("K1").per_container->boric_acid_equivalent);
    const auto fill = [&](double grams) { return fmt::format("{:.9f} mL", 20 * grams / whole); };
    CHECK(errors(with(holes, ", near: [children]", fill(0.999))).empty());
    CHECK(errors(with(holes, ", near: [children]", fill(1.001))) == "dose-in-reach:10");
}

TEST_CASE("near children or pets nothing stands open at the top") {
    const std::string little = "1 mL";
    CHECK(errors(with("open top", ", near: [children]", little)) == "open-in-reach:10");
    CHECK(errors(with("open top", ", near: [pets]", little)) == "open-in-reach:10");
    CHECK(errors(with("open top", ", near: [pets], locked: true", little)).empty());
    CHECK(errors(with("open top", ", near: [heat]", little)).empty());
    CHECK(errors(with("closed", ", near: [pets]", little)).empty());
    CHECK(errors(with("4 holes in the lid of 5 mm", ", near: [pets]", little)).empty());
    // Both at once are told at once.
    CHECK(errors(with("open top", ", near: [children]")) == "open-in-reach:10 dose-in-reach:10");
}
