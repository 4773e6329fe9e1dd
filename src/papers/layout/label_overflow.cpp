#include <algorithm>
#include <fmt/format.h>
#include <span>

#include "papers/layout/label_fitter.hpp"
#include "papers/layout/labels.hpp"

namespace gallipot::layout {

namespace {

using document::Label;
using units::in_mm;

std::string in_size(const Size& size) {
    return fmt::format("{:.1f} x {:.1f} mm", size.width, size.height);
}

bool fits(const Label& label, const LabelStock& stock, const fonts::Faces& faces) {
    LabelFitter fitter(stock, faces);
    try {
        return std::holds_alternative<Fitted>(fitter(fitter.gather(label)));
    } catch (const LayoutError&) {
        return false;  // a design that leaves out a part will not do
    }
}

/// Which other stock holds all of them: of those on the same page size, else of all, the smallest
/// label.
const LabelStock* smallest_for(std::span<const LabelMisfit> misfits, const LabelStock& stock,
                               const fonts::Faces& faces, const std::vector<LabelStock>& others) {
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
    const auto holds_all = [&](const LabelStock* other) {
        return std::ranges::all_of(
            misfits, [&](const LabelMisfit& misfit) { return fits(*misfit.like, *other, faces); });
    };
    const auto found = std::ranges::find_if(sorted, holds_all);
    return found == sorted.end() ? nullptr : *found;
}

}  // namespace

Overflow describe(std::span<const LabelMisfit> misfits, const diag::Text& names,
                  const LabelStock& stock, const fonts::Faces& faces,
                  const std::vector<LabelStock>& others) {
    const auto lacks = [](const LabelMisfit& it) {
        return std::pair(it.overflow->shortfall.height, it.overflow->shortfall.width);
    };
    const LabelOverflow& fullest = *std::ranges::max_element(misfits, {}, lacks)->overflow;
    const auto& shortfall = fullest.shortfall;
    const Size needed{fullest.size.width + shortfall.width, fullest.size.height + shortfall.height};
    const auto* other = smallest_for(misfits, stock, faces, others);
    const bool several = misfits.size() > 1 || names.english().find(", ") != std::string::npos;
    Overflow made;
    made.what = diag::say("labels {} ({}) are too small", stock.stock.name, in_size(fullest.size));
    made.problem = several ? diag::say(
                                 "{} do not fit; the fullest needs about {} at the smallest type "
                                 "allowed ({:.1f} pt)",
                                 names, in_size(needed), fullest.minimum_points)
                           : diag::say(
                                 "{} does not fit; it needs about {} at the smallest type allowed "
                                 "({:.1f} pt)",
                                 names, in_size(needed), fullest.minimum_points);
    if (other == nullptr) {
        made.remedy = diag::say("use larger labels, or write titles and names shorter");
    } else {
        const std::string size =
            in_size({in_mm(other->stock.label_width), in_mm(other->stock.label_height)});
        made.remedy =
            several ? diag::say("use {} ({}), the smallest that holds all", other->stock.name, size)
                    : diag::say("use {} ({}), the smallest that holds it", other->stock.name, size);
    }
    const bool higher = shortfall.height > 1e-6;
    made.needed = higher ? needed.height : needed.width;
    made.available = higher ? fullest.size.height : fullest.size.width;
    return made;
}

}  // namespace gallipot::layout
