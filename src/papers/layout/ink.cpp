#include "papers/layout/ink.hpp"

#include <string_view>
#include <variant>

namespace gallipot::layout {

namespace {

constexpr double outline = 0.7;  // mm: seen from afar as the band was

/// By the names that labels and sheets give their groups.
bool of_band(std::string_view group) {
    return group.ends_with("/band") || group.find(": banner ") != std::string_view::npos;
}

void open(Rectangle& ground) {
    ground.filled = false;
    ground.line_width = outline;
    ground.box = {ground.box.x + outline / 2, ground.box.y + outline / 2,
                  ground.box.width - outline, ground.box.height - outline};
}

void lighten(Page& page) {
    for (Item& item : page.items) {
        // White words stand on bands alone.
        if (auto* text = std::get_if<Text>(&item.shape); text != nullptr && text->colour == white)
            text->colour = black;
        if (!item.backdrop || item.group < 0 ||
            !of_band(page.groups.at(static_cast<std::size_t>(item.group))))
            continue;
        if (auto* ground = std::get_if<Rectangle>(&item.shape);
            ground != nullptr && ground->filled && ground->colour == black)
            open(*ground);
        if (auto* ground = std::get_if<Path>(&item.shape);
            ground != nullptr && ground->filled && ground->colour == black) {
            ground->filled = false;
            ground->line_width = outline;
        }
    }
}

}  // namespace

void lighten(Paper& paper) {
    for (Page& page : paper.pages) lighten(page);
}

}  // namespace gallipot::layout
