#include "papers/layout/label_band.hpp"

#include <algorithm>
#include <optional>

namespace gallipot::layout {

namespace {

// Proportions of the band, in its height. Common practice in lettering, no source: capitals take
// a good half of a bar they stand in.
constexpr double capitals = 0.54;    // of the large words
constexpr double stack = 0.72;       // of lines over one another, first capitals to last baseline
constexpr double between = 0.42;     // of those lines, over the height of their capitals
constexpr double inside = 0.96;      // of the band, that ink may reach
constexpr double apart = 0.05;       // clear between the ink of such lines, in ems
constexpr double side = 0.30;        // clear space at both ends
constexpr double gap = 0.38;         // between neighbours
constexpr double cap_ratio = 0.714;  // of a capital to its size; only spacing depends on it
/// Lines over one another are set to the same width, but none larger than this over the smallest.
constexpr double usual_beyond = 0.26;  // ems that accents and tails reach beyond capitals
constexpr double widened_most = 1.45;

/// Beyond this, or this share of the signal word's size wished for, NOT FOOD need not grow before a
/// form that says more in fewer rows is better.
constexpr double preferred_stack = 9;
constexpr double preferred_share = 0.6;
constexpr double id_share = 0.6;  // of the width to spare that the number may take
constexpr double higher = 1.3;    // a band of two rows over one of one row
constexpr double hair = 0.01;     // mm: room for rounding

const Block& block(const SetPart& part, int wording) {
    return part.blocks[static_cast<std::size_t>(wording)];
}

/// Words of the band as they will be set: which of them large, which over one another.
struct Row {
    const SetPart* large = nullptr;  // at the left
    int large_wording = 0;
    const SetPart* lines = nullptr;  // beside it, over one another
    int lines_wording = 0;
    bool id = false;  // at the right
};

struct Sizes {
    double large = 0, lines = 0;  // points
};

/// As large as its ink stays inside a band of that height, in points.
double within(double height, const Block& words) {
    return inside * height / (words.height + 2 * words.beyond) / mm_per_point;
}

Sizes sizes_at(double height, const Row& row) {
    Sizes sizes;
    sizes.large = capitals * height / cap_ratio / mm_per_point;
    const auto at_most = [&](const Block& words) {
        return std::min(
            {sizes.large, stack * height / words.height / mm_per_point, within(height, words)});
    };
    if (row.large != nullptr) sizes.large = at_most(block(*row.large, row.large_wording));
    if (row.lines != nullptr) sizes.lines = at_most(block(*row.lines, row.lines_wording));
    return sizes;
}

double width_at(double height, const Row& row, const LabelWords& label) {
    const auto sizes = sizes_at(height, row);
    double width = 2 * side * height;
    int neighbours = 0;
    if (row.large != nullptr) {
        width += in_mm(block(*row.large, row.large_wording).width, sizes.large);
        ++neighbours;
    }
    if (row.lines != nullptr) {
        width += in_mm(block(*row.lines, row.lines_wording).width, sizes.lines);
        ++neighbours;
    }
    if (row.id) {
        width += in_mm(label.id_ems, sizes.large);
        ++neighbours;
    }
    return width + std::max(0, neighbours - 1) * gap * height;
}

/// The greatest height up to `most` at which the row is no wider than `width`: all of it grows in
/// proportion.
double height_for(const Row& row, const LabelWords& label, double width, double maximum) {
    const double wide = width_at(1, row, label);
    return std::min(maximum, width / wide);
}

/// The least height at which every size is permitted.
double minimum_height(const Row& row, const LabelWords& label) {
    const auto unit = sizes_at(1, row);
    double minimum = 0;
    if (row.large != nullptr) minimum = std::max(minimum, row.large->minimum / unit.large);
    if (row.lines != nullptr) minimum = std::max(minimum, row.lines->minimum / unit.lines);
    if (row.id) minimum = std::max(minimum, label.id->minimum / unit.large);
    return minimum;
}

void add_block(BandPlan& plan, const SetPart& part, int wording, double size, Box room,
               Alignment alignment) {
    const auto& lines = part.wordings[static_cast<std::size_t>(wording)].lines;
    const auto& made = block(part, wording);
    const double em = size * mm_per_point;
    const double top = room.y + (room.height - made.height * em) / 2;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const double cap = cap_ratio * made.sizes[i] * em;
        plan.texts.push_back({lines[i],
                              part.part,
                              size * made.sizes[i],
                              {room.x, top + made.tops[i] * em, room.width, cap},
                              alignment});
    }
}

void add_row(BandPlan& plan, const Row& row, const LabelWords& label, double width, double height,
             double top) {
    const auto sizes = sizes_at(height, row);
    double left = side * height;
    double right = width - side * height;
    if (row.id) {
        // Larger than the lines of a signal word in two languages, if there is width to spare.
        const double spare = std::max(0.0, width - width_at(height, row, label));
        const double size = std::max(
            sizes.large, std::min(capitals * height / cap_ratio / mm_per_point,
                                  sizes.large + id_share * spare / in_mm(label.id_ems, 1)));
        const double room = in_mm(label.id_ems, size);
        add_block(plan, *label.id, 0, size, {right - room, top, room, height}, Alignment::right);
        right -= room + gap * height;
    }
    if (row.large != nullptr) {
        const double room = in_mm(block(*row.large, row.large_wording).width, sizes.large);
        add_block(plan, *row.large, row.large_wording, sizes.large,
                  {left, top, room + hair, height}, Alignment::left);
        left += room + gap * height;
    }
    if (row.lines != nullptr) {
        const double room = in_mm(block(*row.lines, row.lines_wording).width, sizes.lines);
        // Midway between its neighbours where there is one on either side.
        const bool midway = row.large != nullptr && row.id;
        const double spare = midway ? right - left - room : 0;
        add_block(plan, *row.lines, row.lines_wording, sizes.lines,
                  {left + spare / 2, top, room + hair, height},
                  midway ? Alignment::centre : Alignment::left);
    }
}

/// One way to set the band, not yet with its texts.
struct Candidate {
    struct Placed {
        Row row;
        double height = 0, top = 0;
    };
    double height = 0;
    double too_wide = 0;
    double smallest = 0;  // points
    std::vector<Placed> rows;
    [[nodiscard]] bool permitted() const { return too_wide < 1e-6; }
};

/// The height at which the signal word is as large as wished, however many lines it has.
double wished_height(const Row& row, double signal_points, double height_at_most) {
    return std::min(signal_points / sizes_at(1, row).large, height_at_most);
}

Candidate one_row(const LabelWords& label, double width, double signal_points,
                  double height_at_most, int wording) {
    Row row;
    row.large = label.signal_word ? &*label.signal_word : nullptr;
    const double maximum = wished_height(row, signal_points, height_at_most);
    row.lines = label.not_food ? &*label.not_food : nullptr;
    row.lines_wording = wording;
    row.id = label.id.has_value();
    const double minimum = minimum_height(row, label);
    const double height = std::max(minimum, height_for(row, label, width, maximum));
    Candidate made;
    made.height = height;
    made.too_wide = std::max(0.0, width_at(height, row, label) - width);
    const auto sizes = sizes_at(height, row);
    made.smallest = row.lines != nullptr ? sizes.lines : sizes.large;
    made.rows = {{row, height, 0}};
    return made;
}

/// Signal word and number above, NOT FOOD below over the whole width.
Candidate two_rows(const LabelWords& label, double width, double signal_points,
                   double height_at_most, int wording) {
    Row above, below;
    above.large = label.signal_word ? &*label.signal_word : nullptr;
    const double maximum = higher * wished_height(above, signal_points, height_at_most);
    above.id = label.id.has_value();
    below.lines = label.not_food ? &*label.not_food : nullptr;
    below.lines_wording = wording;
    const double share = 0.56;  // of the height, for the upper row
    const double minimum =
        std::max(minimum_height(above, label) / share, minimum_height(below, label) / (1 - share));
    const double wide =
        std::min(height_for(above, label, width, maximum * share) / share,
                 height_for(below, label, width, maximum * (1 - share)) / (1 - share));
    const double height = std::max(minimum, wide);
    Candidate made;
    made.height = height;
    made.too_wide = std::max({0.0, width_at(height * share, above, label) - width,
                              width_at(height * (1 - share), below, label) - width});
    made.smallest = sizes_at(height * (1 - share), below).lines;
    // Nearer to each other than they are high, but for marks that reach far.
    const auto reaches = [](const SetPart* part, int at) {
        return part != nullptr && block(*part, at).beyond > usual_beyond;
    };
    const double nearer =
        reaches(above.large, 0) || reaches(below.lines, wording) ? 0 : height * 0.07;
    made.rows = {{above, height * share, nearer * 4 / 7},
                 {below, height * (1 - share), height * share - nearer * 3 / 7}};
    return made;
}

}  // namespace

Block stacked(const SetWording& wording) {
    Block made;
    for (const auto& line : wording.lines) made.width = std::max(made.width, line->unbroken());
    double above = 0;  // capitals of the line above
    double below = 0;  // how far its ink reaches below its baseline
    for (const auto& line : wording.lines) {
        const double size = std::min(made.width / line->unbroken(), widened_most);
        made.sizes.push_back(size);
        const double cap = cap_ratio * size;
        const auto ink = line->ink();
        // Commas below and dots on capitals must not meet.
        if (above > 0)
            made.height += std::max(between * std::min(above, cap),
                                    below + std::max(0.0, ink.above * size - cap) + apart);
        made.tops.push_back(made.height);
        made.height += cap;
        if (above <= 0) made.beyond = ink.above * size - cap;
        above = cap;
        below = ink.below * size;
    }
    made.beyond = std::max({0.0, made.beyond, below});
    return made;
}

BandPlan plan_band(const LabelWords& label, double width, double signal_points,
                   double height_at_most) {
    const double preferred = std::max(preferred_stack, preferred_share * signal_points);
    const auto better = [&](const Candidate& a, const Candidate& b) {
        if (a.permitted() != b.permitted()) return a.permitted();
        if (!a.permitted()) return a.too_wide < b.too_wide - 1e-9;
        const double left = std::min(a.smallest, preferred);
        const double right = std::min(b.smallest, preferred);
        return left > right + 1e-9;
    };
    std::optional<Candidate> best;
    const auto consider = [&](Candidate other) {
        if (!best || better(other, *best)) best = std::move(other);
    };
    const auto wordings = label.not_food ? static_cast<int>(label.not_food->wordings.size()) : 1;
    for (int wording = 0; wording < wordings; ++wording) {
        consider(one_row(label, width, signal_points, height_at_most, wording));
        if (label.not_food && (label.signal_word || label.id))
            consider(two_rows(label, width, signal_points, height_at_most, wording));
    }
    BandPlan plan;
    plan.height = best->height;
    plan.too_wide = best->too_wide;
    for (const auto& [row, height, top] : best->rows) add_row(plan, row, label, width, height, top);
    return plan;
}

}  // namespace gallipot::layout
