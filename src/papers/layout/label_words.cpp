#include "papers/layout/label_words.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>
#include <span>

#include "domain/safety/type_sizes.hpp"
#include "papers/layout/label_band.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/text/direction.hpp"

namespace gallipot::layout {

using document::Label;
using document::LabelBody;
using document::LabelPart;
using document::Part;
using templates::Design;

namespace {

/// Ids whose widths differ by less are given the same room, so that K1-1 and K1-2 are set alike.
constexpr double id_step = 0.5;
/// And so for the place.
constexpr double place_step = 0.5;
/// A space at a line's end, in ems, at most.
constexpr double space = 0.35;

double points_for(safety::Part part, const LabelBody& label, units::Area panel,
                  const fonts::Faces& faces) {
    // Bold words stand among the others: the smaller letters of the two faces decide.
    const safety::LetterHeights letters{
        std::min(faces.regular->cap_height(), faces.bold->cap_height()),
        std::min(faces.regular->x_height(), faces.bold->x_height())};
    return units::in_points(safety::type_size_for(
        safety::minimum_sizes(part, label.rules, panel, label.capacity), letters));
}

/// What goes between parts that follow one another on a line.
std::string joint(const text::StyledText& before) {
    const auto text = text::plain(before);
    const auto ends = [&](std::string_view mark) { return text.ends_with(mark); };
    for (const auto* mark : {"。", "！", "？", "：", "；"})  // have their space in them
        if (ends(mark)) return {};
    for (const auto* mark : {".", "!", "?", ":", "؟", "।"})
        if (ends(mark)) return " ";
    return " · ";
}

}  // namespace

int SetWording::lines_in(const Measure& ems) const {
    int count = 0;
    for (const auto& line : lines) {
        const auto measure = ems.below(count);
        count += measure.at(0) < widest ? 1 : line->lines_in(measure);
    }
    return count;
}

bool PlaceRoom::add(const std::vector<Extent>& lines) {
    bool grown = lines.size() > languages_.size();
    for (const Extent& line : lines)
        for (const auto reach : {&fonts::Ink::above, &fonts::Ink::below}) {
            grown = grown || line.ink.*reach > ink_.*reach;
            ink_.*reach = std::max(ink_.*reach, line.ink.*reach);
        }
    languages_.resize(std::max(languages_.size(), lines.size()));
    const auto up = [](double ems) { return std::ceil(ems / place_step) * place_step; };
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Extent more{up(lines[i].ems), up(lines[i].widest), {}};
        const auto within = [](const Extent& a, const Extent& b) {
            return a.ems <= b.ems && a.widest <= b.widest;
        };
        auto& known = languages_[i];
        if (std::ranges::any_of(known, [&](const auto& one) { return within(more, one); }))
            continue;
        std::erase_if(known, [&](const auto& one) { return within(one, more); });
        known.push_back(more);
        grown = true;
    }
    return grown;
}

int PlaceRoom::lines_in(double ems) const {
    int all = 0;
    for (const auto& language : languages_) {
        int most = 1;
        for (const Extent& one : language) {
            if (one.ems <= ems) continue;
            // Each line but the last is so full that the next word had no room.
            const double filled = std::max(ems - one.widest - space, ems / 4);
            most = std::max(most, static_cast<int>(std::ceil(one.ems / filled - 1e-9)));
        }
        all += most;
    }
    return all;
}

double PlaceRoom::widest() const {
    double widest = 0;
    for (const auto& language : languages_)
        for (const Extent& one : language) widest = std::max(widest, one.widest);
    return widest;
}

double id_room(const text::StyledText& id, const fonts::Faces& faces) {
    const auto letters = text::plain(id);
    const auto up = [](double ems) { return std::ceil(ems / id_step) * id_step; };
    if (fonts::uncovered(*faces.bold, letters).empty()) return up(faces.bold->advance(letters));
    try {
        return up(MeasuredText(in_bold(id), faces, {}, "id").unbroken());
    } catch (const LayoutError&) {
        return 0;  // told of where it is set
    }
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

LeastTypes minimum_types(const LabelBody& body, units::Area own_area, const fonts::Faces& faces) {
    const auto panel = body.panel.value_or(own_area);
    return {points_for(safety::Part::signal_word, body, panel, faces),
            points_for(safety::Part::child_warning, body, panel, faces),
            points_for(safety::Part::hazard_statement, body, panel, faces),
            points_for(safety::Part::other, body, panel, faces)};
}

std::shared_ptr<const MeasuredText> Measurer::words(const text::StyledText& runs,
                                                    const std::string& language,
                                                    const std::string& label, Part part) {
    return store_(runs, language, fmt::format("label {}, {}", label, templates::name(part)));
}

std::vector<PlaceRoom::Extent> Measurer::place_extents(const Label& label) {
    std::vector<PlaceRoom::Extent> extents;
    for (const auto& line : label.place) {
        // Not remembered: a large job has thousands of them.
        const MeasuredText measured(line, faces(), label.body->language,
                                    fmt::format("label {}, place", label.name));
        extents.push_back({measured.unbroken(), measured.widest(), measured.ink()});
    }
    return extents;
}

/// Measures one label.
class LabelMeasurer {
  public:
    LabelMeasurer(Measurer& measurer, const Label& label, const OwnRoom& room, const Design& design,
                  const LeastTypes& minimum)
        : measurer_(measurer),
          label_(label),
          body_(*label.body),
          room_(room),
          design_(design),
          minimum_(minimum),
          ink_(room.place.ink()) {}

    std::unique_ptr<const LabelWords> operator()() {
        check_required();
        for (const auto& word : design_.words) {
            if (const auto* from = body_.find(word.part)) words_.push_back({from, word.group});
            if (word.part == Part::place && !room_.place.empty())
                words_.push_back({&place_, word.group});
        }
        auto made = std::make_unique<LabelWords>();
        made->signal_word = alone(Part::signal_word, true);
        made->not_food = alone(Part::not_food, true);
        const LabelPart id{Part::id, true, {{{label_.id}}}};
        made->id = alone(id, true);
        made->id_ems = std::max(room_.id_ems, id_room(label_.id, measurer_.faces()));
        made->place = room_.place;
        made->number = alone(Part::number, true);
        made->caption = alone(Part::caption, false);
        for (const auto& levels : ladder())
            for (const auto run_on :
                 {RunOn::parts, RunOn::groups, RunOn::rest, RunOn::tight, RunOn::bare})
                made->steps.at(static_cast<std::size_t>(run_on))
                    .push_back(step(levels, *made, run_on));
        made->ink = ink_;
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
                !templates::among_words(from.part) ||
                std::any_of(design_.words.begin(), design_.words.end(),
                            [&](const auto& word) { return word.part == from.part; });
            if (placed || !from.required || design_.compact) continue;
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
            if (!templates::among_words(part) && part != Part::caption) continue;
            const fonts::Ink& ink = set.lines.back()->ink();
            ink_.above = std::max(ink_.above, ink.above);
            ink_.below = std::max(ink_.below, ink.below);
        }
        return set;
    }

    std::optional<SetPart> alone(Part name, bool bold) {
        const auto* from = body_.find(name);
        if (from == nullptr) return {};
        return alone(*from, bold);
    }
    SetPart alone(const LabelPart& from, bool bold) {
        SetPart made{from.part, minimum_.of(from.part), {}, {}};
        for (const auto& wording : from.wordings) {
            made.wordings.push_back(measured(wording, bold, from.part));
            made.blocks.push_back(stacked(made.wordings.back()));
        }
        return made;
    }

    /// Each entry of the design's list takes the part named one wording further, the last one of a
    /// part as far as it goes, in the end leaving it out if that is allowed; precautions go one at
    /// a time then. What changes nothing is a step all the same: labels that say different things
    /// are at the same step as short as each other.
    [[nodiscard]] std::vector<Levels> ladder() const {
        const auto* caption = body_.find(Part::caption);
        Levels levels(words_.size() + 1, 0);
        if (caption == nullptr) levels.back() = -1;
        std::vector<Levels> steps{levels};
        const auto& order = design_.shorten;
        for (auto name = order.begin(); name != order.end(); ++name) {
            const bool last = std::find(name + 1, order.end(), *name) == order.end();
            bool more = further(*name, levels);
            if (last && *name == Part::precautions) {
                for (; more; more = further(*name, levels)) steps.push_back(levels);
                continue;
            }
            while (last && more) more = further(*name, levels);
            steps.push_back(levels);
        }
        return steps;
    }

    /// Takes a part one wording further; false when it is as short as it gets, or not there.
    bool further(Part name, Levels& levels) const {
        for (std::size_t i = 0; i < levels.size(); ++i) {
            const auto* part = i < words_.size() ? words_[i].part : body_.find(Part::caption);
            if (part == nullptr || part->part != name || levels[i] < 0) continue;
            const bool more = levels[i] + 1 < static_cast<int>(part->wordings.size());
            if (!more && part->required) return false;
            levels[i] = more ? levels[i] + 1 : -1;
            return true;
        }
        return false;
    }

    [[nodiscard]] bool leads(Part part) const {
        return std::find(design_.leading_words.begin(), design_.leading_words.end(), part) !=
               design_.leading_words.end();
    }

    Step step(const Levels& levels, const LabelWords& made, RunOn run_on) {
        Step step;
        const auto order = in_order(run_on);
        std::size_t next = 0;
        while (next < order.size()) {
            const std::size_t first = next++;
            while (next < order.size() && together(order[first], order[next], run_on)) ++next;
            add_block(step, levels, std::span(order).subspan(first, next - first), run_on);
        }
        for (std::size_t i = 0; i < words_.size(); ++i)
            note_statements(step, *words_[i].part, levels[i]);
        if (body_.find(Part::caption) == nullptr) return step;
        if (levels.back() < 0)
            step.left_out.push_back(Part::caption);
        else
            step.caption = &made.caption->wordings[static_cast<std::size_t>(levels.back())];
        return step;
    }

    /// Of words_, top to bottom.
    [[nodiscard]] std::vector<std::size_t> in_order(RunOn run_on) const {
        std::vector<std::size_t> order(words_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        if (run_on >= RunOn::tight)
            std::ranges::stable_partition(order, [&](std::size_t i) {
                const Part part = words_[i].part->part;
                return leads(part) || part == Part::place || templates::in_frame(part);
            });
        return order;
    }

    /// Whether words `first` and `other` stand in one paragraph.
    [[nodiscard]] bool together(std::size_t first, std::size_t other, RunOn run_on) const {
        const Part one = words_[first].part->part, next = words_[other].part->part;
        if (one == Part::place || next == Part::place) return false;
        if (templates::in_frame(one) || templates::in_frame(next))
            return templates::in_frame(one) && templates::in_frame(next);
        if (run_on == RunOn::parts) return false;
        if (words_[first].group == words_[other].group) return true;
        return run_on >= RunOn::rest && !leads_group(words_[first].group) &&
               !leads_group(words_[other].group);
    }
    [[nodiscard]] bool leads_group(int group) const {
        return std::any_of(words_.begin(), words_.end(), [&](const Placed& word) {
            return word.group == group && leads(word.part->part);
        });
    }

    static void note_statements(Step& step, const LabelPart& part, int level) {
        const std::vector<std::string> none;
        const auto& said = level < 0 ? none : part.wordings[static_cast<std::size_t>(level)].codes;
        for (const auto& code : part.wordings.front().codes) {
            const bool there = std::find(said.begin(), said.end(), code) != said.end();
            (there ? step.statements : step.statements_left_out).push_back(code);
        }
    }

    /// These of words_ as one paragraph, a line for each language.
    void add_block(Step& step, const Levels& levels, std::span<const std::size_t> together,
                   RunOn run_on) {
        WordBlock block;
        document::Wording joined;
        for (const std::size_t i : together) {
            const auto& part = *words_[i].part;
            if (levels[i] < 0) {
                step.left_out.push_back(part.part);
                continue;
            }
            if (joined.lines.empty()) {
                block.part = part.part;
                block.group = words_[i].group;
            }
            const bool minimum = static_cast<std::size_t>(levels[i]) + 1 == part.wordings.size();
            if (minimum && part.wordings.size() > 2 &&
                (part.part == Part::dates || part.part == Part::ingredients))
                step.shortest.push_back(part.part);
            block.minimum = std::max({block.minimum, minimum_.of(part.part), design_.type_minimum});
            block.framed |= templates::in_frame(part.part) && run_on != RunOn::bare;
            const auto* number = part.part == Part::call ? body_.find(Part::number) : nullptr;
            block.number |= number != nullptr && run_on != RunOn::bare;
            const bool bold = leads(part.part) || part.part == Part::call;
            const auto& wording = part.wordings[static_cast<std::size_t>(levels[i])];
            // In the frame whom to call stands by itself, beside the number.
            const std::size_t above = block.framed ? joined.lines.size() : 0;
            joined.lines.resize(std::max(joined.lines.size(), above + wording.lines.size()));
            for (std::size_t l = 0; l < wording.lines.size(); ++l) {
                auto& line = joined.lines[above + l];
                if (!line.empty()) line.push_back({joint(line), false});
                const auto runs = bold ? in_bold(wording.lines[l]) : wording.lines[l];
                line.insert(line.end(), runs.begin(), runs.end());
                if (number == nullptr || run_on != RunOn::bare) continue;
                const std::string figures = text::plain(number->wordings.front().lines.front());
                const auto& said_in = line.front().language;
                const bool turned =
                    text::runs_right_to_left(said_in.empty() ? body_.language : said_in);
                line.push_back({" " + text::isolated(figures, turned) + ".", true, said_in});
            }
            block.lead = run_on == RunOn::parts && leads(part.part) && !block.framed;
        }
        if (block.part == Part::place) return step.blocks.push_back(std::move(block));
        if (joined.lines.empty()) return;
        block.wording = measured(joined, false, block.part);
        step.blocks.push_back(std::move(block));
    }

    Measurer& measurer_;
    const Label& label_;
    const LabelBody& body_;
    const OwnRoom& room_;
    const LabelPart place_{Part::place, false, {document::Wording{}}};
    const Design& design_;
    const LeastTypes& minimum_;
    std::vector<Placed> words_;
    fonts::Ink ink_;
};

std::unique_ptr<const LabelWords> Measurer::operator()(const Label& label, const OwnRoom& room,
                                                       const Design& design,
                                                       const LeastTypes& minimum) {
    return LabelMeasurer(*this, label, room, design, minimum)();
}

}  // namespace gallipot::layout
