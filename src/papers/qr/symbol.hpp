#pragma once

#include <string>
#include <string_view>
#include <vector>

/// QR symbols as their modules. The only folder that knows the library that computes them.
namespace gallipot::qr {

/// How much damage a symbol mends: about 7, 15, 25 and 30 percent of its codewords.
enum class Level { low, medium, quartile, high };
char letter(Level level);  ///< 'L', 'M', 'Q' or 'H'

/// Light modules that must stay clear on every side of a symbol (ISO/IEC 18004; qrcode.com).
inline constexpr int quiet_zone = 4;

/// Modules on a side at `version` (1 to 40).
constexpr int modules_at(int version) {
    return 17 + 4 * version;
}

struct Symbol {
    std::string content;          ///< what it was made from, and what a reader returns
    int version = 0;              ///< 1 to 40
    Level level = Level::medium;  ///< really used: at least what was asked for
    int mask = 0;                 ///< 0 to 7
    bool alphanumeric = false;  ///< the dense mode for capitals and digits (or denser: digits only)
    int modules = 0;            ///< per side, without the quiet zone
    std::vector<bool> dark;     ///< modules x modules, row by row
};

/// Thrown when no version holds the text.
struct TooLong {
    std::string message;
};

/// How a text is written into a symbol. Texts of one mode and length in bytes make symbols of the
/// same version and level.
enum class Mode { digits, alphanumeric, ascii, utf8 };
Mode mode(std::string_view text);

/// The smallest symbol that holds `text` (UTF-8, at least one character) with at least the level
/// asked for. Digits, capitals, space and $%*+-./: alone use the denser modes; anything else
/// goes in as bytes, marked as UTF-8 when it is not plain ASCII. The level is raised where that
/// needs no larger version. Throws TooLong.
Symbol encode(std::string_view text, Level minimum = Level::medium);

}  // namespace gallipot::qr
