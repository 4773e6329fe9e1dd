#pragma once

#include "papers/layout/label_arrangement.hpp"

/// What all arrangements draw alike.
namespace gallipot::layout {

/// The wordings that a trial's step leaves of the words, top to bottom.
struct Column {
    struct Block {
        const WordBlock* words = nullptr;
        double size = 0;     ///< points
        double before = 0;   ///< mm of space above it; none above the first
        double above = 0;    ///< mm besides: of a frame's edge and a number on a row of its own
        double below = 0;    ///< mm of a frame's edge below it
        double leading = 0;  ///< mm
        double left = 0;     ///< mm, of the words
        Measure measure{0};  ///< mm: narrower beside a notch
        int lines = 0;       ///< in that measure
        double pad = 0;      ///< mm, between the frame and what is in it
        double number = 0;   ///< points, of the number to call; 0: none
        bool number_beside = false;  ///< at the right of the first lines, else above them
        double frame_left = 0, frame_width = 0;  ///< mm
    };
    std::vector<Block> blocks;
    const SetPart* number = nullptr;
    double too_wide = 0;  ///< mm by which a word is wider than the measure
    double height = 0;    ///< mm, from the first line's capitals to the last line's descenders
    double cap = 0;       ///< mm, of the first line's capitals
    double descent = 0;   ///< mm, of the last line
};

/// What the upper corners of the words' room leave to something else, in mm.
struct Notches {
    Size left, right;
};

/// The running words of a trial in a measure of so many mm. Lines are counted, not yet set.
Column column(const Canvas& canvas, const LabelWords& words, const Sizing& sizing, double measure,
              const Notches& notches = {});

/// The form of the label that a trial asks for.
const Step& step_of(const LabelWords& words, const Sizing& sizing);

/// Sets a wording and adds its items; `baseline` is the first line's. Returns the baseline that the
/// next line would have.
double add_wording(Drawn& drawn, const SetWording& wording, document::Part part, double size,
                   double leading, double left, const Measure& measure, double baseline,
                   Alignment alignment, bool balanced = false);

/// Sizes of the frame round what to do where it was swallowed, in ems of its words: clear space
/// within it; and its line.
struct FramePad {
    double all = 0.45;          ///< between its line and the words
    double number = 0.6;        ///< between the words and a number above them
    double beside_least = 0.4;  ///< share of the width that words beside the number have
};
FramePad frame_pad(RunOn run_on);
constexpr double frame_line_mm = 0.35;
/// How much further it reaches below its last line than above its first capitals.
constexpr double frame_foot = 0.12;
double frame_foot_of(const Canvas& canvas);

/// Turns a label round, the other side of so many mm to the front; not pictograms.
void mirror(Drawn& drawn, double width);
/// Where the left edge of something so wide stands on a label that is turned round.
double mirrored(const Canvas& canvas, double left, double wide, double width);

/// A rectangle's outline as an item.
Item frame(const Box& box);

/// The words of a column in the room they have: what height is to spare goes between the parts
/// first, then between the lines, and the rest stays below.
void add_column(Drawn& drawn, const Canvas& canvas, const Column& column, Box room);

/// The band's texts in white, for a band whose top left corner is at `at`.
void add_band_texts(Drawn& drawn, const BandPlan& band, Point at);

void add_pictograms(Drawn& drawn, safety::Pictogram which, Point at, double side);

/// Clear space from the baseline of the number in the frame to the capitals of the words below it:
/// the usual, or more where brackets reach down to accents that reach up.
double below_number(const Canvas& canvas, const SetPart& number, double number_size,
                    const SetWording& words, double size, double usual);

/// Room for lines of type: from capitals to descenders.
double line_depth(const Canvas& canvas, double size);
double cap_depth(const Canvas& canvas, double size);
/// From the top of figures to their baseline.
double figure_depth(const Canvas& canvas, double size);

}  // namespace gallipot::layout
