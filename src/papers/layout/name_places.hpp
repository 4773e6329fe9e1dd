#pragma once

#include <optional>
#include <vector>

#include "papers/layout/page.hpp"

/// Finding room for names on a drawing, so that none lies over another, over a mark or over the
/// line that leads to another. Geometry alone: no fonts, no texts.
namespace gallipot::layout {

struct Segment {
    Point from, to;
};

struct NamePlace {
    Box box;
    std::optional<Segment> leader;  ///< a line leads from the mark to the name
};

/// What a drawing's names must keep clear of. Each name takes the first free one of a short list of
/// places, so that a name asked for earlier has the choice.
class NamePlaces {
  public:
    explicit NamePlaces(const Box& frame) : frame_(frame) {}

    /// A wall: names rather stand beside it, but may stand on it where room is short.
    void wall(Segment wall) { walls_.push_back(wall); }
    /// A mark, which nothing may hide.
    void mark(const Box& box) { taken_.push_back(box); }

    /// Room for a name of a size near a mark so many millimetres across: beside it, else further
    /// away with a line. None where all those places are taken.
    std::optional<NamePlace> near(Point at, double across, Size name);
    /// A name and the mark it is of.
    struct Named {
        Point at;
        double across = 0;  ///< of the mark
        Size name;
    };
    /// The same for several, in the order asked for. Which of them has the choice first matters, so
    /// that some orders are tried and the best is kept: the most names, then the fewest on a wall,
    /// then the shortest lines.
    std::vector<std::optional<NamePlace>> near(const std::vector<Named>& all);
    /// Room for a name inside an outline, as near its middle as may be. None where it does not fit.
    std::optional<NamePlace> within(const std::vector<Point>& outline, Size name);

  private:
    enum class Walls { clear, under };
    [[nodiscard]] bool free(const Box& box, Walls walls) const;
    [[nodiscard]] bool free(const Segment& leader, Point mark) const;
    [[nodiscard]] std::optional<NamePlace> at_distance(Point at, double across, double distance,
                                                       Size name, Walls walls) const;
    NamePlace take(const NamePlace& place);
    /// What one is worse than another by; 0 is beside its mark and clear of everything.
    [[nodiscard]] double badness(const std::optional<NamePlace>& place) const;

    Box frame_;
    std::vector<Box> taken_;  ///< marks, and names that have a place
    std::vector<Segment> walls_, leaders_;
};

/// Whether a point lies inside an outline; on its edge counts as inside or not.
bool inside(const std::vector<Point>& outline, Point point);

}  // namespace gallipot::layout
