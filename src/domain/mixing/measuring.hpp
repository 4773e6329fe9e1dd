#pragma once

#include <optional>
#include <span>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/mixing/component.hpp"

/// How to measure an amount with what is there.
namespace gallipot::mixing {

/// One kind of action: a level scoop, a jug or syringe filled to a mark, a weighing.
struct Step {
    std::size_t measure = 0;  ///< index into the job's measures
    int times = 1;
    units::Volume volume;  ///< of one action
    units::Mass weight;    ///< of one weighing; scales only
};

struct Measuring {
    std::vector<Step> steps =
        {};            ///< empty: nothing listed can measure it, or nothing below the limit
    double ratio = 1;  ///< measured over asked
    int actions = 0;
    bool within_tolerance = true;
    bool weighed = false;
};

/// An amount to measure. A powder is scooped or weighed, a paste scooped or weighed, a liquid also
/// measured in a jug or syringe.
struct Wanted {
    units::Mass mass;
    units::Density density;  ///< as scooped or poured, usual
    reference::State state = reference::State::powder;
    double tolerance = 0.05;
    std::optional<units::Mass> at_most;  ///< never above this
    bool round_up = false;               ///< not below what is asked, where something fits
};

/// The tools of a job, sorted once. Tools of equal content count as one, the first listed.
class Tools {
  public:
    explicit Tools(std::span<const job::Measure> measures);

    /// The fewest actions that land within tolerance, ties broken by error; where nothing does, the
    /// nearest, ties broken by actions. An action is one level scoop, one filling of a jug or
    /// syringe to one of its marks, or one weighing to a multiple of the scale's resolution.
    /// Scoops, jugs and syringes combine; a scale does it all alone, in as few weighings as its
    /// capacity allows once a tenth of it is left for the bowl (our rule).
    ///
    /// Exact: a depth-first search over how often each tool is used, largest first, cut off where
    /// even the largest tool left cannot reach the goal in as few actions as the best found. It
    /// gives up improving after a million steps, which only a tolerance near zero or dozens of
    /// unlike tools need; what is found is still within tolerance when that is said.
    [[nodiscard]] Measuring measure(const Wanted& wanted) const;

    /// How far what was measured that way may be off to either side by how fine the tools read:
    /// half a step of the scale for each weighing. A jug or syringe is read as coarsely, by eye, so
    /// half a mark for each filling. A level scoop has no steps.
    [[nodiscard]] units::Mass reading_error(const Measuring& way, units::Density density) const;

    [[nodiscard]] bool empty() const { return tools_.empty() && scales_.empty(); }

    /// A tool that is filled level: a scoop, or a jug or syringe up to its last mark.
    struct Level {
        double volume = 0;  ///< m3
        std::size_t measure = 0;
    };
    /// A jug or syringe filled to a lower mark.
    struct Marked {
        double mark = 0;  ///< m3
        int maximum = 0;  ///< marks below the last one
        std::size_t measure = 0;
    };
    struct Scale {
        double resolution = 0, capacity = 0;  ///< kg
        std::size_t measure = 0;
    };

  private:
    std::vector<Level> tools_;    ///< largest first
    std::vector<Level> scoops_;   ///< those of them that take powders and pastes
    std::vector<Marked> marked_;  ///< widest marks first
    std::vector<Scale> scales_;
    std::vector<job::Measure> measures_;  ///< as listed
};

}  // namespace gallipot::mixing
