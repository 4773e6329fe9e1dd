#pragma once

#include <string>
#include <vector>

#include "papers/layout/blocks.hpp"

namespace gallipot::layout {

/// Words with a box to tick before each, as many on a line as fit.
class Choices {
  public:
    Choices(const std::vector<text::StyledText>& words, const LayoutContext& context,
            const std::string& name);

    [[nodiscard]] bool empty() const { return words_.empty(); }
    [[nodiscard]] double widest() const;    ///< mm: the narrowest measure possible
    [[nodiscard]] double unbroken() const;  ///< mm: all on one line
    /// mm: the narrowest measure in which they take so many lines, at least 1.
    [[nodiscard]] double width_in(int lines) const;
    /// Adds them, the top of their first line at `top_left`; returns how high they are.
    double add_to(LineBox& line_box, Point top_left, double measure) const;

  private:
    [[nodiscard]] double width(std::size_t i) const;
    [[nodiscard]] int lines_in(double measure) const;

    const LayoutContext& context_;
    const std::string& name_;
    std::vector<const MeasuredText*> words_;
};

}  // namespace gallipot::layout
