#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/units/quantity.hpp"
#include "papers/templates/stock.hpp"

/// How a label is arranged, read from templates/labels/NAME.yaml. templates/README.md describes the
/// format. What a label must say is not a matter of design and stands in document/label.hpp.
namespace gallipot::templates {

/// The pieces a label is made of.
enum class Part {
    signal_word,  // in the band
    not_food,
    id,
    keep_away,  // beside the code
    call,
    contents,
    ingredients,
    hazards,
    first_aid,
    precautions,
    dates,
    origin,
    contact,
    place,    // where it belongs; each label's own
    number,   // to call; large, in the frame with what to do
    caption,  // next to the code
};
inline constexpr int parts = static_cast<int>(Part::caption) + 1;
std::string_view name(Part part);  ///< as in a design: "keep away"
/// Whether a design names it in its words; the others have their place.
bool among_words(Part part);
/// What to do where somebody swallowed it, and whom to call: in a frame, with the number.
inline bool in_frame(Part part) {
    return part == Part::call || part == Part::first_aid;
}

enum class CodePlace {
    left,         ///< under the band, words at its right
    left_of_all,  ///< as high as the label, band and words at its right: for low labels
    bottom        ///< under the words: for high labels
};

// Type sizes are in points.

struct Design {
    std::string name;
    std::string about;
    diag::Place place;
    Shape shape = Shape::rectangle;

    double band_largest = 0;   ///< type of the signal word
    units::Share band_height;  ///< of the label's height, at most

    std::vector<CodePlace> code_places;  ///< the first that fits; not for circles
    units::Share code_widest;            ///< of the label's width, at most
    units::Length module_largest, module_preferred, module_minimum;

    units::Length pictogram_largest, pictogram_minimum;  ///< side of the red frame

    double type_largest = 0, type_preferred = 0, type_minimum = 0;
    double lead = 1;       ///< size of the leading words over that of the others
    double leading = 1.2;  ///< distance of lines over the type size, at easy sizes
    double number = 2;     ///< size of the number to call over that of the words, at easy sizes
    double signal = 2;     ///< size of the signal word over that of the words, at easy sizes

    /// Beside the code, from top to bottom. What is in one group stands close together.
    struct Word {
        Part part = Part::keep_away;
        int group = 0;
        diag::Place place;
    };
    std::vector<Word> words;
    std::vector<Part> leading_words;  ///< of the words, those set large and bold
    std::vector<Part> shorten;        ///< one step each: a shorter text, or left out if it may

    int panels = 1;            ///< of a strip: how often the label is repeated round the body
    units::Share panel_width;  ///< of the circumference
    /// Says only what it names, beside a label that says all: for a lid whose wall has that one.
    bool compact = false;
};

/// Reads one design. With errors in `out` the design is not to be used.
Design read_design(const diag::SourcePtr& file, const std::string& name, diag::Diagnostics& out);

}  // namespace gallipot::templates
