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
        double size = 0;      ///< points
        double leading = 0;   ///< mm
        Measure measure{0};   ///< mm, about the circle's middle
        double baseline = 0;  ///< of the first
    };
    struct Plan {
        std::vector<BandText> band;
        double band_bottom = 0;
        std::optional<Box> code;
        std::optional<BandText> id;
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
    [[nodiscard]] Plan plan(const Sizing& sizing, double spread) const;

    Point centre_;
    double radius_ = 0;        ///< mm, that ink may reach
    double paper_radius_ = 0;  ///< mm, of the label
};

}  // namespace gallipot::layout
