#pragma once

#include <optional>
#include <string>

#include "base/diag/diagnostic.hpp"
#include "base/units/quantity.hpp"

/// Label stock as geometry, read from templates/stocks/NAME.yaml. templates/README.md describes the
/// format.
namespace gallipot::templates {

enum class Shape { rectangle, circle, strip };

struct Stock {
    std::string name;   ///< the file's, without its ending: "a4-3x7"
    std::string about;  ///< one line for lists
    diag::Place place;
    std::string design;  ///< name of the label design that suits it
    Shape shape = Shape::rectangle;

    units::Length page_width, page_height;
    /// Of a label; of a circle both are its diameter; of a strip the width is the most there is,
    /// the body's circumference and the overlap decide how much is used.
    units::Length label_width, label_height;
    units::Length corner;   ///< radius of a rectangle's corners
    units::Length overlap;  ///< of a strip's ends
    int columns = 1, rows = 1;
    units::Length left, top;              ///< of the first label
    units::Length gap_across, gap_down;   ///< between labels
    units::Length clear;                  ///< ink keeps so far from a label's edge: printers drift
    bool cut_marks = false;               ///< plain paper: show where to cut
    std::optional<double> dots_per_inch;  ///< of a roll printer

    [[nodiscard]] int per_page() const { return columns * rows; }
};

/// Reads one stock. With errors in `out` the stock is not to be used.
Stock read_stock(const diag::SourcePtr& file, const std::string& name, diag::Diagnostics& out);

}  // namespace gallipot::templates
