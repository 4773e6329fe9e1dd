#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/yaml/node.hpp"

/// The text of a file before any YAML is read from it.
namespace gallipot::yaml {

/// Turns byte offsets into lines and columns of characters, in constant time a question, so that a
/// huge line costs no more than many short ones.
class Positions {
  public:
    explicit Positions(std::string_view text);
    /// The place of byte `offset`; `length` in characters.
    [[nodiscard]] diag::Place place(const diag::SourcePtr& source, std::size_t offset,
                                    int length = 1) const;

  private:
    [[nodiscard]] std::size_t characters_before(std::size_t offset) const;

    std::string_view text_;
    std::vector<std::size_t> line_starts_;
    std::vector<std::uint32_t> characters_;  // before each block of text
};

/// Whether the text may be given to a YAML parser at all. Checked: size, UTF-8, NUL and other
/// control characters, characters that change direction, tabs as indentation, line length, brackets
/// opened and never closed, directives. All that is wrong goes to `out`.
bool check_raw_text(std::string_view text, const diag::SourcePtr& source,
                    const Positions& positions, const Limits& limits, diag::Diagnostics& out);

/// The offset of the quote that closes the one at `offset`, or npos.
std::size_t closing_quote(std::string_view text, std::size_t offset);

/// The offset of the first quote at or after `from` that opens a text and is never closed, or npos.
std::size_t unclosed_quote(std::string_view text, std::size_t from);

}  // namespace gallipot::yaml
