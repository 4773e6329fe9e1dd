#include "papers/layout/label_strip.hpp"

namespace gallipot::layout {

namespace {

int panels(const Canvas& canvas, double circumference) {
    return circumference > 0 ? canvas.design.panels : 1;
}

double cell(const Canvas& canvas, double circumference) {
    return circumference > 0 ? circumference / canvas.design.panels : canvas.label.width;
}

Box inner(const Canvas& canvas, double circumference) {
    const double width = circumference > 0 ? canvas.design.panel_width.fraction * circumference
                                           : canvas.label.width - 2 * canvas.clear;
    return {(cell(canvas, circumference) - width) / 2, canvas.clear, width,
            canvas.label.height - 2 * canvas.clear};
}

}  // namespace

StripArrangement::StripArrangement(const Canvas& canvas, const Contents& contents,
                                   double circumference)
    : Arrangement(canvas, contents),
      circumference_(circumference),
      panels_(panels(canvas, circumference)),
      cell_(cell(canvas, circumference)),
      panel_(canvas, contents, {0, 0, cell_, canvas.label.height}, inner(canvas, circumference)) {}

Shortfall StripArrangement::shortfall(const Sizing& sizing) const {
    return panel_.shortfall(sizing);
}

Drawn StripArrangement::draw(const Sizing& sizing) const {
    Rectangle ground;
    const auto panel = panel_.draw_panel(sizing, ground.box);
    Drawn drawn;
    // One band all the way round, so that it is seen from every side.
    if (circumference_ > 0) {
        ground.box.x = 0;
        ground.box.width = circumference_;
    }
    Item backdrop = item(ground);
    backdrop.backdrop = true;
    backdrop.group = band_kind;
    drawn.items.push_back(std::move(backdrop));
    for (int i = 0; i < panels_; ++i) {
        const double right = i * cell_;
        for (auto made : panel.items) {
            move(made, right, 0);
            drawn.items.push_back(std::move(made));
        }
        for (auto id : panel.ids) {
            id.room.x += right;
            drawn.ids.push_back(id);
            drawn.id_colours.push_back(white);
        }
        for (auto place : panel.places) {
            place.left += right;
            drawn.places.push_back(place);
        }
        for (auto code : panel.codes) {
            code.x += right;
            drawn.codes.push_back(code);
        }
    }
    if (circumference_ > 0) {
        // Where the ends meet: the rest goes underneath.
        Line seam;
        seam.from = {circumference_, 0};
        seam.to = {circumference_, canvas_.label.height};
        seam.width = 0.12;
        seam.colour = hairline;
        Item mark = item(seam);
        mark.group = mark_kind;
        drawn.items.push_back(std::move(mark));
    }
    return drawn;
}

}  // namespace gallipot::layout
