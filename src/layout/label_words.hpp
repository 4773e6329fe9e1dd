#pragma once

#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "document/label.hpp"
#include "fonts/fonts.hpp"
#include "layout/typeset.hpp"
#include "templates/design.hpp"

/// A label's texts, measured once, so that trying them in many sizes is cheap.
namespace gallipot::layout {

/// A part's wording, measured.
struct SetWording {
    std::vector<std::shared_ptr<const Words>> lines;
    double widest = 0;  ///< ems: the narrowest measure it can be set in
};

struct SetPart {
    document::Part part = document::Part::keep_away;
    int group = 0;      ///< of the design's words
    bool lead = false;  ///< set larger, in bold
    bool required = true;
    double least = 0;  ///< points
    std::vector<SetWording> wordings;

    /// The size it is set in when the running size is `size` and lead is `lead` times that.
    [[nodiscard]] double at(double size, double lead_factor) const;
};

/// Everything of a label that stands on paper as text.
struct LabelWords {
    std::optional<SetPart> signal_word, not_food, id, caption;  ///< not in the column of words
    std::vector<SetPart> words;                                 ///< in the design's order
    /// Ever shorter forms of the label: which wording of each of `words`, and last of the caption,
    /// is used; -1 where it is left out.
    std::vector<std::vector<int>> steps;
    /// Width of the id in ems, rounded up: labels that differ by little in it are set alike.
    double id_ems = 0;
};

/// The room an id is given, in ems: its width rounded up.
double id_room(const Words& id);

/// Least type sizes of a label, in points, from the published rules and the font's own letters.
struct LeastTypes {
    double signal_word = 0, child_warning = 0, hazard_statement = 0, other = 0;
    [[nodiscard]] double of(document::Part part) const;
};
LeastTypes least_types(const document::Label& label, units::Area own_area,
                       const fonts::Faces& faces);

/// Measures texts and remembers them: a run of labels says the same things again and again.
class Measurer {
  public:
    explicit Measurer(fonts::Faces faces) : faces_(std::move(faces)) {}

    /// Throws LayoutError for characters that no face covers, and when the design leaves out a
    /// part that the label requires.
    LabelWords operator()(const document::Label& label, const templates::Design& design,
                          const LeastTypes& least);
    [[nodiscard]] const fonts::Faces& faces() const { return faces_; }

  private:
    std::shared_ptr<const Words> words(const text::Runs& runs, bool bold,
                                       const document::Label& label, document::Part part);
    SetPart part(const document::LabelPart& part, bool bold, double least,
                 const document::Label& label);

    fonts::Faces faces_;
    std::unordered_map<std::string, std::shared_ptr<const Words>> known_;
};

}  // namespace gallipot::layout
