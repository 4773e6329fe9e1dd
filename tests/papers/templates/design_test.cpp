#include "papers/templates/design.hpp"

#include "catch_all.hpp"

#include "papers/templates/found.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using templates::Part;

namespace {

const std::string good =
    "about: x\n"
    "band: { largest: 40 pt, height: 24 %, signal: 2.1 }\n"
    "code:\n"
    "  place: [left, left of all]\n"
    "  widest: 36 %\n"
    "  module: { largest: 0.9 mm, easy: 0.5 mm, least: 0.4 mm }\n"
    "pictograms: { largest: 22 mm, least: 10 mm }\n"
    "type: { largest: 11 pt, easy: 8 pt, least: 6 pt, lead: 1.22, leading: 1.2 }\n"
    "words:\n"
    "  - [keep away]\n"
    "  - [call, first aid]\n"
    "lead: [keep away]\n"
    "shorten: [first aid, first aid]\n";

std::string errors_of(const std::string& text) {
    diag::Diagnostics found;
    templates::read_design(file("design.yaml", text), "own", found);
    return listed(found);
}

/// The good design with one stretch of it written otherwise.
std::string but(const std::string& from, const std::string& to) {
    const auto at = good.find(from);
    REQUIRE(at != std::string::npos);
    return std::string(good).replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a design is read with all it says") {
    diag::Diagnostics found;
    const auto design = templates::read_design(file("design.yaml", good), "own", found);
    CHECK(listed(found) == "");
    CHECK(design.band_largest == 40);
    CHECK(design.band_height.fraction == Approx(0.24));
    CHECK(design.code_places.size() == 2);
    CHECK(units::in_mm(design.module_minimum) == Approx(0.4));
    CHECK(design.type_preferred == 8);
    REQUIRE(design.words.size() == 3);
    CHECK(design.words[1].part == Part::call);
    CHECK(design.words[1].group == 1);
    CHECK(design.words[2].group == 1);
    CHECK(design.leading_words == std::vector{Part::keep_away});
    CHECK(design.shorten.size() == 2);
}

TEST_CASE("an error of a design points into the design") {
    CHECK(errors_of(but("36 %", "95 %")) == "5:11 out-of-range 95 % is not between 5 % and 90 %\n");
    // 40 CFR 156.10(a)(2)(ii): no required text below 6 points.
    CHECK(errors_of(but("least: 6 pt", "least: 5 pt")) ==
          "8:44 out-of-range 5 pt is not between 6 pt and 100 pt\n");
    CHECK(errors_of(but("8 pt", "8 mm")).find("8:31 bad-type-size") == 0);
    CHECK(errors_of(but("[call, first aid]", "[call, aid]")).find("11:12 unknown-word") == 0);
    CHECK(errors_of(but("[call, first aid]", "[call, call]")).find("11:12 given-twice") == 0);
    CHECK(errors_of(but("[call, first aid]", "[call, signal word]")) ==
          "11:12 not-a-word 'signal word' stands in the band, not among the words\n");
    CHECK(errors_of(but("band: {", "bnad: {")).find("2:1 unknown-key") != std::string::npos);
    CHECK(errors_of(but("lead: [keep away]", "lead: [dates]")).find("12:8 ") == 0);
    CHECK(errors_of(but("0.5 mm, least: 0.4", "0.3 mm, least: 0.4")).find("6:36 out-of-range") ==
          0);
}

TEST_CASE("what a shape has no use for is refused") {
    CHECK(errors_of(but("about: x", "about: x\nshape: circle")).find("not-for-this-shape") !=
          std::string::npos);
    const auto strip = but("about: x", "about: x\nshape: strip\npanels: { count: 2, width: 40 % }");
    CHECK(errors_of(strip) ==
          "6:10 not-for-this-shape a strip's band goes all the way round, so no code stands left "
          "of it\n");
    CHECK(errors_of(but("about: x", "about: x\npanels: { count: 2, width: 40 % }")) ==
          "2:9 not-for-this-shape only a strip has panels\n");
}
