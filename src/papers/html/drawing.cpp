#include "papers/html/drawing.hpp"

#include <fmt/format.h>

namespace gallipot::html {

namespace {

using layout::Colour;

/// Millimetres to a hundredth, without needless zeros.
std::string number(double value) {
    std::string text = fmt::format("{:.2f}", value);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

std::string colour(const Colour& of) {
    return fmt::format("#{:02x}{:02x}{:02x}", of.r, of.g, of.b);
}

/// A soft hyphen at a line's end is drawn on paper; a browser would leave it out.
std::string with_hyphen(std::string text) {
    constexpr std::string_view soft = "\u00AD";
    if (text.ends_with(soft)) text.replace(text.size() - soft.size(), soft.size(), "-");
    return text;
}

/// Shapes of a page as elements of SVG.
class Shapes {
  public:
    Html operator()(const layout::Text& text) const {
        // As wide as it was measured, whatever font the reader has.
        Attributes attributes{{"x", number(text.origin.x)},
                              {"y", number(text.origin.y)},
                              {"font-size", number(text.size * layout::mm_per_point)},
                              {"fill", colour(text.colour)}};
        if (text.width > 0) {
            attributes.push_back({"textLength", number(text.width)});
            attributes.push_back({"lengthAdjust", "spacingAndGlyphs"});
        }
        if (text.face == layout::Face::bold) attributes.push_back({"font-weight", "bold"});
        return element("text", attributes, {with_hyphen(text.text)});
    }
    Html operator()(const layout::Line& line) const {
        return lone("line", {{"x1", number(line.from.x)},
                             {"y1", number(line.from.y)},
                             {"x2", number(line.to.x)},
                             {"y2", number(line.to.y)},
                             {"stroke", colour(line.colour)},
                             {"stroke-width", number(line.width)}});
    }
    Html operator()(const layout::Rectangle& rectangle) const {
        Attributes attributes{{"x", number(rectangle.box.x)},
                              {"y", number(rectangle.box.y)},
                              {"width", number(rectangle.box.width)},
                              {"height", number(rectangle.box.height)}};
        if (rectangle.radius > 0) attributes.push_back({"rx", number(rectangle.radius)});
        paint(attributes, rectangle.filled, rectangle.colour, rectangle.line_width);
        return lone("rect", attributes);
    }
    Html operator()(const layout::Path& path) const {
        std::string steps;
        const auto add = [&](const char* letter, std::initializer_list<layout::Point> points) {
            steps += letter;
            for (const auto& at : points) steps += number(at.x) + " " + number(at.y) + " ";
        };
        for (const auto& step : path.steps) {
            switch (step.kind) {
                case layout::PathStep::Kind::move:
                    add("M", {step.a});
                    break;
                case layout::PathStep::Kind::line:
                    add("L", {step.a});
                    break;
                case layout::PathStep::Kind::curve:
                    add("C", {step.a, step.b, step.c});
                    break;
                case layout::PathStep::Kind::close:
                    add("Z", {});
                    break;
            }
        }
        Attributes attributes{{"d", steps}, {"fill-rule", "evenodd"}};
        paint(attributes, path.filled, path.colour, path.line_width);
        return lone("path", attributes);
    }
    Html operator()(const layout::Code& code) const {
        const double module = code.box.width / code.symbol->modules;
        std::string steps;
        for (int row = 0; row < code.symbol->modules; ++row)
            for (int column = 0; column < code.symbol->modules; ++column)
                if (code.symbol
                        ->dark[static_cast<std::size_t>(row * code.symbol->modules + column)])
                    steps += fmt::format("M{} {}h{}v{}h-{}z", number(code.box.x + column * module),
                                         number(code.box.y + row * module), number(module),
                                         number(module), number(module));
        return lone("path", {{"d", steps}, {"fill", colour(layout::black)}});
    }

  private:
    static void paint(Attributes& attributes, bool filled, const Colour& with, double line) {
        attributes.push_back({"fill", filled ? colour(with) : "none"});
        if (filled) return;
        attributes.push_back({"stroke", colour(with)});
        attributes.push_back({"stroke-width", number(line)});
    }
};

}  // namespace

Html drawing(const layout::LineBoxes& boxes, double width, const std::string& alternative) {
    Html shapes;
    double top = 0;
    for (const auto& box : boxes) {
        if (&box != &boxes.front()) top += box.before;
        for (layout::Item item : box.items) {
            layout::move(item, 0, top);
            shapes += std::visit(Shapes(), item.shape);
        }
        top += box.height;
    }
    Attributes attributes{{"viewBox", "0 0 " + number(width) + " " + number(top)}};
    if (alternative.empty())
        attributes.push_back({"aria-hidden", "true"});
    else
        attributes.insert(attributes.end(), {{"role", "img"}, {"aria-label", alternative}});
    return element("svg", attributes, {shapes});
}

}  // namespace gallipot::html
