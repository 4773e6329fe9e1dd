#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "papers/layout/page.hpp"

/// Finding room for names on a drawing, so that none lies over another, over a mark or over the
/// line that leads to another. Geometry alone: no fonts, no texts.
namespace gallipot::layout {

struct NamePlace {
    Box box;
    bool led = false;  ///< a line leads from the mark to the name
    Point from, to;    ///< of that line
};

/// A drawing's free room, kept as a raster of cells so that the work depends on the drawing's size
/// and not on how much stands on it. A name asked for earlier has the choice.
class NamePlaces {
  public:
    explicit NamePlaces(const Box& frame);

    /// A wall: names rather stand beside it, but may stand on it where room is short.
    void wall(Point from, Point to);
    /// A mark, which nothing may hide.
    void mark(const Box& box);

    /// Room for a name of a size near a mark so many millimetres across: beside it, else further
    /// away with a line. None where there is no room at all.
    std::optional<NamePlace> near(Point at, double across, Size name);
    /// Room for a name inside an outline, as near its middle as may be. None where it does not fit.
    std::optional<NamePlace> within(const std::vector<Point>& outline, Size name);

  private:
    enum Holds : std::uint8_t { text = 1, marks = 2, line = 4, walls = 8 };

    [[nodiscard]] std::size_t index(int row, int column) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
               static_cast<std::size_t>(column);
    }
    [[nodiscard]] bool free(const Box& box, unsigned of) const;
    [[nodiscard]] bool free(Point from, Point to, unsigned of) const;
    void fill(const Box& box, Holds with);
    void draw(Point from, Point to, Holds with);
    NamePlace take(const NamePlace& place);
    [[nodiscard]] std::optional<NamePlace> beside(Point at, double across, Size name,
                                                  unsigned avoid) const;
    [[nodiscard]] std::optional<NamePlace> further(Point at, double across, Size name,
                                                   double nearest, double furthest, unsigned avoid,
                                                   unsigned line_avoids) const;

    Box frame_;
    int columns_, rows_;
    std::vector<std::uint8_t> cells_;
};

/// Whether a point lies inside an outline; on its edge counts as inside or not.
bool inside(const std::vector<Point>& outline, Point point);

}  // namespace gallipot::layout
