#include "papers/layout/tools.hpp"

#include <algorithm>
#include <cmath>

#include "papers/layout/marks.hpp"

namespace gallipot::layout {

namespace {

using document::Tool;

// In millimetres.
constexpr double high = 4.6;  // of a row
constexpr double line = 0.3;
constexpr double apart = 0.9;    // between tools of a kind
constexpr double to_name = 1.0;  // from the last of them to their name
constexpr double to_next = 3.2;  // from there to the next
/// More of one kind are drawn once: their number stands in the words.
constexpr int most = 8;
constexpr Colour content{200, 200, 200};

/// Of a small tool beside the largest of its kind; volume goes with the cube.
double reach(const Tool& tool) {
    return std::max(0.45, std::cbrt(std::clamp(tool.size, 0.0, 1.0)));
}

double width_of(const Tool& tool) {
    switch (tool.kind) {
        case Tool::Kind::scoop:
            return 7.4 * reach(tool);
        case Tool::Kind::jug:
            return 4.6;
        case Tool::Kind::syringe:
            return 6.5;
        case Tool::Kind::scale:
            return 5.6;
    }
    return 0;
}

class Pen {
  public:
    Pen(std::vector<Item>& items, Point at) : items_(items), at_(at) {}

    void block(double x, double y, double width, double height, Colour colour = black,
               double radius = 0) {
        put(item(Rectangle{{at_.x + x, at_.y + y, width, height}, true, colour, 0, radius}));
    }
    void frame(double x, double y, double width, double height, double radius = 0) {
        put(item(Rectangle{{at_.x + x, at_.y + y, width, height}, false, black, line, radius}));
    }
    void stroke(Point from, Point to, double wide = line) {
        put(item(Line{moved(from), moved(to), wide, black}));
    }
    /// The lower half of a disc, its level top from `left` on.
    void bowl(double left, double top, double radius) {
        constexpr double handle = 0.5523;  // of a quarter of a circle by a cubic
        const double k = handle * radius;
        Path path;
        path.steps = {
            {PathStep::Kind::move, moved({left, top}), {}, {}},
            {PathStep::Kind::curve, moved({left, top + k}),
             moved({left + radius - k, top + radius}), moved({left + radius, top + radius})},
            {PathStep::Kind::curve, moved({left + radius + k, top + radius}),
             moved({left + 2 * radius, top + k}), moved({left + 2 * radius, top})},
            {PathStep::Kind::close, {}, {}, {}}};
        put(item(path));
    }

  private:
    [[nodiscard]] Point moved(Point p) const { return {at_.x + p.x, at_.y + p.y}; }
    void put(Item made) {
        made.backdrop = true;
        items_.push_back(std::move(made));
    }

    std::vector<Item>& items_;
    Point at_;
};

void draw(const Tool& tool, std::vector<Item>& items, Point at) {
    Pen pen(items, at);
    const double filled = std::clamp(tool.filled, 0.0, 1.0);
    switch (tool.kind) {
        case Tool::Kind::scoop: {
            const double radius = 1.75 * reach(tool), top = high - 0.6 - radius;
            pen.bowl(0, top, radius);
            pen.stroke({2 * radius - 0.2, top + 0.25}, {4.2 * radius, top - 0.5 * radius}, 0.6);
            break;
        }
        case Tool::Kind::jug: {
            const double top = 0.4, bottom = high - 0.3, deep = bottom - top;
            pen.block(0.2, bottom - filled * deep, 3.0, filled * deep, content);
            pen.frame(0.2, top, 3.0, deep, 0.3);
            pen.stroke({0.2, bottom - filled * deep}, {3.2, bottom - filled * deep}, 0.5);
            pen.frame(3.2, top + 0.9, 1.1, deep - 2.0, 0.5);
            break;
        }
        case Tool::Kind::syringe:
            pen.block(1.0, high / 2 - 0.7, 3.6 * filled, 1.4, content);
            pen.frame(1.0, high / 2 - 0.7, 3.6, 1.4);
            pen.stroke({4.6, high / 2}, {6.3, high / 2});
            pen.stroke({0.2, high / 2}, {1.0, high / 2});
            pen.stroke({0.2, high / 2 - 0.8}, {0.2, high / 2 + 0.8});
            break;
        case Tool::Kind::scale:
            pen.stroke({0.2, 1.5}, {5.4, 1.5}, 0.5);
            pen.stroke({2.8, 1.5}, {2.8, 2.4}, 0.5);
            pen.block(0.7, 2.4, 4.2, high - 2.7, black, 0.4);
            pen.block(1.8, 2.9, 2.0, 0.8, white);
            break;
    }
}

}  // namespace

ToolsLayout set_tools(const std::vector<Tool>& tools, double width, const LayoutContext& context,
                      const std::string& name) {
    ToolsLayout made;
    if (tools.empty()) return made;
    const Type& type = context.style.small;
    double left = 0, top = 0;
    for (const Tool& tool : tools) {
        const int times = tool.times > most ? 1 : std::max(tool.times, 1);
        const double drawn = times * width_of(tool) + (times - 1) * apart;
        const MeasuredText& words = context.words(tool.name, name);
        const double named = words.empty() ? 0 : to_name + in_mm(words.unbroken(), type.size);
        if (drawn + named > width) continue;
        if (left > 0 && left + drawn + named > width) {
            left = 0;
            top += high + apart;
        }
        for (int i = 0; i < times; ++i)
            draw(tool, made.items, {left + i * (width_of(tool) + apart), top});
        if (!words.empty()) {
            Type quiet_type = type;
            quiet_type.colour = quiet;
            const TextLayout setting = set(words, named + 0.1, quiet_type, name);
            for (Item text : setting.items) {
                move(text, left + drawn + to_name, top + high - 0.9);
                made.items.push_back(std::move(text));
            }
        }
        made.width = std::max(made.width, left + drawn + named);
        made.height = top + high;
        left += drawn + named + to_next;
    }
    return made;
}

}  // namespace gallipot::layout
