#include "papers/layout/label_circle.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "papers/layout/pictogram.hpp"
#include "papers/qr/symbol.hpp"

namespace gallipot::layout {

namespace {

constexpr double lines_factor = 0.72;    // NOT FOOD over the signal word
constexpr double id_factor = 1.15;       // number over the signal word
constexpr double id_share = 0.3;         // of the diameter, at most
constexpr double id_air = 0.5;           // above a number that stands alone, over its capitals
constexpr double caption_factor = 0.85;  // over the running words
constexpr double caption_share = 0.27;  // of the diameter, for the caption where the id is narrower
constexpr int frame_lines_most = 12;
constexpr double base_gap = 0.02;    // space between parts, of the diameter
constexpr double spread_most = 2.2;  // how far spare room spreads those spaces
constexpr double apart = 0.05;       // clear between the ink of the band's lines, in ems
constexpr double hair = 0.01;

}  // namespace

CircleArrangement::CircleArrangement(const Canvas& canvas, const Contents& contents)
    : Arrangement(canvas, contents),
      centre_{canvas.label.x + canvas.label.width / 2, canvas.label.y + canvas.label.height / 2},
      radius_(canvas.label.width / 2 - canvas.clear),
      paper_radius_(canvas.label.width / 2) {}

double CircleArrangement::half_chord(double y) const {
    const double away = y - centre_.y;
    return std::sqrt(std::max(0.0, radius_ * radius_ - away * away));
}

/// The signal word as large as wished, or as large as the band's share of the circle allows.
double CircleArrangement::signal_size(const Sizing& sizing) const {
    const double maximum = canvas_.design.band_height.fraction * canvas_.label.height;
    double size = std::clamp(sizing.signal * sizing.size, contents_.band_minimum,
                             std::max(contents_.band_minimum, canvas_.design.band_largest));
    while (size > contents_.band_minimum) {
        Plan trial_plan;
        band(trial_plan, size);
        if (trial_plan.band_bottom - (centre_.y - radius_) <= maximum) break;
        size = std::max(contents_.band_minimum, size - 0.25);
    }
    return size;
}

void CircleArrangement::band(Plan& plan, double signal) const {
    const auto& words = contents_.words;
    const double pad = 0.5 * signal * mm_per_point;
    double baseline = centre_.y - radius_;
    double below = 0;  // mm of ink below the last baseline
    const auto add = [&](const SetPart& part, double size) {
        for (const auto& line : part.wordings.front().lines) {
            const double width = in_mm(line->unbroken(), size);
            const double cap = cap_depth(canvas_, size);
            // No higher than where the circle is wide enough for it.
            const double reach = radius_ * radius_ - (width / 2 + pad) * (width / 2 + pad);
            plan.shortfall.width = std::max(plan.shortfall.width, width + 2 * pad - 2 * radius_);
            const double highest = centre_.y - std::sqrt(std::max(0.0, reach)) + cap;
            const double clear = below + in_mm(line->ink().above + apart, size);
            const double next =
                plan.band.empty() ? highest : baseline + std::max(1.42 * cap, clear);
            below = in_mm(line->ink().below, size);
            baseline = std::max(next, highest);
            plan.band.push_back(
                {line,
                 part.part,
                 size,
                 {centre_.x - width / 2 - hair / 2, baseline - cap, width + hair, cap},
                 Alignment::centre});
        }
    };
    if (words.signal_word) add(*words.signal_word, signal);
    if (words.not_food)
        add(*words.not_food, std::max(words.not_food->minimum,
                                      words.signal_word ? lines_factor * signal : 0.8 * signal));
    plan.band_bottom = baseline + std::max(in_mm(0.35, signal), below + in_mm(apart, signal));
}

void CircleArrangement::row(Plan& plan, const Sizing& sizing, double gap) const {
    const double zone = contents_.modules > 0 ? qr::quiet_zone * sizing.module : 0;
    const double code = contents_.modules * sizing.module;
    const double extent = pictogram_extent(sizing.pictogram);
    const auto count = static_cast<double>(contents_.pictograms.size());
    double id_size = 0;
    if (contents_.words.id) {
        // A long one is set smaller: the code needs its room.
        const double most = id_share * canvas_.label.width / in_mm(contents_.words.id_ems, 1);
        id_size = std::max(contents_.words.id->minimum,
                           std::min(id_factor * plan.band.front().size, most));
    }
    const double id = in_mm(contents_.words.id_ems, id_size);
    const double id_cap = figure_depth(canvas_, id_size);

    const SetWording* caption =
        contents_.modules > 0 ? step_of(contents_.words, sizing).caption : nullptr;
    double middle_width = id, middle_height = id_cap;
    if (caption != nullptr) {
        Line made;
        made.size = std::max(contents_.words.caption->minimum, caption_factor * sizing.size);
        const double em = made.size * mm_per_point;
        made.leading = sizing.leading * em;
        middle_width = std::max({id, caption->widest * em, caption_share * canvas_.label.height});
        made.measure = Measure(middle_width + hair);
        const int lines = caption->lines_in(middle_width / em);
        middle_height += made.leading - cap_depth(canvas_, made.size) + gap / 2 +
                         (lines - 1) * made.leading + line_depth(canvas_, made.size);
        plan.caption = made;
    }

    const double code_room = contents_.modules > 0 ? code + std::max(zone, gap) : 0;
    const double pictogram_room = count > 0 ? count * extent + (count - 1) * gap / 2 + gap : 0;
    const double width = code_room + middle_width + pictogram_room;
    const bool alone = contents_.modules == 0 && contents_.pictograms.empty();
    const double top = plan.band_bottom + std::max({zone, gap, alone ? id_air * id_cap : 0});
    const double height = std::max({code, count > 0 ? extent : 0, middle_height});
    const double middle = top + height / 2;
    double left = centre_.x - width / 2;

    // A corner must lie inside the circle: by how much it does not is what is missing in width.
    const auto reach = [&](Point p, double r) {
        const double x = std::abs(p.x - centre_.x), y = p.y - centre_.y;
        return std::max(0.0, x - std::sqrt(std::max(0.0, r * r - y * y)));
    };
    double missing = 0;
    if (contents_.modules > 0) {
        plan.code = Box{left, middle - code / 2, code, code};
        const Box& box = *plan.code;
        for (const double y : {box.y, box.bottom()}) {
            missing = std::max(missing, reach({box.x, y}, radius_));
            missing = std::max(
                missing, reach({box.x - zone, y + (y < middle ? -zone : zone)}, paper_radius_));
        }
        left += code_room;
    }
    if (contents_.words.id) {
        plan.id = BandText{nullptr,
                           document::Part::id,
                           id_size,
                           {left, middle - middle_height / 2, middle_width + hair, id_cap},
                           Alignment::centre};
        if (contents_.modules == 0)
            missing = std::max(missing, reach({left, middle - middle_height / 2}, radius_));
        for (const double end : {-1.0, 1.0})
            missing = std::max(
                missing, reach({left + middle_width, middle + end * middle_height / 2}, radius_));
        if (plan.caption) {
            plan.caption->measure_left = left;
            plan.caption->baseline =
                middle - middle_height / 2 + id_cap + gap / 2 + plan.caption->leading;
        }
        left += middle_width + gap;
    }
    for (int i = 0; i < static_cast<int>(count); ++i) {
        plan.pictograms.push_back({left, middle - extent / 2});
        missing = std::max(missing, reach({left + extent, middle}, radius_));
        left += extent + gap / 2;
    }
    plan.shortfall.width = std::max(plan.shortfall.width, 2 * missing);
    // The pictograms' lower points and the quiet zone end the row.
    plan.row_bottom = std::max({middle + code / 2 + (contents_.modules > 0 ? zone : 0),
                                count > 0 ? middle + extent / 2 : 0,
                                plan.caption ? middle + middle_height / 2
                                             : middle - id_cap / 2 + line_depth(canvas_, id_size)});
}

double CircleArrangement::chord(double top, double bottom) const {
    return 2 * std::min(half_chord(top), half_chord(bottom));
}

double CircleArrangement::running(Line& line, double top, double& below) const {
    const auto& wording = line.words->wording;
    const double em = line.size * mm_per_point;
    const double depth = line_depth(canvas_, line.size);
    // Each line as wide as the circle is there; below it, as if it went on.
    line.measure = std::max(wording.widest * em, radius_);
    for (double at = top; at + depth <= centre_.y + radius_; at += line.leading) {
        const double wide = chord(at, at + depth);
        if (wide < wording.widest * em) break;
        const double inset = (line.measure.width - wide) / 2;
        line.measure.insets.push_back({inset, inset});
    }
    const int lines = wording.lines_in(line.measure.over(em));
    below += std::max(0, lines - static_cast<int>(line.measure.insets.size())) * line.leading;
    line.baseline = top + cap_depth(canvas_, line.size);
    return top + lines * line.leading;
}

double CircleArrangement::place(Line& line, double top, double& below) const {
    const double em = line.size * mm_per_point;
    const auto& room = contents_.words.place;
    int lines = 1;
    double wide = 0;
    for (; lines <= frame_lines_most; ++lines) {
        wide = chord(top, top + (lines - 1) * line.leading + line_depth(canvas_, line.size));
        if (wide >= room.widest() * em && room.lines_in(wide / em) <= lines) break;
    }
    if (lines > frame_lines_most) below += frame_lines_most * line.leading;
    line.measure = Measure(std::max(wide, room.widest() * em));
    line.baseline = top + cap_depth(canvas_, line.size);
    return top + lines * line.leading;
}

double CircleArrangement::framed(Line& line, const Sizing& sizing, double top,
                                 double& below) const {
    const auto& words = contents_.words;
    const auto& wording = line.words->wording;
    const double em = line.size * mm_per_point;
    const FramePad clear = frame_pad(sizing.run_on);
    const double pad = clear.all * em + frame_line_mm;
    double above = pad, number_width = 0;
    if (line.words->number && words.number) {
        line.number = std::max(sizing.number * line.size, words.number->minimum);
        number_width = in_mm(words.number->wordings.front().widest, line.number);
        line.number_baseline = top + pad + figure_depth(canvas_, line.number);
        above += figure_depth(canvas_, line.number) + below_number(canvas_, *words.number,
                                                                   line.number, wording, line.size,
                                                                   clear.number * em);
    }
    const double least = std::max(wording.widest * em, number_width) + 2 * pad;
    int lines = 1;
    double wide = 0, high = 0;
    for (; lines <= frame_lines_most; ++lines) {
        high = above + cap_depth(canvas_, line.size) + (lines - 1) * line.leading + pad +
               frame_foot_of(canvas_) * em;
        wide = chord(top, top + high);
        if (wide >= least && wording.lines_in((wide - 2 * pad) / em) <= lines) break;
    }
    if (lines > frame_lines_most) {
        below += high;
        wide = std::max(least, radius_);
    }
    line.frame = {centre_.x - wide / 2, top, wide, high};
    line.measure = Measure(wide - 2 * pad);
    line.baseline = top + above + cap_depth(canvas_, line.size);
    return top + high + line.leading - cap_depth(canvas_, line.size);
}

void CircleArrangement::words(Plan& plan, const Sizing& sizing, double gap) const {
    double top = plan.row_bottom + gap * 0.6;
    double below = 0;  // mm of lines that found no room
    for (const auto& block : step_of(contents_.words, sizing).blocks) {
        Line made;
        made.words = &block;
        made.size = std::max(block.lead ? sizing.size * sizing.lead : sizing.size, block.minimum);
        made.leading = sizing.leading * made.size * mm_per_point;
        if (block.framed)
            top = framed(made, sizing, top, below);
        else if (block.part == document::Part::place)
            top = place(made, top, below);
        else
            top = running(made, top, below);
        top += gap * (sizing.run_on == RunOn::parts ? 0.5 : 0.25);
        plan.words.push_back(std::move(made));
    }
    plan.shortfall.height = std::max(plan.shortfall.height, below);
}

CircleArrangement::Plan CircleArrangement::plan(const Sizing& sizing, double spread) const {
    Plan made;
    band(made, signal_size(sizing));
    const double gap = base_gap * canvas_.label.height * spread;
    row(made, sizing, gap);
    words(made, sizing, gap);
    return made;
}

Shortfall CircleArrangement::shortfall(const Sizing& sizing) const {
    return plan(sizing, 1).shortfall;
}

Drawn CircleArrangement::draw(const Sizing& sizing) const {
    double low = 1, high = spread_most;
    for (int i = 0; i < 7; ++i) {
        const double middle = (low + high) / 2;
        (plan(sizing, middle).shortfall.fits() ? low : high) = middle;
    }
    const auto made = plan(sizing, low);
    Drawn drawn;

    // The band: the part of the circle above its lower edge. Two cubics make the arc.
    const double edge = made.band_bottom;
    const double half = half_chord(edge);
    const double start = std::atan2(edge - centre_.y, half);  // angle of the right end
    const double sweep = std::numbers::pi + 2 * start;        // to the left end, over the top
    constexpr int pieces = 4;
    const double step = sweep / pieces;
    const double handle = 4.0 / 3 * std::tan(step / 4);
    const auto on = [&](double angle) {
        return Point{centre_.x + radius_ * std::cos(angle), centre_.y + radius_ * std::sin(angle)};
    };
    Path ground;
    ground.steps.push_back({PathStep::Kind::move, on(start), {}, {}});
    for (int i = 0; i < pieces; ++i) {
        const double from = start - i * step, to = from - step;
        const Point a = on(from), c = on(to);
        const auto along = [&](Point p, double angle, double sign) {
            return Point{p.x + sign * handle * radius_ * std::sin(angle),
                         p.y - sign * handle * radius_ * std::cos(angle)};
        };
        ground.steps.push_back({PathStep::Kind::curve, along(a, from, 1), along(c, to, -1), c});
    }
    ground.steps.push_back({PathStep::Kind::close, {}, {}, {}});
    Item backdrop = item(ground);
    backdrop.backdrop = true;
    backdrop.group = band_kind;
    drawn.items.push_back(std::move(backdrop));

    drawn.right_to_left = canvas_.right_to_left;
    add_band_texts(drawn, BandPlan{0, 0, made.band}, {0, 0});
    if (made.id) {
        drawn.ids.push_back(*made.id);
        drawn.id_colours.push_back(black);
    }
    if (made.code) drawn.codes.push_back(*made.code);
    if (made.caption)
        add_wording(drawn, *step_of(contents_.words, sizing).caption, document::Part::caption,
                    made.caption->size, made.caption->leading, made.caption->measure_left,
                    made.caption->measure, made.caption->baseline, Alignment::centre, true);
    for (const auto& line : made.words) {
        const double left = centre_.x - line.measure.width / 2;
        if (line.words->part == document::Part::place) {
            drawn.places.push_back(
                {line.size, line.leading, left, line.measure, line.baseline, Alignment::centre});
            continue;
        }
        add_wording(drawn, line.words->wording, line.words->part, line.size, line.leading, left,
                    line.measure, line.baseline, Alignment::centre);
        if (line.frame.width <= 0) continue;
        drawn.items.push_back(
            frame({line.frame.x + frame_line_mm / 2, line.frame.y + frame_line_mm / 2,
                   line.frame.width - frame_line_mm, line.frame.height - frame_line_mm}));
        if (line.number > 0)
            add_wording(drawn, contents_.words.number->wordings.front(), document::Part::number,
                        line.number, line.leading, left, line.measure, line.number_baseline,
                        Alignment::centre);
    }
    if (canvas_.right_to_left) mirror(drawn, canvas_.label.width);
    for (std::size_t i = 0; i < made.pictograms.size(); ++i) {
        const Point& at = made.pictograms[i];
        const double wide = pictogram_extent(sizing.pictogram);
        add_pictograms(drawn, contents_.pictograms[i],
                       {mirrored(canvas_, at.x, wide, canvas_.label.width), at.y},
                       sizing.pictogram);
    }
    return drawn;
}

}  // namespace gallipot::layout
