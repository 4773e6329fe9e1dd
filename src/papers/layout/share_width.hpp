#pragma once

#include <optional>
#include <vector>

namespace gallipot::layout {

/// What a column needs: widths in mm.
struct ColumnNeed {
    double minimum = 0;  ///< its widest word
    double natural = 0;  ///< its widest cell on one line
    double weight = 0;   ///< of the spare width; 0: none of it
};

/// Widths of the columns in `available` mm (gutters taken off already), or nothing when not even
/// the widest words fit side by side.
///
/// When all cells fit on one line, columns are as wide as their widest cell and the spare goes to
/// the weighted ones by weight (without weights it is left over). Otherwise unweighted columns stay
/// as wide as their widest cell and the weighted ones share the rest, none below its least nor,
/// while another must wrap, above its natural width; if that is not enough, all columns wrap, each
/// giving way in proportion to what it has above its least.
std::optional<std::vector<double>> share_width(const std::vector<ColumnNeed>& needs,
                                               double available);

}  // namespace gallipot::layout
