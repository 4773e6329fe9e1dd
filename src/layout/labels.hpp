#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "document/label.hpp"
#include "fonts/fonts.hpp"
#include "layout/page.hpp"
#include "qr/checks.hpp"
#include "templates/design.hpp"
#include "templates/stock.hpp"

/// Labels on their stock.
namespace gallipot::layout {

struct LabelStock {
    templates::Stock stock;
    templates::Design design;
};

struct LabelOptions {
    int start_at = 1;  ///< position of the first label on the first sheet, row by row from 1
    Point offset;      ///< mm: how far the printer needs everything moved
    int copies = 1;    ///< of every label
};

/// How labels were set: labels that differ only in id and code share one.
struct LabelReport {
    double type_points = 0;  ///< of the running words
    double module_mm = 0;    ///< of the code; 0 when there is none
    int version = 0;
    qr::Level level = qr::Level::medium;
    double pictogram_mm = 0;  ///< side of the frame; 0 when there is none
    bool easy = false;        ///< everything at the sizes the design calls easy
    bool run_in = false;      ///< parts stand one after another on a line for want of room
    /// mm lacking for all its languages: so it is in the main one alone.
    std::optional<Size> languages_lack;
    /// mm: what the rules ask of a label for such a container, where this one is smaller.
    std::optional<Size> rules_ask;
    std::vector<document::Part> left_out;  ///< for want of room
    std::vector<qr::Check> checks;
};

struct PlacedLabel {
    std::string name;
    int page = 0;  ///< index from 0
    Box box;       ///< of the whole label, on the page
    std::shared_ptr<const LabelReport> report;
};

struct LabelSheets {
    Paper paper;
    std::vector<PlacedLabel> labels;  ///< in order, copies included
};

/// Sets every label as large as it goes and places them row by row, page by page. What does not fit
/// with its shortest words at the least sizes permitted is a misfit: all of them together are
/// thrown as LayoutError, each with the figures and the nearest of `others` that would do. So is a
/// start or an offset that leaves the sheet.
LabelSheets place_labels(const document::Labels& labels, const LabelStock& stock,
                         const fonts::Faces& faces, const LabelOptions& options = {},
                         const std::vector<LabelStock>& others = {});

/// How each label would be set, in order; null for what does not fit. Throws LayoutError when the
/// design leaves out what a label must carry, or a code holds no text that long.
std::vector<std::shared_ptr<const LabelReport>> fit_labels(const document::Labels& labels,
                                                           const LabelStock& stock,
                                                           const fonts::Faces& faces);

/// A page to print on plain paper and hold against a sheet of labels: every label's outline with
/// the number of its position, and scales in millimetres to read the offset from.
Paper alignment_page(const templates::Stock& stock, const fonts::Faces& faces,
                     const std::string& title, const LabelOptions& options = {});

}  // namespace gallipot::layout
