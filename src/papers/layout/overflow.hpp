#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "base/diag/text.hpp"

namespace gallipot::layout {

/// Something that does not fit its place on paper. It is never cut, shrunk below what is permitted
/// or laid over something else; whoever reads this changes the text, the size or the paper.
struct Overflow {
    diag::Text what;                  ///< the piece of paper: "Sweet liquid bait: table 1, row 3"
    diag::Text problem;               ///< one sentence with figures, no full stop
    diag::Text remedy;                ///< what would fit, an imperative
    double needed = 0;                ///< mm
    double available = 0;             ///< mm
    std::vector<char32_t> letters{};  ///< that no face has, where that is the matter
    std::string word{};               ///< that is too wide, where that is the matter
    std::string package{};            ///< that would bring a font for the letters
};

/// Everything that did not fit, in reading order.
class LayoutError : public std::runtime_error {
  public:
    explicit LayoutError(std::vector<Overflow> overflows);

    [[nodiscard]] const std::vector<Overflow>& overflows() const { return overflows_; }

  private:
    std::vector<Overflow> overflows_;
};

}  // namespace gallipot::layout
