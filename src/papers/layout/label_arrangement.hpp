#pragma once

#include <memory>
#include <vector>

#include "papers/layout/label_band.hpp"
#include "papers/layout/label_words.hpp"
#include "papers/layout/page.hpp"
#include "papers/templates/design.hpp"
#include "papers/templates/stock.hpp"

/// How the parts of one label lie on it, by the shape of the stock. An arrangement is asked again
/// and again with other sizes until one fits.
namespace gallipot::layout {

/// Ways to place pictograms: none, one or two beside the words, the others under the code.
constexpr int pictograms_beside = 3;

/// Sizes to try.
struct Sizing {
    int step = 0;  ///< of LabelWords::steps: how far the texts are shortened
    RunOn run_on = RunOn::parts;
    /// Which of Design::code_places, each with none to two pictograms at the right of the words.
    int place = 0;
    double size = 0;       ///< points, of the running words
    double lead = 1;       ///< size of the leading words, over that
    double leading = 1.2;  ///< distance of lines, over their size
    double number = 1.4;   ///< size of the number to call, over that of the running words
    double signal = 1.6;   ///< size of the signal word, over that of the running words
    double module = 0;     ///< mm, of the code
    double pictogram = 0;  ///< mm, side of the red frame
};

/// What is missing for a trial to fit, in mm; nothing when it fits.
struct Shortfall {
    double width = 0, height = 0;
    [[nodiscard]] bool fits() const { return width <= 1e-6 && height <= 1e-6; }
};

/// What an item of a label belongs to: a document::Part, or one of these.
enum Kind : int {
    band_kind = templates::parts,
    frame_kind,
    pictogram_kind,
    code_kind,
    mark_kind,
    kinds
};
std::string_view kind_name(int kind);

/// Where a label says where it belongs.
struct PlaceText {
    double size = 0;     ///< points
    double leading = 0;  ///< mm
    double left = 0;     ///< mm
    Measure measure{0};  ///< mm
    double baseline = 0;
    Alignment alignment = Alignment::left;
};

/// A label laid out, its top left corner at 0, 0. Items carry their Kind as group. What each has of
/// its own, id, place and code, is left open: labels that differ only in those share the rest.
struct Drawn {
    std::vector<Item> items;
    std::vector<BandText> ids;  ///< `words` are replaced by the label's own
    std::vector<Colour> id_colours;
    std::vector<PlaceText> places;
    std::vector<Box> codes;      ///< of the symbol, without its quiet zone
    bool right_to_left = false;  ///< it is turned round when all is drawn
};

/// What a label is laid out on.
struct Canvas {
    const templates::Stock& stock;
    const templates::Design& design;
    const fonts::Faces& faces;
    Box label;                 ///< the label, top left corner at 0, 0
    double clear = 0;          ///< mm that ink keeps from the label's edge
    double circumference = 0;  ///< mm, of the body a strip goes round; 0 when not known
    /// Ems by which marks reach above and below what is usual.
    fonts::Ink beyond{};
    bool right_to_left = false;  ///< its language: what is at the left of others is at the right
};

/// Of one label.
struct Contents {
    const LabelWords& words;
    int modules = 0;  ///< of the code, without its quiet zone; 0: no code
    std::vector<safety::Pictogram> pictograms;
    double band_minimum = 0;     ///< points, of the signal word
    double minimum_leading = 1;  ///< distance of lines over their size
    double least_leading = 0;    ///< more than that and the design's, where marks reach far
    double pictogram_minimum = 0,
           pictogram_preferred = 0;  ///< mm, side of the frame, from the rules

    explicit Contents(const LabelWords& of) : words(of) {}
};

class Arrangement {
  public:
    Arrangement(const Canvas& canvas, const Contents& contents)
        : canvas_(canvas), contents_(contents) {}
    virtual ~Arrangement() = default;
    Arrangement(const Arrangement&) = delete;
    Arrangement& operator=(const Arrangement&) = delete;

    [[nodiscard]] virtual Shortfall shortfall(const Sizing& sizing) const = 0;
    /// The trial must fit.
    [[nodiscard]] virtual Drawn draw(const Sizing& sizing) const = 0;

  protected:
    const Canvas& canvas_;
    const Contents& contents_;
};

std::unique_ptr<Arrangement> arrange(const Canvas& canvas, const Contents& contents);

}  // namespace gallipot::layout
