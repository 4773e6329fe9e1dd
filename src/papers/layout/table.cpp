#include <algorithm>
#include <fmt/format.h>
#include <optional>
#include <stdexcept>
#include <utility>

#include "papers/layout/blocks.hpp"
#include "papers/layout/choices.hpp"
#include "papers/layout/marks.hpp"
#include "papers/layout/share_width.hpp"
#include "papers/layout/tools.hpp"

namespace gallipot::layout {

namespace {

using document::Align;

/// A table measured, to be set in the largest size whose columns fit.
class TableSetter {
  public:
    TableSetter(const document::Table& table, const LayoutContext& context, const std::string& name)
        : table_(table), context_(context), style_(context.style), name_(name) {
        for (const document::Column& column : table.columns) {
            headings_.push_back(&context.words(in_bold(column.heading), heading_name()));
        }
        for (std::size_t r = 0; r < table.rows.size(); ++r) {
            if (table.rows[r].size() > table.columns.size()) {
                throw std::invalid_argument(row_name(r) + " has more cells than columns");
            }
            std::vector<CellWords> row;
            for (const document::Cell& cell : table.rows[r]) {
                row.push_back(
                    {context.words(is_total(r) ? in_bold(cell.text) : cell.text, row_name(r)),
                     context.words(cell.note, row_name(r)), cell.box,
                     Choices(cell.choices, context, name)});
            }
            rows_.push_back(std::move(row));
        }
    }

    [[nodiscard]] LineBoxes operator()() {
        choose_size();
        LineBoxes line_boxes;
        const auto heading = heading_strip();
        if (heading) line_boxes.push_back(*heading);
        for (std::size_t r = 0; r < rows_.size(); ++r) {
            LineBox line_box = row_strip(r);
            line_box.heading = heading;
            // Neither the first nor the last row stands alone on a page.
            if (r == 0 || r + 2 == rows_.size()) line_box.keep = Keep::always;
            if (r + 1 == rows_.size()) line_box.keep = Keep::free;
            line_boxes.push_back(std::move(line_box));
        }
        if (!line_boxes.empty()) line_boxes.front().before = style_.before_table;
        return line_boxes;
    }

  private:
    struct CellWords {
        const MeasuredText &text, &note;
        bool box = false;
        Choices choices;
    };

    [[nodiscard]] std::string heading_name() const { return name_ + ", column headings"; }
    [[nodiscard]] std::string row_name(std::size_t row) const {
        return fmt::format("{}, row {}", name_, row + 1);
    }
    [[nodiscard]] bool is_total(std::size_t row) const {
        return table_.last_row_is_total && row + 1 == table_.rows.size();
    }

    [[nodiscard]] std::vector<ColumnNeed> needs(const Type& type) const {
        std::vector<ColumnNeed> needs(table_.columns.size());
        const auto take = [](ColumnNeed& need, const MeasuredText& words, const Type& set_in,
                             double beside = 0) {
            need.minimum = std::max(need.minimum, beside + in_mm(words.widest(), set_in.size));
            need.natural = std::max(need.natural, beside + in_mm(words.unbroken(), set_in.size));
        };
        for (std::size_t c = 0; c < needs.size(); ++c) {
            needs[c].weight = table_.columns[c].weight;
            needs[c].minimum = needs[c].natural = table_.columns[c].minimum;
            take(needs[c], *headings_[c], style_.small);
            for (const auto& row : rows_) {
                if (c >= row.size()) continue;
                take(needs[c], row[c].text, type, beside_text(row[c]));
                take(needs[c], row[c].note, style_.small, beside_text(row[c]));
                needs[c].minimum = std::max(needs[c].minimum, row[c].choices.widest());
                needs[c].natural = std::max(needs[c].natural, row[c].choices.unbroken());
            }
        }
        return needs;
    }

    /// What the box to tick takes of a cell's width.
    [[nodiscard]] double beside_text(const CellWords& cell) const {
        if (!cell.box) return 0;
        return style_.tick_box + (cell.text.empty() && cell.note.empty() ? 0 : style_.tick_gap);
    }
    [[nodiscard]] double minimum_gutter() const {
        return table_.to_write ? style_.write_gutter : style_.gutter;
    }

    /// Widths by weight and by the choices in the columns, so that tables to write in look alike
    /// all through a paper: those in which the rows are lowest. None where a word would not fit.
    [[nodiscard]] std::optional<std::vector<double>> by_weight(const std::vector<ColumnNeed>& needs,
                                                               double available) {
        constexpr int most_lines = 3;
        auto best = weighed(needs, available);
        if (!best) return best;
        double lowest = height_in(*best);
        for (int lines = 1; lines <= most_lines; ++lines) {
            auto widths = weighed(with_choices_in(lines, needs), available);
            if (!widths) continue;
            const double height = height_in(*widths);
            if (height > lowest - 1e-6) continue;
            lowest = height;
            best = std::move(widths);
        }
        return best;
    }

    /// Of all rows.
    [[nodiscard]] double height_in(const std::vector<double>& widths) {
        widths_ = widths;
        gutter_ = minimum_gutter();
        double sum = 0;
        for (std::size_t r = 0; r < rows_.size(); ++r) sum += row_strip(r).height;
        return sum;
    }

    [[nodiscard]] std::vector<ColumnNeed> with_choices_in(int lines,
                                                          std::vector<ColumnNeed> needs) const {
        for (const auto& row : rows_)
            for (std::size_t c = 0; c < row.size(); ++c)
                needs[c].minimum = std::max(needs[c].minimum, row[c].choices.width_in(lines));
        return needs;
    }

    /// By weight, but for columns that need more.
    [[nodiscard]] static std::optional<std::vector<double>> weighed(
        const std::vector<ColumnNeed>& needs, double available) {
        std::vector<double> widths(needs.size(), 0);
        std::vector<bool> fixed(needs.size(), false);
        for (bool again = true; again;) {
            again = false;
            double weights = 0, room = available;
            for (std::size_t c = 0; c < needs.size(); ++c)
                (fixed[c] ? room : weights) += fixed[c] ? -needs[c].minimum : needs[c].weight;
            for (std::size_t c = 0; c < needs.size(); ++c) {
                if (fixed[c]) continue;
                widths[c] = weights > 0 ? room * needs[c].weight / weights : 0;
                if (widths[c] >= needs[c].minimum) continue;
                widths[c] = needs[c].minimum;
                fixed[c] = again = true;
            }
        }
        double sum = 0;
        for (const double width : widths) sum += width;
        if (sum > available + 1e-6) return std::nullopt;
        return widths;
    }

    void choose_size() {
        const auto gaps = static_cast<double>(table_.columns.size()) - 1;
        const double available = style_.width() - gaps * minimum_gutter();
        for (const Type& type : {style_.normal, style_.small}) {
            const std::vector<ColumnNeed> wanted = needs(type);
            type_ = type;
            auto widths = table_.to_write ? by_weight(wanted, available) : std::nullopt;
            if (!widths) widths = share_width(wanted, available);
            if (widths) {
                widths_ = std::move(*widths);
                double used = 0;
                for (const double width : widths_) used += width;
                // Without weights the spare width goes between the columns.
                gutter_ = minimum_gutter();
                if (gaps > 0) gutter_ += std::max(available - used, 0.0) / gaps;
                return;
            }
        }
        throw LayoutError({too_wide(available)});
    }

    [[nodiscard]] Overflow too_wide(double available) const {
        const std::vector<ColumnNeed> wanted = needs(style_.small);
        double needed = 0;
        std::string columns;
        std::size_t widest = 0;
        for (std::size_t c = 0; c < wanted.size(); ++c) {
            needed += wanted[c].minimum;
            if (wanted[c].minimum > wanted[widest].minimum) widest = c;
            columns += fmt::format("{}{:.1f} mm for '{}'", c == 0 ? "" : ", ", wanted[c].minimum,
                                   widest_word(c));
        }
        return {name_,
                fmt::format("its columns need {:.1f} mm at {:g} pt and have {:.1f} mm ({})", needed,
                            style_.small.size, available, columns),
                fmt::format("shorten its longest words by {:.1f} mm in all, or use wider paper",
                            needed - available),
                needed,
                available,
                {},
                widest_word(widest)};
    }

    [[nodiscard]] std::string widest_word(std::size_t column) const {
        const MeasuredText* widest = headings_[column];
        for (const auto& row : rows_) {
            if (column >= row.size()) continue;
            for (const MeasuredText* words : {&row[column].text, &row[column].note}) {
                if (words->widest() > widest->widest()) widest = words;
            }
        }
        return widest->widest_word();
    }

    [[nodiscard]] Type aligned(Type type, std::size_t column) const {
        if (table_.columns[column].align == Align::right) type.alignment = Alignment::right;
        return type;
    }

    [[nodiscard]] std::shared_ptr<const LineBox> heading_strip() const {
        const bool none = std::all_of(headings_.begin(), headings_.end(),
                                      [](const MeasuredText* words) { return words->empty(); });
        if (none) return nullptr;
        std::vector<TextLayout> settings;
        double height = 0;
        for (std::size_t c = 0; c < headings_.size(); ++c) {
            const Type type = aligned(style_.small, c);
            settings.push_back(set(*headings_[c], widths_[c], type, heading_name()));
            height = std::max(height, settings.back().lines * settings.back().leading);
        }
        auto line_box = std::make_shared<LineBox>();
        line_box->name = heading_name();
        line_box->keep = Keep::always;
        const int row = begin_row(*line_box);
        double left = 0;
        for (std::size_t c = 0; c < settings.size(); ++c) {
            const double top = height - settings[c].lines * settings[c].leading;
            begin(*line_box, Role::column_heading, row);
            add(*line_box, settings[c], {left, top}, context_);
            left += widths_[c] + gutter_;
        }
        line_box->height = height + style_.cell_pad / 2;
        line_box->items.push_back(
            level_line(0, style_.width(), line_box->height, style_.thin_rule, black));
        return line_box;
    }

    /// The tag of a row, in that of the table.
    [[nodiscard]] int begin_row(LineBox& line_box) const {
        return begin(line_box, Role::row, begin(line_box, Role::table, -1, name_));
    }

    /// Where the first filled cell of the next row begins: what stands in the columns before it
    /// goes on, so no line parts it.
    [[nodiscard]] double row_below_begins(std::size_t r) const {
        double left = 0;
        if (r + 1 >= rows_.size() || is_total(r + 1)) return left;
        for (std::size_t c = 0; c < rows_[r + 1].size(); ++c) {
            if (!rows_[r + 1][c].text.empty() || !rows_[r + 1][c].note.empty()) return left;
            left += widths_[c] + gutter_;
        }
        return 0;
    }

    void add_box(LineBox& line_box, double left, double top) const {
        const double cap = in_mm(context_.faces.regular->cap_height(), type_.size);
        const double middle = top + context_.baseline(type_) - cap / 2;
        const Box box{left + style_.tick_line / 2, middle - style_.tick_box / 2,
                      style_.tick_box - style_.tick_line, style_.tick_box};
        line_box.items.push_back(item(Rectangle{box, false, black, style_.tick_line}));
    }

    /// The figures as a line as high as the type, a point at the last of them.
    void add_series(LineBox& line_box, const std::vector<double>& series, double left, double top,
                    double width) const {
        if (series.empty()) return;
        const double highest = std::max(*std::max_element(series.begin(), series.end()), 1.0);
        const double base = top + context_.baseline(type_);
        const double height = in_mm(context_.faces.regular->cap_height(), type_.size);
        const double margin = style_.plot_mark / 2;
        const double step =
            series.size() < 2 ? 0 : (width - 2 * margin) / (static_cast<double>(series.size()) - 1);
        Path path;
        path.filled = false;
        path.line_width = style_.plot_thin;
        Point at{};
        for (std::size_t i = 0; i < series.size(); ++i) {
            at = {left + margin + static_cast<double>(i) * step,
                  base - height * series[i] / highest};
            path.steps.push_back(
                {i == 0 ? PathStep::Kind::move : PathStep::Kind::line, at, {}, {}});
        }
        const std::size_t first = line_box.items.size();
        line_box.items.push_back(
            item(Line{{left, base}, {left + width, base}, style_.hairline, hairline}));
        if (series.size() > 1) add_shape(line_box, item(path), true);
        add_mark(line_box, document::Mark::disc, at, style_.plot_mark / 2);
        make_figure(line_box, first, fmt::format("{:.6g}", fmt::join(series, ", ")), line_box.tag);
    }

    /// Lines down the middle of the gutters.
    void add_uprights(LineBox& line_box) const {
        double right = 0;
        for (std::size_t c = 0; c + 1 < widths_.size(); ++c) {
            right += widths_[c] + gutter_ / 2;
            line_box.items.push_back(
                item(Line{{right, 0}, {right, line_box.height}, style_.hairline, hairline}));
            right += gutter_ / 2;
        }
    }

    /// After the words of a cell where there is room on their line, else below; where they end.
    double add_tools(LineBox& line_box, std::size_t r, std::size_t c, double left,
                     const TextLayout& text, double below) const {
        const auto& tools = table_.rows[r][c].tools;
        if (tools.empty()) return 0;
        constexpr double gap = 4;
        const double room = left + widths_[c];
        const auto put = [&](const ToolsLayout& setting, double x, double y) {
            for (Item item : setting.items) {
                move(item, x, y);
                if (std::holds_alternative<Text>(item.shape)) item.tag = line_box.tag;
                line_box.items.push_back(std::move(item));
            }
            return y + setting.height;
        };
        const double after = left + text.width + gap;
        const ToolsLayout beside = text.lines > 1
                                       ? ToolsLayout{}
                                       : set_tools(tools, room - after, context_, line_box.name);
        const ToolsLayout alone = set_tools(tools, widths_[c], context_, line_box.name);
        // On a line of its own where that shows more of them, or takes fewer rows.
        const double line = type_.leading * mm_per_point;
        if (!beside.items.empty() && beside.items.size() >= alone.items.size() &&
            beside.height <= alone.height)
            return put(beside, after, style_.cell_pad + (line - beside.height) / 2);
        return put(alone, left, below + style_.cell_pad / 2);
    }

    /// The note of a cell, its first line behind the text, where it may and that saves a line.
    [[nodiscard]] std::optional<TextLayout> note_beside(std::size_t r, std::size_t c,
                                                        const TextLayout& text, const Type& type,
                                                        const std::string& name) const {
        const MeasuredText& words = rows_[r][c].note;
        if (!table_.rows[r][c].note_beside || text.lines != 1 || words.empty()) return std::nullopt;
        Measure measure(widths_[c]);
        measure.insets = {{text.width + style_.tick_gap, 0}};
        if (in_mm(words.widest(), type.size) > measure.at(0)) return std::nullopt;
        TextLayout beside = layout::set(words, measure, type, name);
        if (beside.lines > layout::set(words, widths_[c], type, name).lines) return std::nullopt;
        return beside;
    }

    [[nodiscard]] LineBox row_strip(std::size_t r) const {
        LineBox line_box;
        line_box.name = row_name(r);
        if (table_.leads_to_chapters) line_box.leads_to = static_cast<int>(r) + 1;
        Type note_type = style_.small;
        note_type.colour = quiet;
        const int row = begin_row(line_box);
        double left = 0;
        double bottom = 0;
        for (std::size_t c = 0; c < rows_[r].size(); ++c) {
            double top = style_.cell_pad;
            begin(line_box, Role::cell, row);
            const Type type = aligned(type_, c);
            const double indent = beside_text(rows_[r][c]);
            if (rows_[r][c].box) add_box(line_box, left, top);
            add_series(line_box, table_.rows[r][c].series, left, top, widths_[c]);
            const TextLayout text = set(rows_[r][c].text, widths_[c] - indent, type, line_box.name);
            add(line_box, text, {left + indent, top}, context_);
            top += text.lines * text.leading;
            const Type small = aligned(note_type, c);
            // A note alone stands on the row's baseline, and so does one beside the text.
            const auto beside = note_beside(r, c, text, small, line_box.name);
            if (beside) top -= text.leading;
            if (beside || (text.lines == 0 && !rows_[r][c].note.empty()))
                top += context_.baseline(type_) - context_.baseline(small);
            const TextLayout note =
                beside ? *beside : set(rows_[r][c].note, widths_[c] - indent, small, line_box.name);
            add(line_box, note, {left + indent, top}, context_);
            top += note.lines * note.leading;
            if (!rows_[r][c].choices.empty())
                top += rows_[r][c].choices.add_to(line_box, {left, top}, widths_[c]);
            top = std::max(top, add_tools(line_box, r, c, left + indent, text, top));
            bottom = std::max(bottom, top);
            left += widths_[c] + gutter_;
        }
        // So that every row has a cell for each column.
        for (std::size_t c = rows_[r].size(); c < widths_.size(); ++c)
            begin(line_box, Role::cell, row);
        bottom = std::max(bottom, style_.cell_pad + type_.leading * mm_per_point);
        line_box.height = bottom + style_.cell_pad;
        if (table_.to_write) {
            line_box.height = std::max(line_box.height, style_.write_row);
            add_uprights(line_box);
        }
        const bool before_total = is_total(r + 1);
        line_box.items.push_back(level_line(row_below_begins(r), style_.width(), line_box.height,
                                            before_total ? style_.thin_rule : style_.hairline,
                                            before_total ? black : hairline));
        return line_box;
    }

    const document::Table& table_;
    const LayoutContext& context_;
    const PageStyle& style_;
    const std::string& name_;
    std::vector<const MeasuredText*> headings_;
    std::vector<std::vector<CellWords>> rows_;
    Type type_;
    std::vector<double> widths_;
    double gutter_ = 0;
};

}  // namespace

LineBoxes line_boxes_of(const document::Table& table, const LayoutContext& context,
                        const std::string& name) {
    if (table.columns.empty()) return {};
    return TableSetter(table, context, name)();
}

LineBoxes line_boxes_of(const document::FillIn& fill_in, const LayoutContext& context,
                        const std::string& name) {
    const PageStyle& style = context.style;
    if (fill_in.columns.empty()) return {};
    const Type& type = style.small;
    // Room for a few written figures even where nothing is said.
    constexpr double minimum_written = 16;
    std::vector<const MeasuredText*> headings;
    std::vector<ColumnNeed> needs;
    for (const document::Column& column : fill_in.columns) {
        const MeasuredText& words = context.words(in_bold(column.heading), name);
        headings.push_back(&words);
        needs.push_back({std::max(in_mm(words.widest(), type.size), minimum_written),
                         std::max(in_mm(words.unbroken(), type.size), minimum_written),
                         column.weight});
    }
    const bool weighted = std::any_of(needs.begin(), needs.end(),
                                      [](const ColumnNeed& need) { return need.weight > 0; });
    for (ColumnNeed& need : needs) need.weight = weighted ? need.weight : 1;
    const double available = style.width() - (static_cast<double>(needs.size()) - 1) * style.gutter;
    const auto widths = share_width(needs, available);
    if (!widths) {
        double needed = 0;
        for (const ColumnNeed& need : needs) needed += need.minimum;
        throw LayoutError({{name,
                            fmt::format("its columns need {:.1f} mm at {:g} pt and have {:.1f} mm",
                                        needed, type.size, available),
                            "leave a column out or shorten its heading", needed, available}});
    }

    LineBox heading;
    heading.name = name;
    heading.before = style.before_fill_in;
    heading.keep = Keep::always;
    LineBox line;
    line.name = name;
    line.height = style.write_line;
    double left = 0;
    double height = 0;
    std::vector<TextLayout> settings;
    for (std::size_t c = 0; c < headings.size(); ++c) {
        settings.push_back(set(*headings[c], (*widths)[c], type, name));
        height = std::max(height, settings.back().lines * settings.back().leading);
    }
    for (std::size_t c = 0; c < headings.size(); ++c) {
        const double top = height - settings[c].lines * settings[c].leading;
        begin(heading, Role::paragraph);
        add(heading, settings[c], {left, top}, context);
        line.items.push_back(
            level_line(left, left + (*widths)[c], line.height, style.thin_rule, quiet));
        left += (*widths)[c] + style.gutter;
    }
    heading.height = height;

    LineBoxes line_boxes{heading};
    const auto repeated = std::make_shared<const LineBox>(heading);
    for (int i = 0; i < fill_in.lines; ++i) {
        line_boxes.push_back(line);
        line_boxes.back().heading = repeated;
    }
    return line_boxes;
}

}  // namespace gallipot::layout
