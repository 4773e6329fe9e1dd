#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/safety/hazard.hpp"
#include "papers/templates/design.hpp"
#include "papers/text/catalog.hpp"

/// What a label says, and what of it may go when there is no room. Where it stands and how large it
/// is set is the layout's matter.
namespace gallipot::document {

using templates::Part;

/// One way to say a part: lines that follow one another. In a label of two languages each has its
/// own.
struct Wording {
    std::vector<text::StyledText> lines;
    std::vector<std::string> codes{};  ///< of the published statements it makes; of few parts only
    bool operator==(const Wording&) const = default;
};

/// A part with its wordings, the longest first. A shorter one leaves out what may be left out and
/// nothing else; the published statements it leaves out are the first one's `codes` that it lacks.
struct LabelPart {
    Part part = Part::keep_away;
    bool required = true;  ///< may be shortened to its last wording, never left out
    std::vector<Wording> wordings;
    bool operator==(const LabelPart&) const = default;
};

/// What labels that differ in their number and code alone have in common.
struct LabelBody {
    std::vector<LabelPart> parts;
    std::vector<safety::Pictogram> pictograms;
    std::string pictograms_say{};  ///< what they show, for who does not see them
    std::string code_says{};       ///< and its code

    safety::RuleSet rules = safety::RuleSet::clp_like;
    units::Volume capacity;                 ///< of the container
    std::optional<units::Area> panel;       ///< of the container's body; else the label's own area
    std::optional<units::Length> diameter;  ///< of the round wall a strip or label goes on
    std::optional<units::Length> height;    ///< of that wall
    std::optional<units::Length> lid;       ///< diameter of the lid a label may go on

    std::string language;  ///< BCP 47, of its lines

    [[nodiscard]] const LabelPart* find(Part part) const;
    bool operator==(const LabelBody&) const = default;
};

/// Of all that is said; the same for equal bodies.
std::size_t hash(const LabelBody& body);

struct Label {
    std::string name;     ///< "K1-2": unique in a run; for messages and for finding it in the PDF
    text::StyledText id;  ///< what it is called, in large letters
    /// Where it belongs, a line for each of its languages; none for what stands nowhere.
    std::vector<text::StyledText> place{};
    /// Labels of one kin, those of a mix, are set alike: it is the mix's name.
    std::string kin{};
    std::vector<std::string> section;  ///< what it is bookmarked under: mix, then station
    std::string code;                  ///< what its QR code holds; empty for a label without one
    std::shared_ptr<const LabelBody> body;
};

struct Labels {
    std::string title;
    std::string author;
    std::string language;
    std::vector<Label> labels;
};

}  // namespace gallipot::document
