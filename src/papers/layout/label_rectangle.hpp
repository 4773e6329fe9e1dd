#pragma once

#include <array>
#include <optional>

#include "papers/layout/label_arrangement.hpp"
#include "papers/layout/label_draw.hpp"

namespace gallipot::layout {

/// A band across the top, a code at the left or below, words beside or above it. Also lays out one
/// panel of a strip, whose band is drawn by the strip.
class RectangleArrangement : public Arrangement {
  public:
    /// `inner` is where ink may be, `label` how far white paper is sure to reach around it.
    RectangleArrangement(const Canvas& canvas, const Contents& contents, Box label, Box inner);

    [[nodiscard]] Shortfall shortfall(const Sizing& sizing) const override;
    [[nodiscard]] Drawn draw(const Sizing& sizing) const override;

    /// Without the band's black ground; `band` becomes where that would be.
    [[nodiscard]] Drawn draw_panel(const Sizing& sizing, Box& band) const;

  private:
    /// Everything placed for a trial.
    struct Plan {
        templates::CodePlace place = templates::CodePlace::left;
        BandPlan band;
        Point band_at;
        std::optional<Box> code;
        std::vector<Point> pictograms;
        const SetWording* caption = nullptr;
        double caption_size = 0;     ///< points
        double caption_leading = 0;  ///< mm
        Box caption_room;
        Column column;
        Box words;
        Notches notches;  ///< of the words' room: for the code, and for pictograms at the right
        Shortfall shortfall;
    };
    /// `beside`: how many pictograms stand at the right of the words, not below the code.
    [[nodiscard]] Plan plan(const Sizing& sizing, templates::CodePlace place, int beside) const;
    [[nodiscard]] Plan plan(const Sizing& sizing) const;
    [[nodiscard]] BandPlan band(const Sizing& sizing, double width) const;
    [[nodiscard]] double caption_depth(Plan& plan, double room) const;
    void side_code(Plan& plan, const Sizing& sizing, int beside) const;
    void code_below(Plan& plan, const Sizing& sizing) const;
    [[nodiscard]] double gap() const;

    Box label_;
    Box inner_;
};

}  // namespace gallipot::layout
