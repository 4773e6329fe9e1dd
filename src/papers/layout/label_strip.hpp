#pragma once

#include "papers/layout/label_arrangement.hpp"
#include "papers/layout/label_rectangle.hpp"

namespace gallipot::layout {

/// A strip round a cup: the label repeated, so that one faces whoever comes near, under one band.
class StripArrangement : public Arrangement {
  public:
    /// `circumference` in mm; 0 when the body is not known: then the label stands on it once.
    StripArrangement(const Canvas& canvas, const Contents& contents, double circumference);

    [[nodiscard]] Shortfall shortfall(const Sizing& sizing) const override;
    [[nodiscard]] Drawn draw(const Sizing& sizing) const override;

  private:
    double circumference_;
    int panels_;
    double cell_;  ///< mm from panel to panel
    RectangleArrangement panel_;
};

}  // namespace gallipot::layout
