#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "papers/document/label.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/layout/typeset.hpp"
#include "papers/layout/word_store.hpp"
#include "papers/templates/design.hpp"

/// A label's texts, measured once, so that trying them in many sizes is cheap.
namespace gallipot::layout {

/// A part's wording, measured.
struct SetWording {
    std::vector<std::shared_ptr<const MeasuredText>> lines;
    double widest = 0;  ///< ems: the narrowest measure it can be set in

    /// How many lines it takes in a measure of so many ems; one each when a word is wider.
    [[nodiscard]] int lines_in(const Measure& ems) const;
};

/// The lines of a wording over one another, set to the same width as far as that goes: what each
/// line's size is over the smallest one's. In ems of the smallest, whatever the size.
struct Block {
    std::vector<double> sizes;
    std::vector<double> tops;  ///< of their capitals
    double width = 0;
    double height = 0;  ///< first capitals to last baseline
    double beyond = 0;  ///< how far ink reaches above those capitals or below that baseline
};

/// A part that stands by itself, with its wordings from the longest to the shortest.
struct SetPart {
    document::Part part = document::Part::id;
    double minimum = 0;  ///< points
    std::vector<SetWording> wordings;
    std::vector<Block> blocks;  ///< of the wordings, for the parts of the band
};

/// How much of the words stands one after another in one paragraph, ever denser.
enum class RunOn {
    parts,   ///< nothing: each part has a paragraph of its own
    groups,  ///< the parts of a group of the design
    rest,    ///< the same, and all groups after those with a leading part
    tight,   ///< lead, place and frame first, all else after them; the frame close round its words
    bare,    ///< the same without a frame, the number among the words
};
inline constexpr int run_ons = 5;

/// What stands together as one paragraph among the words.
struct WordBlock {
    document::Part part = document::Part::keep_away;  ///< the first
    int group = 0;
    bool lead = false;    ///< set larger, in bold
    bool framed = false;  ///< what to do where it was swallowed
    bool number = false;  ///< the number to call stands with it
    double minimum = 0;   ///< points
    SetWording wording;   ///< empty for the place, which each label has its own of
};

/// The room that is kept for where a container belongs: labels that differ in that are set alike.
class PlaceRoom {
  public:
    /// `ems`: how wide a line of it is, and its widest word.
    struct Extent {
        double ems = 0, widest = 0;
        fonts::Ink ink{};
    };
    /// Makes it large enough for these lines, one for each language.
    /// Whether it had to grow for that.
    bool add(const std::vector<Extent>& lines);
    [[nodiscard]] bool empty() const { return languages_.empty(); }
    /// Enough lines of so many ems for any of them, and how wide they must be.
    [[nodiscard]] int lines_in(double ems) const;
    [[nodiscard]] double widest() const;
    [[nodiscard]] const fonts::Ink& ink() const { return ink_; }

  private:
    std::vector<std::vector<Extent>> languages_;  ///< none of them within another
    fonts::Ink ink_;                              ///< the furthest
};

/// One form of the label.
struct Step {
    std::vector<WordBlock> blocks;
    const SetWording* caption = nullptr;  ///< of LabelWords::caption; null: left out
    std::vector<document::Part> left_out;
    std::vector<document::Part>
        shortest;                         ///< dates and ingredients of which only the least is said
    std::vector<std::string> statements;  ///< codes of the published ones it makes
    std::vector<std::string> statements_left_out;  ///< and of those it has no room for
};

/// Everything of a label that stands on paper as text.
struct LabelWords {
    std::optional<SetPart> signal_word, not_food, id, number, caption;  ///< not among the words
    std::array<std::vector<Step>, run_ons> steps;  ///< by RunOn; each ever shorter
    /// Width of the id in ems, rounded up: labels that differ by little in it are set alike.
    double id_ems = 0;
    PlaceRoom place;
    fonts::Ink ink;  ///< how far that of any of it reaches, in ems; not of the band
};

/// The room an id is given, in ems: its width in bold rounded up. 0 when no font has a letter.
double id_room(const text::StyledText& id, const fonts::Faces& faces);

/// The room kept for what each label has of its own.
struct OwnRoom {
    double id_ems = 0;
    PlaceRoom place;
};

/// Least type sizes of a label, in points, from the published rules and the font's own letters.
struct LeastTypes {
    double signal_word = 0, child_warning = 0, hazard_statement = 0, other = 0;
    [[nodiscard]] double of(document::Part part) const;
};
LeastTypes minimum_types(const document::LabelBody& body, units::Area own_area,
                         const fonts::Faces& faces);

/// Measures texts and remembers them: a run of labels says the same things again and again.
class Measurer {
  public:
    explicit Measurer(fonts::Faces faces) : store_(std::move(faces)) {}

    /// Throws LayoutError for characters that no face covers, and when the design leaves out a
    /// part that the label requires. The result points into itself: keep it where it is.
    std::unique_ptr<const LabelWords> operator()(const document::Label& label, const OwnRoom& room,
                                                 const templates::Design& design,
                                                 const LeastTypes& minimum);
    /// How wide the lines are that say where a label belongs.
    std::vector<PlaceRoom::Extent> place_extents(const document::Label& label);
    [[nodiscard]] const fonts::Faces& faces() const { return store_.faces(); }

  private:
    friend class LabelMeasurer;
    std::shared_ptr<const MeasuredText> words(const text::StyledText& runs,
                                              const std::string& language, const std::string& label,
                                              document::Part part);

    WordStore store_;
};

}  // namespace gallipot::layout
