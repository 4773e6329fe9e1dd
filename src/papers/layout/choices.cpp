#include "papers/layout/choices.hpp"

#include <algorithm>

namespace gallipot::layout {

Choices::Choices(const std::vector<text::StyledText>& words, const LayoutContext& context,
                 const std::string& name)
    : context_(context), name_(name) {
    for (const text::StyledText& each : words) words_.push_back(&context.words(each, name));
}

double Choices::width(std::size_t i) const {
    const PageStyle& style = context_.style;
    return style.choice_box + style.choice_gap + in_mm(words_[i]->unbroken(), style.small.size);
}

double Choices::widest() const {
    double widest = 0;
    for (std::size_t i = 0; i < words_.size(); ++i) widest = std::max(widest, width(i));
    return widest;
}

double Choices::unbroken() const {
    double sum = 0;
    for (std::size_t i = 0; i < words_.size(); ++i)
        sum += width(i) + (i > 0 ? context_.style.between_choices : 0);
    return sum;
}

int Choices::lines_in(double measure) const {
    int lines = words_.empty() ? 0 : 1;
    double left = 0;
    for (std::size_t i = 0; i < words_.size(); ++i) {
        if (left > 0 && left + width(i) > measure + 1e-6) {
            left = 0;
            ++lines;
        }
        left += width(i) + context_.style.between_choices;
    }
    return lines;
}

double Choices::width_in(int lines) const {
    // As wide as some of them that follow one another.
    double narrowest = unbroken();
    for (std::size_t first = 0; first < words_.size(); ++first) {
        double run = 0;
        for (std::size_t last = first; last < words_.size(); ++last) {
            run += width(last) + (last > first ? context_.style.between_choices : 0);
            if (run >= widest() && run < narrowest && lines_in(run) <= lines) narrowest = run;
        }
    }
    return narrowest;
}

double Choices::add_to(LineBox& line_box, Point top_left, double measure) const {
    const PageStyle& style = context_.style;
    const Type& type = style.small;
    const double leading = std::max(type.leading * mm_per_point, style.choice_box + 0.9);
    const double lift = (leading - type.leading * mm_per_point) / 2;
    double left = 0, top = 0;
    for (std::size_t i = 0; i < words_.size(); ++i) {
        if (left > 0 && left + width(i) > measure + 1e-6) {
            left = 0;
            top += leading;
        }
        const double middle = top + lift + context_.baseline(type) -
                              in_mm(context_.faces.regular->cap_height(), type.size) / 2;
        const double side = style.choice_box - style.tick_line;
        line_box.items.push_back(item(Rectangle{
            {top_left.x + left + style.tick_line / 2, top_left.y + middle - side / 2, side, side},
            false,
            black,
            style.tick_line}));
        const double indent = style.choice_box + style.choice_gap;
        const TextLayout setting =
            context_.set(*words_[i], in_mm(words_[i]->unbroken(), type.size) + 0.01, type, name_);
        add(line_box, setting, {top_left.x + left + indent, top_left.y + top + lift}, context_);
        left += width(i) + style.between_choices;
    }
    return words_.empty() ? 0 : top + leading;
}

}  // namespace gallipot::layout
