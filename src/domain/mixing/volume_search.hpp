#pragma once

#include <span>
#include <vector>

#include "domain/mixing/measuring.hpp"

namespace gallipot::mixing {

/// A choice of how often to use each tool.
struct Counts {
    std::vector<int> levels;  ///< by index of the level tools
    std::vector<int> marks;   ///< by index of the marked tools: which mark, 0 for not used
    double volume = 0;        ///< m3
    int actions = 0;
};

/// What is wanted of the sum: near `goal`, within [low, high]. All m3.
struct Window {
    double goal = 0, low = 0, high = 0;
};

/// Depth-first search with bounds over sums of tools; see Tools::measure for what is best.
class VolumeSearch {
  public:
    VolumeSearch(std::span<const Tools::Level> levels, std::span<const Tools::Marked> marked);

    /// The fewest actions that land in the window, then the nearest to the goal. None: no sum does.
    std::optional<Counts> fewest(const Window& window);

    /// The nearest to the goal at or below `most`, then the fewest actions. None: not even the
    /// smallest tool stays below.
    std::optional<Counts> nearest(double goal, double maximum);

  private:
    void begin(const Window& window);
    void descend(std::size_t tool);
    void close_with_marks(std::size_t tool);
    void offer();
    [[nodiscard]] bool hopeless(std::size_t next_tool) const;
    [[nodiscard]] double largest_from(std::size_t tool) const;
    [[nodiscard]] bool spent() { return --steps_left_ < 0; }

    std::span<const Tools::Level> levels_;
    std::span<const Tools::Marked> marked_;
    std::vector<double> marks_reach_;  ///< of the marked tools from each on, all to their top marks
    double largest_mark_ = 0;
    Window window_;
    bool fewest_first_ = true;
    Counts now_;
    std::optional<Counts> best_;
    long steps_left_ = 0;
};

}  // namespace gallipot::mixing
