#include "layout/label_words.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "layout/misfit.hpp"
#include "safety/type_sizes.hpp"

namespace gallipot::layout {

using document::Part;

namespace {

/// Ids whose widths differ by less are given the same room, so that K1-1 and K1-2 are set alike.
constexpr double id_step = 0.5;

bool contains(const std::vector<Part>& parts, Part part) {
    return std::find(parts.begin(), parts.end(), part) != parts.end();
}

/// Each entry of the design's list takes the part named one wording further, in the end leaving it
/// out if that is allowed; entries that change nothing are passed over.
std::vector<std::vector<int>> ladder(const LabelWords& label, const std::vector<Part>& shorten) {
    std::vector<int> level(label.words.size() + 1, 0);
    if (!label.caption) level.back() = -1;
    std::vector<std::vector<int>> steps{level};
    for (const auto name : shorten) {
        for (std::size_t i = 0; i < level.size(); ++i) {
            const bool last = i == label.words.size();
            if (last && !label.caption) continue;
            const auto& part = last ? *label.caption : label.words[i];
            if (part.part != name || level[i] < 0) continue;
            const int next = level[i] + 1;
            if (next < static_cast<int>(part.wordings.size())) {
                level[i] = next;
            } else if (!part.required) {
                level[i] = -1;
            } else {
                continue;
            }
            steps.push_back(level);
        }
    }
    return steps;
}

double points_for(safety::Part part, const document::Label& label, units::Area panel,
                  const fonts::Faces& faces) {
    // Bold words stand among the others: the smaller letters of the two faces decide.
    const safety::LetterHeights letters{
        std::min(faces.regular->cap_height(), faces.bold->cap_height()),
        std::min(faces.regular->x_height(), faces.bold->x_height())};
    return units::in_points(safety::type_size_for(
        safety::least_sizes(part, label.rules, panel, label.capacity), letters));
}

}  // namespace

double id_room(const Words& id) {
    return std::ceil(id.unbroken() / id_step) * id_step;
}

double SetPart::at(double size, double lead_factor) const {
    return std::max(lead ? size * lead_factor : size, least);
}

double LeastTypes::of(Part part) const {
    switch (part) {
        case Part::signal_word:
            return signal_word;
        case Part::keep_away:
            return child_warning;
        case Part::hazards:
            return hazard_statement;
        default:
            return other;
    }
}

LeastTypes least_types(const document::Label& label, units::Area own_area,
                       const fonts::Faces& faces) {
    const auto panel = label.panel.value_or(own_area);
    return {points_for(safety::Part::signal_word, label, panel, faces),
            points_for(safety::Part::child_warning, label, panel, faces),
            points_for(safety::Part::hazard_statement, label, panel, faces),
            points_for(safety::Part::other, label, panel, faces)};
}

std::shared_ptr<const Words> Measurer::words(const text::Runs& runs, bool bold,
                                             const document::Label& label, Part part) {
    std::string key = label.language;
    for (const auto& run : runs) {
        key += bold || run.bold ? '\1' : '\2';
        key += run.text;
    }
    auto& known = known_[key];
    if (known == nullptr)
        known =
            std::make_shared<Words>(bold ? in_bold(runs) : runs, faces_, label.language,
                                    fmt::format("label {}, {}", label.name, templates::name(part)));
    return known;
}

SetPart Measurer::part(const document::LabelPart& from, bool bold, double least,
                       const document::Label& label) {
    SetPart made;
    made.part = from.part;
    made.lead = bold;
    made.required = from.required;
    made.least = least;
    for (const auto& wording : from.wordings) {
        SetWording set;
        for (const auto& line : wording.lines) {
            set.lines.push_back(words(line, bold, label, from.part));
            set.widest = std::max(set.widest, set.lines.back()->widest());
        }
        made.wordings.push_back(std::move(set));
    }
    return made;
}

LabelWords Measurer::operator()(const document::Label& label, const templates::Design& design,
                                const LeastTypes& least) {
    LabelWords made;
    const auto band = [&](Part name, std::optional<SetPart>& place, bool bold) {
        if (const auto* from = label.find(name)) place = part(*from, bold, least.of(name), label);
    };
    band(Part::signal_word, made.signal_word, true);
    band(Part::not_food, made.not_food, true);
    band(Part::id, made.id, true);
    band(Part::caption, made.caption, false);
    for (const auto& word : design.words) {
        const auto* from = label.find(word.part);
        if (from == nullptr) continue;
        const bool lead = contains(design.leading_words, word.part);
        made.words.push_back(
            part(*from, lead, std::max(least.of(word.part), design.type_least), label));
        made.words.back().group = word.group;
    }
    for (const auto& from : label.parts) {
        const bool placed = from.part <= Part::id || from.part == Part::caption ||
                            std::any_of(design.words.begin(), design.words.end(),
                                        [&](const auto& word) { return word.part == from.part; });
        if (placed || !from.required) continue;
        throw LayoutError(
            {{fmt::format("label design '{}'", design.name),
              fmt::format("it leaves out '{}', which label {} must carry",
                          templates::name(from.part), label.name),
              fmt::format("add '{}' to its words", templates::name(from.part)), 0, 0}});
    }
    if (made.id && !made.id->wordings.empty())
        made.id_ems =
            std::ceil(made.id->wordings.front().lines.front()->unbroken() / id_step) * id_step;
    made.steps = ladder(made, design.shorten);
    return made;
}

}  // namespace gallipot::layout
