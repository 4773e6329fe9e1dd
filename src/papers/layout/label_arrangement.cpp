#include "papers/layout/label_arrangement.hpp"

#include <numbers>

#include "papers/layout/label_circle.hpp"
#include "papers/layout/label_rectangle.hpp"
#include "papers/layout/label_strip.hpp"

namespace gallipot::layout {

std::string_view kind_name(int kind) {
    switch (kind) {
        case band_kind:
            return "band";
        case frame_kind:
            return "frame";
        case pictogram_kind:
            return "pictogram";
        case code_kind:
            return "code";
        case mark_kind:
            return "mark";
        default:
            return templates::name(static_cast<document::Part>(kind));
    }
}

std::unique_ptr<Arrangement> arrange(const Canvas& canvas, const Contents& contents) {
    switch (canvas.stock.shape) {
        case templates::Shape::circle:
            return std::make_unique<CircleArrangement>(canvas, contents);
        case templates::Shape::strip:
            return std::make_unique<StripArrangement>(canvas, contents, canvas.circumference);
        case templates::Shape::rectangle:
            break;
    }
    const Box inner{canvas.clear, canvas.clear, canvas.label.width - 2 * canvas.clear,
                    canvas.label.height - 2 * canvas.clear};
    return std::make_unique<RectangleArrangement>(canvas, contents, canvas.label, inner);
}

}  // namespace gallipot::layout
