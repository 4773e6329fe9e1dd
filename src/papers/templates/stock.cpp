#include "papers/templates/stock.hpp"

#include <array>
#include <fmt/format.h>

#include "papers/templates/fields.hpp"

namespace gallipot::templates {

namespace {

using units::in_mm;
using units::mm;

// Bounds that catch a slip of the pen. The largest page is a metre of roll.
constexpr auto nothing = mm(0);
constexpr auto minimum_label = mm(15);
constexpr auto largest_page = mm(1000);
constexpr auto largest_gap = mm(100);

struct PageSize {
    std::string_view name;
    units::Length width, height;
};
// ISO 216 (A4); ANSI/ASME Y14.1 size A (Letter, 8.5 x 11 in).
constexpr std::array page_sizes = {
    PageSize{"A4", mm(210), mm(297)}, PageSize{"A4 landscape", mm(297), mm(210)},
    PageSize{"Letter", mm(215.9), mm(279.4)}, PageSize{"Letter landscape", mm(279.4), mm(215.9)}};

void read_page(Stock& stock, Fields& fields, diag::Diagnostics& out) {
    const auto* page = fields.find("page");
    if (page == nullptr) return;  // one label a page
    if (page->kind == yaml::Kind::mapping) {
        Fields sizes(*page, "page", {"width", "height"}, out);
        stock.page_width = sizes.length("width", minimum_label, largest_page);
        stock.page_height = sizes.length("height", minimum_label, largest_page);
        return;
    }
    std::vector<std::string> names;
    names.reserve(page_sizes.size());
    for (const auto& size : page_sizes) names.emplace_back(size.name);
    const auto& size = page_sizes.at(fields.choice("page", names));
    stock.page_width = size.width;
    stock.page_height = size.height;
}

void read_label(Stock& stock, Fields& fields, diag::Diagnostics& out) {
    const auto* label = fields.find("label");
    if (label == nullptr) {
        fields.text("label");  // reports that it is missing
        return;
    }
    if (stock.shape == Shape::circle) {
        Fields sizes(*label, "label", {"diameter"}, out);
        stock.label_width = stock.label_height =
            sizes.length("diameter", minimum_label, largest_page);
    } else if (stock.shape == Shape::strip) {
        Fields sizes(*label, "label", {"longest", "height", "overlap"}, out);
        stock.label_width = sizes.length("longest", minimum_label, largest_page);
        stock.label_height = sizes.length("height", minimum_label, largest_page);
        stock.overlap = sizes.length("overlap", mm(3), mm(50));
    } else {
        Fields sizes(*label, "label", {"width", "height", "corner"}, out);
        stock.label_width = sizes.length("width", minimum_label, largest_page);
        stock.label_height = sizes.length("height", minimum_label, largest_page);
        stock.corner = sizes.length("corner", nothing, mm(20), nothing);
    }
}

void read_grid(Stock& stock, Fields& fields, diag::Diagnostics& out) {
    const auto* grid = fields.find("grid");
    if (grid == nullptr) return;
    Fields places(*grid, "grid", {"columns", "rows", "left", "top", "gap across", "gap down"}, out);
    stock.columns = places.whole("columns", 1, 50);
    stock.rows = places.whole("rows", 1, 100);
    stock.left = places.length("left", nothing, largest_page);
    stock.top = places.length("top", nothing, largest_page);
    stock.gap_across = places.length("gap across", nothing, largest_gap, nothing);
    stock.gap_down = places.length("gap down", nothing, largest_gap, nothing);
}

/// The labels must lie on the page: by how much they do not is what a user needs to know.
void check_reach(const Stock& stock, Fields& fields, bool across) {
    const int count = across ? stock.columns : stock.rows;
    const auto label = across ? stock.label_width : stock.label_height;
    const auto gap = across ? stock.gap_across : stock.gap_down;
    const auto start = across ? stock.left : stock.top;
    const auto page = across ? stock.page_width : stock.page_height;
    const double reach = in_mm(start + count * label + (count - 1) * gap);
    const double over = reach - in_mm(page);
    if (over <= 1e-6) return;
    fields.error(fields.has("grid") ? "grid" : "label", "off-the-page",
                 diag::say("{} labels {} reach {:.6g} mm, {:.6g} mm over the edge of the page",
                           count, across ? "across" : "down", reach, over),
                 diag::say("make margins, gaps or labels smaller by {:.6g} mm in all", over));
}

}  // namespace

Stock read_stock(const diag::SourcePtr& file, const std::string& name, diag::Diagnostics& out) {
    Stock stock;
    stock.name = name;
    diag::Diagnostics found;
    const auto root = yaml::read(file, found);
    stock.place = root.place;
    if (!found.has_errors()) {
        Fields fields(
            root, "stock",
            {"about", "design", "shape", "page", "label", "grid", "clear", "cut marks", "printer"},
            found);
        stock.about = fields.text("about");
        stock.design = fields.text("design");
        stock.shape =
            static_cast<Shape>(fields.choice("shape", {"rectangle", "circle", "strip"}, 0));
        read_label(stock, fields, found);
        stock.page_width = stock.label_width;
        stock.page_height = stock.label_height;
        read_page(stock, fields, found);
        read_grid(stock, fields, found);
        stock.clear = fields.length("clear", nothing, mm(10), mm(1.5));
        stock.cut_marks = fields.flag("cut marks", false);
        if (fields.has("printer")) {
            Fields printer(*fields.find("printer"), "printer", {"dots per inch"}, found);
            stock.dots_per_inch = printer.number("dots per inch", 100, 2400);
        }
        if (!found.has_errors()) {
            check_reach(stock, fields, true);
            check_reach(stock, fields, false);
        }
    }
    out.append(found);
    return stock;
}

}  // namespace gallipot::templates
