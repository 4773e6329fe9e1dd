#include "papers/document/container_drawings.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace gallipot::document {

namespace {

using text::Catalog;
using units::in_mm;

/// As a common cup and saucer look, where the job does not say. Ours.
constexpr double usual_width = 60, usual_height = 50, flat_height = 25;
/// More kinds than these would fill the card.
constexpr std::size_t most = 3;

int holes_of(const job::Openings& openings) {
    if (openings.hole <= units::Length{}) return 0;
    const double radius = in_mm(openings.hole) / 2;
    return static_cast<int>(
        std::lround(openings.area.si() * 1e6 / (std::numbers::pi * radius * radius)));
}

StyledText holes(const job::Openings& openings, int count, const Catalog& words) {
    if (openings.closed) return {};
    if (count == 0) return words.rich("card.container.open");
    return words.rich(openings.side ? "card.container.holes" : "card.container.lid_holes",
                      {{"n", std::int64_t{count}}, {"size", words.amount(in_mm(openings.hole))}});
}

ContainerDrawing drawing(const Recipe& recipe, const job::Container& container) {
    const Catalog& words = recipe.words;
    const job::Body& body = container.body;
    ContainerDrawing made;
    made.width_mm = body.diameter ? in_mm(*body.diameter)
                    : body.lid    ? in_mm(*body.lid)
                                  : usual_width;
    made.height_mm = body.height ? in_mm(*body.height) : body.lid ? flat_height : usual_height;
    made.filled = *container.fill / *container.holds;
    made.label_on_lid = body.lid && !body.height;
    const std::string fill = words.volume(*container.fill, container.fill_unit);
    made.fill =
        body.height
            ? words.rich("card.container.fill_height",
                         {{"fill", fill},
                          {"height", words.amount(std::round(made.filled * in_mm(*body.height)))}})
            : words.rich("card.container.fill", {{"fill", fill}});
    made.label =
        words.rich(made.label_on_lid ? "card.container.label_on_lid" : "card.container.label");
    made.top = ContainerDrawing::Top::lid;
    if (container.openings) {
        const int count = holes_of(*container.openings);
        made.holes = holes(*container.openings, count, words);
        if (container.openings->side) made.side_holes = count;
        made.hole_mm = in_mm(container.openings->hole);
        if (!container.openings->closed && count == 0) made.top = ContainerDrawing::Top::open;
        if (count > 0 && !container.openings->side) made.top = ContainerDrawing::Top::holed_lid;
    }
    if (made.top == ContainerDrawing::Top::lid) made.lid = words.rich("card.container.lid");
    if (body.height) made.note = words.rich("card.container.straight");
    std::vector<std::string> parts;
    for (const text::StyledText* part : {&made.lid, &made.holes, &made.label, &made.fill})
        if (!part->empty()) parts.push_back(text::plain(*part));
    made.alternative =
        words("alt.container", {{"name", container.id}, {"parts", words.list(parts)}});
    return made;
}

}  // namespace

ContainerDrawings container_drawings(const Recipe& recipe) {
    ContainerDrawings made;
    for (std::size_t i = 0; i < std::min(most, recipe.containers.size()); ++i) {
        made.drawings.push_back(drawing(recipe, *recipe.containers[i]));
        if (recipe.containers.size() > 1)
            made.drawings.back().title = {{recipe.containers[i]->id, true}};
    }
    // Said once.
    for (std::size_t i = 0; i + 1 < made.drawings.size(); ++i)
        if (!made.drawings[i + 1].note.empty()) made.drawings[i].note.clear();
    return made;
}

}  // namespace gallipot::document
