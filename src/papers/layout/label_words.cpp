#include "papers/layout/label_words.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "domain/safety/type_sizes.hpp"
#include "papers/layout/label_band.hpp"
#include "papers/layout/misfit.hpp"

namespace gallipot::layout {

using document::Label;
using document::LabelBody;
using document::LabelPart;
using document::Part;
using templates::Design;

namespace {

/// Ids whose widths differ by less are given the same room, so that K1-1 and K1-2 are set alike.
constexpr double id_step = 0.5;

double points_for(safety::Part part, const LabelBody& label, units::Area panel,
                  const fonts::Faces& faces) {
    // Bold words stand among the others: the smaller letters of the two faces decide.
    const safety::LetterHeights letters{
        std::min(faces.regular->cap_height(), faces.bold->cap_height()),
        std::min(faces.regular->x_height(), faces.bold->x_height())};
    return units::in_points(safety::type_size_for(
        safety::least_sizes(part, label.rules, panel, label.capacity), letters));
}

/// What goes between parts that follow one another on a line.
std::string joint(const text::Runs& before) {
    const auto text = text::plain(before);
    const auto ends = [&](std::string_view mark) { return text.ends_with(mark); };
    for (const auto* mark : {".", "!", "?", ":", "。", "！", "？"})
        if (ends(mark)) return " ";
    return " · ";
}

}  // namespace

int SetWording::lines_in(double ems) const {
    int count = 0;
    for (const auto& line : lines) count += ems < widest ? 1 : line->lines_in(ems);
    return count;
}

double id_room(const text::Runs& id, const fonts::Faces& faces) {
    const auto letters = text::plain(id);
    if (!fonts::uncovered(*faces.bold, letters).empty()) return 0;
    return std::ceil(faces.bold->advance(letters) / id_step) * id_step;
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

LeastTypes least_types(const LabelBody& body, units::Area own_area, const fonts::Faces& faces) {
    const auto panel = body.panel.value_or(own_area);
    return {points_for(safety::Part::signal_word, body, panel, faces),
            points_for(safety::Part::child_warning, body, panel, faces),
            points_for(safety::Part::hazard_statement, body, panel, faces),
            points_for(safety::Part::other, body, panel, faces)};
}

std::shared_ptr<const Words> Measurer::words(const text::Runs& runs, const std::string& language,
                                             const std::string& label, Part part) {
    return store_(runs, language, fmt::format("label {}, {}", label, templates::name(part)));
}

/// Measures one label.
class LabelMeasurer {
  public:
    LabelMeasurer(Measurer& measurer, const Label& label, const LabelBody& body,
                  const Design& design, const LeastTypes& least)
        : measurer_(measurer), label_(label), body_(body), design_(design), least_(least) {}

    std::unique_ptr<const LabelWords> operator()() {
        check_required();
        for (const auto& word : design_.words)
            if (const auto* from = body_.find(word.part)) words_.push_back({from, word.group});
        auto made = std::make_unique<LabelWords>();
        made->signal_word = alone(Part::signal_word, true);
        made->not_food = alone(Part::not_food, true);
        const LabelPart id{Part::id, true, {{{label_.id}}}};
        made->id = alone(id, true);
        made->id_ems = id_room(label_.id, measurer_.faces());
        made->caption = alone(Part::caption, false);
        for (const auto& levels : ladder()) {
            made->steps.push_back(step(levels, *made, false));
            made->run_in.push_back(step(levels, *made, true));
        }
        return made;
    }

  private:
    struct Placed {
        const LabelPart* part = nullptr;
        int group = 0;
    };
    /// Which wording of each of words_, and last of the caption, is used; -1: left out.
    using Levels = std::vector<int>;

    void check_required() const {
        for (const auto& from : body_.parts) {
            const bool placed =
                from.part < Part::id || from.part == Part::caption ||
                std::any_of(design_.words.begin(), design_.words.end(),
                            [&](const auto& word) { return word.part == from.part; });
            if (placed || !from.required) continue;
            throw LayoutError(
                {{fmt::format("label design '{}'", design_.name),
                  fmt::format("it leaves out '{}', which label {} must carry",
                              templates::name(from.part), label_.name),
                  fmt::format("add '{}' to its words", templates::name(from.part)), 0, 0}});
        }
    }

    SetWording measured(const document::Wording& wording, bool bold, Part part) {
        SetWording set;
        for (const auto& line : wording.lines) {
            set.lines.push_back(
                measurer_.words(bold ? in_bold(line) : line, body_.language, label_.name, part));
            set.widest = std::max(set.widest, set.lines.back()->widest());
        }
        return set;
    }

    std::optional<SetPart> alone(Part name, bool bold) {
        const auto* from = body_.find(name);
        if (from == nullptr) return {};
        return alone(*from, bold);
    }
    SetPart alone(const LabelPart& from, bool bold) {
        SetPart made{from.part, least_.of(from.part), {}, {}};
        for (const auto& wording : from.wordings) {
            made.wordings.push_back(measured(wording, bold, from.part));
            made.blocks.push_back(stacked(made.wordings.back()));
        }
        return made;
    }

    /// Each entry of the design's list takes the part named one wording further, in the end leaving
    /// it out if that is allowed; entries that change nothing are passed over.
    [[nodiscard]] std::vector<Levels> ladder() const {
        const auto* caption = body_.find(Part::caption);
        Levels levels(words_.size() + 1, 0);
        if (caption == nullptr) levels.back() = -1;
        std::vector<Levels> steps{levels};
        for (const auto name : design_.shorten) {
            for (std::size_t i = 0; i < levels.size(); ++i) {
                const auto* part = i < words_.size() ? words_[i].part : caption;
                if (part == nullptr || part->part != name || levels[i] < 0) continue;
                const bool more = levels[i] + 1 < static_cast<int>(part->wordings.size());
                if (!more && part->required) continue;
                levels[i] = more ? levels[i] + 1 : -1;
                steps.push_back(levels);
            }
        }
        return steps;
    }

    [[nodiscard]] bool leads(Part part) const {
        return std::find(design_.leading_words.begin(), design_.leading_words.end(), part) !=
               design_.leading_words.end();
    }

    Step step(const Levels& levels, const LabelWords& made, bool run_in) {
        Step step;
        std::size_t next = 0;
        while (next < words_.size()) {
            const std::size_t first = next++;
            while (run_in && next < words_.size() && words_[next].group == words_[first].group)
                ++next;
            add_block(step, levels, first, next, run_in);
        }
        if (body_.find(Part::caption) == nullptr) return step;
        if (levels.back() < 0)
            step.left_out.push_back(Part::caption);
        else
            step.caption = &made.caption->wordings[static_cast<std::size_t>(levels.back())];
        return step;
    }

    /// The words from `first` to before `end` as one paragraph, a line for each language.
    void add_block(Step& step, const Levels& levels, std::size_t first, std::size_t end,
                   bool run_in) {
        WordBlock block;
        document::Wording joined;
        for (std::size_t i = first; i < end; ++i) {
            const auto& part = *words_[i].part;
            if (levels[i] < 0) {
                step.left_out.push_back(part.part);
                continue;
            }
            if (joined.lines.empty()) {
                block.part = part.part;
                block.group = words_[i].group;
            }
            block.least = std::max({block.least, least_.of(part.part), design_.type_least});
            const auto& wording = part.wordings[static_cast<std::size_t>(levels[i])];
            joined.lines.resize(std::max(joined.lines.size(), wording.lines.size()));
            for (std::size_t l = 0; l < wording.lines.size(); ++l) {
                auto& line = joined.lines[l];
                if (!line.empty()) line.push_back({joint(line), false});
                const auto runs = leads(part.part) ? in_bold(wording.lines[l]) : wording.lines[l];
                line.insert(line.end(), runs.begin(), runs.end());
            }
            block.lead = !run_in && leads(part.part);
        }
        if (joined.lines.empty()) return;
        block.wording = measured(joined, false, block.part);
        step.blocks.push_back(std::move(block));
    }

    Measurer& measurer_;
    const Label& label_;
    const LabelBody& body_;
    const Design& design_;
    const LeastTypes& least_;
    std::vector<Placed> words_;
};

std::unique_ptr<const LabelWords> Measurer::operator()(const Label& label, const LabelBody& body,
                                                       const Design& design,
                                                       const LeastTypes& least) {
    return LabelMeasurer(*this, label, body, design, least)();
}

}  // namespace gallipot::layout
