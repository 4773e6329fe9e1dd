#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "base/diag/paint.hpp"
#include "cli/command.hpp"

/// What a stream may be given: colours only where somebody looks at it, lines as wide as there is
/// room. Without a terminal everything is plain and as long as it is.
namespace gallipot::cli {

struct Terminal {
    bool colours = false;
    std::size_t width = 0;  ///< columns; 0: as many as one likes
};

/// Colours need a terminal that is not dumb and no NO_COLOR (any value but the empty one, see
/// https://no-color.org). COLUMNS goes before the width that the terminal states.
Terminal terminal_of_results(const Environment& environment);
Terminal terminal_of_errors(const Environment& environment);

enum class Paint { error, warning, heading };
/// The text in that paint, or as it is.
std::string painted(const Terminal& terminal, Paint paint, std::string_view text);

/// Columns that a terminal uses for it.
std::size_t display_width(std::string_view text);

/// Lines of at most `width` columns, broken where the language may break them; a word that is wider
/// stands whole on a line of its own. No width: one line.
std::vector<std::string> wrapped(std::string_view text, std::size_t width,
                                 const std::string& language);

/// The text wrapped line by line; what is carried over is indented as its line is, and `deeper`.
std::string paragraphs(std::string_view text, const Terminal& terminal, const std::string& language,
                       std::size_t deeper = 0);

/// What goes around "error:" and "warning:" on standard error.
diag::Paint paint_of_errors(const Environment& environment);

/// Standard error after "gallipot: ", which is painted.
std::ostream& complain(Environment& environment);
/// Standard error after "gallipot: warning: ".
std::ostream& warn(Environment& environment);

}  // namespace gallipot::cli
