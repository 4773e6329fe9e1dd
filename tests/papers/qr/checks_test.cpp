#include "papers/qr/checks.hpp"

#include <cmath>

#include "catch_all.hpp"

using namespace gallipot::qr;

namespace {
const Check& named(const std::vector<Check>& checks, const std::string& name) {
    for (const auto& check : checks)
        if (check.name == name) return check;
    throw std::logic_error("no check " + name);
}
const Symbol& symbol() {
    static const auto made = encode("HTTP://192.168.1.20:8017/S/K1/7Q2MX4KD9A");
    return made;
}
}  // namespace

// Worked example of qrcode.com (Denso Wave), "Point for determining the code area": 50
// alphanumeric characters at M are version 3; at 400 dpi with 4 dots a module the module is
// 0.254 mm, the symbol 7.366 mm and 9.398 mm with its quiet zone.
TEST_CASE("the published worked example of the area of a code comes out") {
    const auto fifty = encode(std::string(50, 'A'), Level::medium);
    CHECK(fifty.modules == 29);
    const double dots_per_mm = 400 / 25.4;
    const double module = snap_to_dots(0.27, dots_per_mm);
    CHECK(module == Approx(0.254));
    CHECK(module * fifty.modules == Approx(7.366));
    CHECK(module * (fifty.modules + 2 * quiet_zone) == Approx(9.398));
}

// qrcode.com, "Point for setting the module size": thermal heads of 300 and 200 dpi with 4, 5 and
// 6 dots a module (rounded there to 0.01 mm; the table's 200 dpi head has 8 dots a millimetre,
// which is 203.2 dpi).
TEST_CASE("modules are snapped to whole dots as in the published printer table") {
    CHECK(snap_to_dots(0.36, 300 / 25.4) == Approx(0.34).margin(0.011));
    CHECK(snap_to_dots(0.45, 300 / 25.4) == Approx(0.42).margin(0.01));
    CHECK(snap_to_dots(0.52, 300 / 25.4) == Approx(0.50).margin(0.01));
    CHECK(snap_to_dots(0.55, 8) == Approx(0.5));
    CHECK(snap_to_dots(0.70, 8) == Approx(0.625));
    CHECK(snap_to_dots(0.75, 8) == Approx(0.75));
}

// Width against the diameter: geometry (w = d x angle), worked for 50 mm and 30 degrees.
TEST_CASE("width on a round body follows from the angle at its edge") {
    CHECK(width_at_edge_angle(30, 50) == Approx(26.18).margin(0.005));
    CHECK(width_at_edge_angle(20, 20) == Approx(6.98).margin(0.005));
    CHECK(edge_angle(width_at_edge_angle(30, 48), 48) == Approx(30));
}

TEST_CASE("each check says good, doubtful or bad with its figures") {
    const auto verdict = [](const Print& print, const char* name) {
        return named(check(symbol(), print), name).verdict;
    };
    CHECK(verdict({.module_mm = 0.4}, "module-size") == Verdict::good);
    CHECK(verdict({.module_mm = 0.35}, "module-size") == Verdict::doubtful);
    CHECK(verdict({.module_mm = 0.32}, "module-size") == Verdict::bad);
    CHECK(verdict({.module_mm = 0.5, .quiet_modules = 3.9}, "quiet-zone") == Verdict::bad);
    CHECK(verdict({.module_mm = 0.5, .quiet_modules = 4}, "quiet-zone") == Verdict::good);

    // 29 modules of 0.5 mm: 14.5 mm.
    CHECK(verdict({.module_mm = 0.5, .body_diameter_mm = 48}, "curvature") == Verdict::good);
    CHECK(verdict({.module_mm = 0.5, .body_diameter_mm = 24}, "curvature") == Verdict::doubtful);
    CHECK(verdict({.module_mm = 0.5, .body_diameter_mm = 9}, "curvature") == Verdict::bad);

    CHECK(verdict({.module_mm = 0.5, .dots_per_mm = 8}, "printer-dots") == Verdict::good);
    CHECK(verdict({.module_mm = 0.55, .dots_per_mm = 8}, "printer-dots") == Verdict::doubtful);
    CHECK(verdict({.module_mm = 0.25, .dots_per_mm = 8}, "printer-dots") == Verdict::bad);
}

TEST_CASE("a check on the curve tells the width that would do") {
    const auto checks = check(symbol(), {.module_mm = 1, .body_diameter_mm = 48});
    const Check curve = named(checks, "curvature");
    CHECK(curve.value == Approx(29.0 / 48 * 180 / 3.14159265358979));
    CHECK(curve.sentence ==
          "a code 29.0 mm wide on a body 48 mm across turns away by 35 degrees at its edges (they "
          "look 82 % as wide); up to 30 degrees, 25.1 mm, is recommended");
}
