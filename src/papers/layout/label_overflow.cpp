#include <algorithm>
#include <fmt/format.h>

#include "papers/layout/label_fitter.hpp"
#include "papers/layout/labels.hpp"

namespace gallipot::layout {

namespace {

using document::Label;
using units::in_mm;

std::string in_size(const Size& size) {
    return fmt::format("{:.1f} x {:.1f} mm", size.width, size.height);
}

/// Which other stock would do: of those on the same page size, else of all, the smallest label.
const LabelStock* nearest(const Label& label, const LabelStock& stock, const fonts::Faces& faces,
                          const std::vector<LabelStock>& others) {
    std::vector<const LabelStock*> sorted;
    for (const auto& other : others)
        if (other.stock.name != stock.stock.name) sorted.push_back(&other);
    const auto rank = [&](const LabelStock& other) {
        const bool same_page = other.stock.page_width == stock.stock.page_width &&
                               other.stock.page_height == stock.stock.page_height;
        const bool same_shape = other.stock.shape == stock.stock.shape;
        return (same_page ? 0 : 2) + (same_shape ? 0 : 1);
    };
    std::stable_sort(sorted.begin(), sorted.end(), [&](const auto* a, const auto* b) {
        const auto area = [](const LabelStock& s) {
            return (s.stock.label_width * s.stock.label_height).si();
        };
        return std::pair(rank(*a), area(*a)) < std::pair(rank(*b), area(*b));
    });
    for (const auto* other : sorted) {
        LabelFitter fitter(*other, faces);
        try {
            if (std::holds_alternative<Fitted>(fitter(fitter.gather(label)))) return other;
        } catch (const LayoutError&) {
            // A design that leaves out a part will not do.
        }
    }
    return nullptr;
}

}  // namespace

Overflow describe(const LabelOverflow& overflow, const std::string& what, const Label& like,
                  const LabelStock& stock, const fonts::Faces& faces,
                  const std::vector<LabelStock>& others) {
    const auto& shortfall = overflow.shortfall;
    const Size needed{overflow.size.width + shortfall.width,
                      overflow.size.height + shortfall.height};
    const bool wider = shortfall.width > 1e-6, higher = shortfall.height > 1e-6;
    std::string by;
    if (wider) by += fmt::format("{:.1f} mm in width", shortfall.width);
    if (wider && higher) by += " and ";
    if (higher) by += fmt::format("{:.1f} mm in height", shortfall.height);
    const auto* other = nearest(like, stock, faces, others);
    Overflow made;
    made.what = fmt::format("{} on {}", what, stock.stock.name);
    made.problem =
        fmt::format("at the least sizes permitted ({:.1f} pt) it lacks {} of {}; it needs about {}",
                    overflow.minimum_points, by, in_size(overflow.size), in_size(needed));
    made.remedy = other != nullptr ? fmt::format("use {} ({})", other->stock.name,
                                                 in_size({in_mm(other->stock.label_width),
                                                          in_mm(other->stock.label_height)}))
                                   : "use larger labels, or write titles and names shorter";
    made.needed = higher ? needed.height : needed.width;
    made.available = higher ? overflow.size.height : overflow.size.width;
    return made;
}

}  // namespace gallipot::layout
