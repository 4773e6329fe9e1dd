#pragma once

#include <optional>
#include <string>
#include <vector>

#include "papers/qr/symbol.hpp"

/// Will a phone read it? What is known of sizes and bodies, checked with the figures shown.
namespace gallipot::qr {

// Lengths here are in millimetres, angles in degrees.

/// The least module a phone held in the hand reads with ease (web guides on the least size of a
/// code; a rule of thumb that is in no standard; found).
inline constexpr double module_easy_mm = 0.4;
/// Below this no code is printed: four dots of a 300 dpi printer, 0.339 mm, is the least that the
/// table on qrcode.com ("Point for setting the module size", found) gives for it.
inline constexpr double module_least_mm = 0.33;
/// Printer dots a module needs at least (qrcode.com, same page, found).
inline constexpr int dots_per_module_minimum = 4;
/// How far round a body the edge of a code may lie, seen from its middle. Recalled from the GS1
/// General Specifications, written there for linear codes; borrowed as a recommendation (memory).
inline constexpr double edge_angle_preferred = 30;

enum class Verdict { good, doubtful, bad };

struct Check {
    std::string name;  ///< stable: "module-size", "printer-dots", "quiet-zone", "curvature"
    Verdict verdict = Verdict::good;
    double value = 0;
    double limit = 0;
    std::string unit;      ///< "mm", "dots", "modules", "degrees"
    std::string sentence;  ///< with the figures; for the terminal
};

/// Where and how a symbol is to be printed.
struct Print {
    double module_mm = 0;
    double quiet_modules = quiet_zone;         ///< the least of its four sides, in modules
    std::optional<double> dots_per_mm{};       ///< of the printer, when known
    std::optional<double> body_diameter_mm{};  ///< of the round wall it is wrapped on
};

/// Angle from the middle of a code to its edge on a cylinder: width / diameter in radians. The
/// outermost modules look shortened by its cosine.
double edge_angle(double width_mm, double diameter_mm);

/// Widest code for an edge angle: the inverse.
double width_at_edge_angle(double degrees, double diameter_mm);

/// The largest module up to `module_mm` that is a whole number of printer dots; as it is when
/// not even one dot fits.
double snap_to_dots(double module_mm, double dots_per_mm);

std::vector<Check> check(const Symbol& symbol, const Print& print);

}  // namespace gallipot::qr
