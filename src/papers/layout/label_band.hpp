#pragma once

#include <vector>

#include "papers/layout/label_words.hpp"
#include "papers/layout/page.hpp"

/// The black band across a label: signal word, NOT FOOD, and the container's number. It must be
/// read first and from furthest away.
namespace gallipot::layout {

/// How the lines of a wording stand over one another in the band.
Block stacked(const SetWording& wording);

/// A line of the band: where its text stands, relative to the band's top left.
struct BandText {
    std::shared_ptr<const MeasuredText> words;
    document::Part part = document::Part::id;
    double size = 0;  ///< points
    Box room;         ///< the text is set in this width; its baseline is the lower edge
    Alignment alignment = Alignment::left;
};

struct BandPlan {
    double height = 0;    ///< mm
    double too_wide = 0;  ///< mm lacking in width; 0: it fits
    std::vector<BandText> texts;
};

/// The band in a width of so many millimetres. `signal_points` is the size wished for the signal
/// word; what is too wide for it is set smaller, down to the least sizes. The two-line forms are
/// taken where one line would get too small.
BandPlan plan_band(const LabelWords& label, double width, double signal_points,
                   double height_at_most);

}  // namespace gallipot::layout
