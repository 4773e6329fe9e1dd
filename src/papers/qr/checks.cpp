#include "papers/qr/checks.hpp"

#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace gallipot::qr {

namespace {

constexpr double degrees_per_radian = 180 / std::numbers::pi;
/// So that a value computed to be on a limit is not refused for its last bit.
constexpr double hair = 1e-9;

Verdict at_least(double value, double preferred, double minimum) {
    if (value + hair >= preferred) return Verdict::good;
    return value + hair >= minimum ? Verdict::doubtful : Verdict::bad;
}

Check module_size(const Symbol& symbol, const Print& print) {
    return {"module-size",
            at_least(print.module_mm, module_easy_mm, module_least_mm),
            print.module_mm,
            module_easy_mm,
            "mm",
            fmt::format("modules of {:.2f} mm ({} on a side); {:.2f} mm and more scan with ease, "
                        "{:.2f} mm is the least",
                        print.module_mm, symbol.modules, module_easy_mm, module_least_mm)};
}

Check quiet(const Print& print) {
    return {"quiet-zone",
            print.quiet_modules + hair >= quiet_zone ? Verdict::good : Verdict::bad,
            print.quiet_modules,
            quiet_zone,
            "modules",
            fmt::format("{:.1f} clear modules around the code; {} are needed", print.quiet_modules,
                        quiet_zone)};
}

Check printer_dots(const Print& print) {
    const double dots = print.module_mm * *print.dots_per_mm;
    const bool whole = std::abs(dots - std::round(dots)) < 1e-6;
    auto verdict = at_least(dots, dots_per_module_minimum, dots_per_module_minimum - 1);
    if (!whole && verdict == Verdict::good && dots < 10) verdict = Verdict::doubtful;
    return {"printer-dots",
            verdict,
            dots,
            dots_per_module_minimum,
            "dots",
            fmt::format("{:.1f} printer dots a module; a whole number of at least {} prints "
                        "evenly",
                        dots, dots_per_module_minimum)};
}

Check curvature(const Symbol& symbol, const Print& print) {
    const double width = symbol.modules * print.module_mm;
    const double angle = edge_angle(width, *print.body_diameter_mm);
    // Past a right angle the edge is out of sight from the front.
    return {"curvature",
            angle <= edge_angle_preferred + hair ? Verdict::good
            : angle < 90                         ? Verdict::doubtful
                                                 : Verdict::bad,
            angle,
            edge_angle_preferred,
            "degrees",
            fmt::format("a code {:.1f} mm wide on a body {:.0f} mm across turns away by {:.0f} "
                        "degrees at its edges (they look {:.0f} % as wide); up to {:.0f} degrees, "
                        "{:.1f} mm, is recommended",
                        width, *print.body_diameter_mm, angle,
                        100 * std::cos(angle / degrees_per_radian), edge_angle_preferred,
                        width_at_edge_angle(edge_angle_preferred, *print.body_diameter_mm))};
}

}  // namespace

double edge_angle(double width_mm, double diameter_mm) {
    return width_mm / diameter_mm * degrees_per_radian;
}

double width_at_edge_angle(double degrees, double diameter_mm) {
    return diameter_mm * degrees / degrees_per_radian;
}

double snap_to_dots(double module_mm, double dots_per_mm) {
    const double dots = std::floor(module_mm * dots_per_mm + 1e-6);
    return dots >= 1 ? dots / dots_per_mm : module_mm;
}

std::vector<Check> check(const Symbol& symbol, const Print& print) {
    std::vector<Check> checks{module_size(symbol, print), quiet(print)};
    if (print.dots_per_mm) checks.push_back(printer_dots(print));
    if (print.body_diameter_mm) checks.push_back(curvature(symbol, print));
    return checks;
}

}  // namespace gallipot::qr
