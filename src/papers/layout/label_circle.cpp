#include "papers/layout/label_circle.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "papers/layout/pictogram.hpp"
#include "papers/qr/symbol.hpp"

namespace gallipot::layout {

namespace {

constexpr double lines_factor = 0.72;  // NOT FOOD over the signal word
constexpr double id_factor = 1.15;     // number over the signal word
constexpr double id_air = 0.5;         // above a number that stands alone, over its capitals
constexpr double base_gap = 0.02;      // space between parts, of the diameter
constexpr double spread_most = 2.2;    // how far spare room spreads those spaces
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
    const auto add = [&](const SetPart& part, double size) {
        for (const auto& line : part.wordings.front().lines) {
            const double width = in_mm(line->unbroken(), size);
            const double cap = cap_depth(canvas_, size);
            // No higher than where the circle is wide enough for it.
            const double reach = radius_ * radius_ - (width / 2 + pad) * (width / 2 + pad);
            plan.shortfall.width = std::max(plan.shortfall.width, width + 2 * pad - 2 * radius_);
            const double highest = centre_.y - std::sqrt(std::max(0.0, reach)) + cap;
            const double next = plan.band.empty() ? highest : baseline + cap + 0.42 * cap;
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
    plan.band_bottom = baseline + 0.35 * signal * mm_per_point;
}

void CircleArrangement::row(Plan& plan, const Sizing& sizing, double gap) const {
    const double zone = contents_.modules > 0 ? qr::quiet_zone * sizing.module : 0;
    const double code = contents_.modules * sizing.module;
    const double extent = pictogram_extent(sizing.pictogram);
    const auto count = static_cast<double>(contents_.pictograms.size());
    const double id_size = contents_.words.id ? std::max(contents_.words.id->minimum,
                                                         id_factor * plan.band.front().size)
                                              : 0;
    const double id = in_mm(contents_.words.id_ems, id_size);
    const double id_cap = cap_depth(canvas_, id_size);

    const double code_room = contents_.modules > 0 ? code + std::max(zone, gap) : 0;
    const double pictogram_room = count > 0 ? count * extent + (count - 1) * gap / 2 + gap : 0;
    const double width = code_room + id + pictogram_room;
    const bool alone = contents_.modules == 0 && contents_.pictograms.empty();
    const double top = plan.band_bottom + std::max({zone, gap, alone ? id_air * id_cap : 0});
    const double height = std::max({code, count > 0 ? extent : 0, id_cap});
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
                           {left, middle - id_cap / 2, id + hair, id_cap},
                           Alignment::centre};
        missing = std::max(missing, reach({left + id, middle - id_cap / 2}, radius_));
        missing = std::max(missing, reach({left + id, middle + id_cap / 2}, radius_));
        left += id + gap;
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
                                middle - id_cap / 2 + line_depth(canvas_, id_size)});
}

void CircleArrangement::words(Plan& plan, const Sizing& sizing, double gap) const {
    double top = plan.row_bottom + gap * 0.6;
    double below = 0;  // mm of lines that found no room
    for (const auto& block : step_of(contents_.words, sizing).blocks) {
        Line made;
        made.words = &block;
        made.size = std::max(block.lead ? sizing.size * sizing.lead : sizing.size, block.minimum);
        const double em = made.size * mm_per_point;
        made.leading = sizing.leading * em;
        const double cap = cap_depth(canvas_, made.size);
        const double depth = line_depth(canvas_, made.size);
        // Each line as wide as the circle is there; below it, as if it went on.
        made.measure = std::max(block.wording.widest * em, radius_);
        for (double line = top; line + depth <= centre_.y + radius_; line += made.leading) {
            const double chord = 2 * std::min(half_chord(line), half_chord(line + depth));
            if (chord < block.wording.widest * em) break;
            const double inset = (made.measure.width - chord) / 2;
            made.measure.insets.push_back({inset, inset});
        }
        const int lines = block.wording.lines_in(made.measure.over(em));
        below += std::max(0, lines - static_cast<int>(made.measure.insets.size())) * made.leading;
        made.baseline = top + cap;
        top += lines * made.leading + gap * (sizing.run_on == RunOn::parts ? 0.5 : 0.25);
        plan.words.push_back(made);
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

    add_band_texts(drawn, BandPlan{0, 0, made.band}, {0, 0});
    if (made.id) {
        drawn.ids.push_back(*made.id);
        drawn.id_colours.push_back(black);
    }
    if (made.code) drawn.codes.push_back(*made.code);
    for (std::size_t i = 0; i < made.pictograms.size(); ++i)
        add_pictograms(drawn, contents_.pictograms[i], made.pictograms[i], sizing.pictogram);
    for (const auto& line : made.words)
        add_wording(drawn, line.words->wording, line.words->part, line.size, line.leading,
                    centre_.x - line.measure.width / 2, line.measure, line.baseline,
                    Alignment::centre);
    return drawn;
}

}  // namespace gallipot::layout
