#pragma once

#include <optional>

#include "papers/layout/label_arrangement.hpp"
#include "papers/layout/label_draw.hpp"

namespace gallipot::layout {

/// A round label for a lid: the band is cut from the top of the circle, below it a row of code,
/// number and pictograms, below that words in lines that keep inside the circle.
class CircleArrangement : public Arrangement {
  public:
    CircleArrangement(const Canvas& canvas, const Contents& contents);

    [[nodiscard]] Shortfall shortfall(const Sizing& sizing) const override;
    [[nodiscard]] Drawn draw(const Sizing& sizing) const override;

  private:
    struct Line {
        const WordBlock* words = nullptr;
        double size = 0;          ///< points
        double leading = 0;       ///< mm
        Measure measure{0};       ///< mm, about the circle's middle
        double baseline = 0;      ///< of the first
        double measure_left = 0;  ///< mm, of the caption
        Box frame;                ///< round it; no width: none
        double number = 0;        ///< points, of the number to call above it; 0: none
        double number_baseline = 0;
    };
    struct Plan {
        std::vector<BandText> band;
        double band_bottom = 0;
        std::optional<Box> code;
        std::optional<BandText> id;
        std::optional<Line> caption;  ///< under the id, next to the code
        std::vector<Point> pictograms;
        double row_bottom = 0;
        std::vector<Line> words;
        Shortfall shortfall;
    };
    [[nodiscard]] double half_chord(double y) const;
    [[nodiscard]] double signal_size(const Sizing& sizing) const;
    void band(Plan& plan, double signal) const;
    void row(Plan& plan, const Sizing& sizing, double gap) const;
    void words(Plan& plan, const Sizing& sizing, double gap) const;
    /// The width between the circle's sides from one height to another.
    [[nodiscard]] double chord(double top, double bottom) const;
    /// Fit a block below `top`; what found no room is added to `below`. Return where the next
    /// may begin.
    double running(Line& line, double top, double& below) const;
    double place(Line& line, double top, double& below) const;
    double framed(Line& line, const Sizing& sizing, double top, double& below) const;
    [[nodiscard]] Plan plan(const Sizing& sizing, double spread) const;

    Point centre_;
    double radius_ = 0;        ///< mm, that ink may reach
    double paper_radius_ = 0;  ///< mm, of the label
};

}  // namespace gallipot::layout
