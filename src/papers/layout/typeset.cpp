#include "papers/layout/typeset.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

#include "base/diag/utf8.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/text/direction.hpp"

namespace gallipot::layout {

namespace {

/// Enough of a word to find it by.
std::string shortened(const std::string& word) {
    constexpr std::size_t maximum = 40;
    std::size_t bytes = 0;
    for (std::size_t i = 0; i < maximum && bytes < word.size(); ++i) {
        bytes += diag::character_at(word, bytes).bytes;
    }
    return bytes < word.size() ? word.substr(0, bytes) + "..." : word;
}

/// A mark without a direction of its own among text from right to left.
std::string seen_from_right(std::string_view mark) {
    return diag::utf8(text::mirrored(diag::character_at(mark, 0).code));
}

}  // namespace

double in_mm(double ems, double size) {
    return ems * size * mm_per_point;
}

text::StyledText in_bold(text::StyledText runs) {
    for (text::Run& run : runs) run.bold = true;
    return runs;
}

Measure Measure::below(int lines) const {
    Measure rest(width);
    if (const auto gone = static_cast<std::ptrdiff_t>(lines); gone < std::ssize(insets))
        rest.insets.assign(insets.begin() + gone, insets.end());
    return rest;
}

Measure Measure::over(double unit) const {
    Measure made(width / unit);
    for (const auto& one : insets) made.insets.push_back({one.left / unit, one.right / unit});
    return made;
}

/// Makes the lines of a TextLayout out of MeasuredText.
class Setter {
  public:
    Setter(const MeasuredText& words, const Measure& measure, const Type& type)
        : words_(words), measure_(measure), type_(type), em_(type.size * mm_per_point) {}

    [[nodiscard]] TextLayout operator()() const {
        TextLayout setting;
        setting.size = type_.size;
        setting.measure = measure_.width;
        setting.leading = std::max(type_.leading * mm_per_point, words_.least_leading() * em_);
        if (words_.least_leading() > 0)
            setting.ink = {words_.ink().above * em_, words_.ink().below * em_};
        Measure ems = measure_.over(em_);
        if (type_.balanced) ems.width = narrowest(ems);
        for (const MeasuredText::Line& line : words_.break_lines(ems)) {
            const double width = line.width * em_;
            const double spare = measure_.at(setting.lines) - width;
            const double left =
                measure_.start(setting.lines) + (type_.alignment == Alignment::left     ? 0
                                                 : type_.alignment == Alignment::centre ? spare / 2
                                                                                        : spare);
            add_line(setting, line, {left, setting.lines * setting.leading});
            setting.width = std::max(setting.width, width);
            setting.last_line_width = width;
            ++setting.lines;
        }
        return setting;
    }

  private:
    /// The narrowest measure that takes no more lines than `ems` does.
    [[nodiscard]] double narrowest(Measure ems) const {
        const int lines = words_.lines_in(ems);
        if (lines < 2) return ems.width;
        const auto fits = [&](double width) {
            ems.width = width;
            return words_.lines_in(ems) <= lines;
        };
        double low = words_.widest();
        double high = ems.width;
        if (fits(low)) return low;
        while (high - low > 0.01) {
            const double middle = (low + high) / 2;
            (fits(middle) ? high : low) = middle;
        }
        return high;
    }

    /// A stretch of a line in one font and direction.
    struct Stretch {
        std::uint32_t begin = 0, end = 0;  ///< bytes of the text
        const MeasuredText::Span* span = nullptr;
        bool right_to_left = false;
    };

    /// The stretches of a line, from left to right as they are seen.
    [[nodiscard]] std::vector<Stretch> stretches(std::uint32_t begin, std::uint32_t end) const {
        std::vector<text::DirectionRun> runs{{begin, end, false}};
        if (words_.right_to_left_)
            runs = runs = text::visual_runs(words_.text_, begin, end, words_.begins_at_right_);
        std::vector<Stretch> all;
        for (const text::DirectionRun& run : runs) {
            const auto from = static_cast<std::uint32_t>(run.begin);
            const auto to = static_cast<std::uint32_t>(run.end);
            const std::size_t first = all.size();
            std::uint32_t at = from;
            for (const MeasuredText::Span& span : words_.spans_) {
                if (span.end <= at) continue;
                if (at >= to) break;
                const std::uint32_t until = std::min(span.end, to);
                while (at < until) {
                    // Marks in a face stand one by one, so that they are read in their order.
                    const auto next = run.right_to_left && !span.other ? behind(at) : until;
                    all.push_back({at, next, &span, run.right_to_left});
                    at = next;
                }
            }
            if (run.right_to_left)
                std::reverse(all.begin() + static_cast<std::ptrdiff_t>(first), all.end());
        }
        return all;
    }

    [[nodiscard]] std::uint32_t behind(std::uint32_t at) const {
        return at + static_cast<std::uint32_t>(diag::character_at(words_.text_, at).bytes);
    }

    void add_line(TextLayout& setting, const MeasuredText::Line& line, Point origin) const {
        const MeasuredText::Piece& last = words_.pieces_[line.last];
        std::vector<std::uint32_t> begins;  // of the items made
        for (const Stretch& stretch : stretches(words_.pieces_[line.first].begin, last.end)) {
            std::string text = words_.text_.substr(stretch.begin, stretch.end - stretch.begin);
            if (words_.right_to_left_) text = text::without_isolates(std::move(text));
            if (text.empty()) continue;
            const bool ends_line = stretch.end == last.end;
            if (ends_line && last.hyphen > 0) text += line_end_hyphen;
            origin.x += add_text(setting, std::move(text), stretch, origin);
            Text& made = std::get<Text>(setting.items.back().shape);
            made.language = stretch.span->language;
            made.goes_on = !begins.empty();
            made.space_after = ends_line && last.next > last.end;
            begins.push_back(stretch.begin);
        }
        if (words_.right_to_left_) put_in_reading_order(setting.items, begins);
    }

    /// The line's items, which are the last ones and begin there in the text, as they are read
    /// wherever they stand.
    static void put_in_reading_order(std::vector<Item>& items,
                                     const std::vector<std::uint32_t>& begins) {
        std::vector<std::pair<std::uint32_t, Item>> line;
        const std::size_t first = items.size() - begins.size();
        for (std::size_t i = 0; i < begins.size(); ++i)
            line.emplace_back(begins[i], std::move(items[first + i]));
        std::ranges::sort(line, {}, &std::pair<std::uint32_t, Item>::first);
        for (std::size_t i = 0; i < line.size(); ++i) {
            std::get<Text>(line[i].second.shape).goes_on = i > 0;
            items[first + i] = std::move(line[i].second);
        }
    }

    double add_text(TextLayout& setting, std::string text, const Stretch& stretch,
                    Point origin) const {
        const Face face = stretch.span->face;
        std::shared_ptr<const fonts::Shaped> shaped;
        fonts::Extent extent;
        std::string read_as;
        if (stretch.span->other) {
            shaped = std::make_shared<const fonts::Shaped>(words_.shape(*stretch.span, text));
            extent = {shaped->advance, shaped->ink};
        } else {
            if (stretch.right_to_left)
                if (std::string seen = seen_from_right(text); seen != text)
                    read_as = std::exchange(text, std::move(seen));
            extent = words_.font(face).extent(text);
        }
        Text made{origin,          type_.size,           face, type_.colour,
                  std::move(text), extent.advance * em_, {}};
        made.shaped = std::move(shaped);
        made.read_as = std::move(read_as);
        Item item;
        item.bounds = {origin.x, origin.y - extent.ink.above * em_, made.width,
                       (extent.ink.above + extent.ink.below) * em_};
        const double width = made.width;
        item.shape = std::move(made);
        setting.items.push_back(std::move(item));
        return width;
    }

    const MeasuredText& words_;
    Measure measure_;
    const Type& type_;
    double em_;
};

TextLayout set(const MeasuredText& words, const Measure& measure, const Type& type,
               std::string_view what) {
    const double needed = in_mm(words.widest(), type.size);
    const double narrowest = measure.at(0);
    if (needed > narrowest + 1e-6) {
        const std::string problem = fmt::format(
            "'{}' is {:.1f} mm wide at {:g} pt and its space {:.1f} mm, {:.1f} mm less",
            shortened(words.widest_word()), needed, type.size, narrowest, needed - narrowest);
        const std::string remedy =
            fmt::format("write it shorter or with a soft hyphen, or give it {:.1f} mm", needed);
        throw LayoutError({{std::string(what),
                            problem,
                            remedy,
                            needed,
                            narrowest,
                            {},
                            std::string(words.widest_word())}});
    }
    return Setter(words, measure, type)();
}

TextLayout set(const text::StyledText& runs, double measure, const Type& type,
               std::string_view what, const fonts::Faces& faces, const std::string& language) {
    return set(MeasuredText(runs, faces, language, what), measure, type, what);
}

void place(Page& page, const TextLayout& setting, Point origin, int group) {
    for (const Item& item : setting.items) {
        page.items.push_back(item);
        Item& placed = page.items.back();
        move(placed, origin.x, origin.y);
        placed.group = group;
    }
}

}  // namespace gallipot::layout
