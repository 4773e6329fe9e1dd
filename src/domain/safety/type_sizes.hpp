#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/job/job.hpp"
#include "domain/reference/cited.hpp"
#include "domain/safety/hazard.hpp"

/// The least sizes that published rules set for labels, as published; nothing is converted before
/// the font is known.
namespace gallipot::safety {

/// What a rule measures: the point size type is set in, the printed height of a capital letter, or
/// that of a lowercase x.
enum class Measured { type_size, cap_height, x_height };

/// Parts of a label that rules tell apart.
enum class Part { signal_word, child_warning, hazard_statement, other };

struct LeastSize {
    Measured measured = Measured::type_size;
    units::Length size;
    reference::Provenance provenance = reference::Provenance::found;
    std::string_view source;
};

/// All that hold for a part at once. US household: 40 CFR 156.60(b), in points, and 16 CFR
/// 1500.121(c)(2), in cap height, by the area of the panel. (One applies to pesticides and one to
/// other household substances; home-made bait is registered as neither, so both are kept.)
/// CLP-like: x-height by the capacity of the container, from Regulation (EU) 2024/2865, which
/// applies from 2028-01-01 (2025/2439); taken as the least size already now, when no figure is in
/// force. A panel exactly at a band's end is in the smaller band. Area and capacity must be above
/// 0: std::invalid_argument.
std::vector<LeastSize> minimum_sizes(Part part, RuleSet rules, units::Area panel,
                                     units::Volume capacity);

/// Letters of a font in ems: 0.72 is a capital 0.72 times as high as the type size.
struct LetterHeights {
    double cap = 0;
    double x = 0;
};

/// The type size at which a font meets one least size, or all of them (0 for none).
units::Length type_size_for(const LeastSize& minimum, LetterHeights font);
units::Length type_size_for(const std::vector<LeastSize>& minimum, LetterHeights font);

/// Line distance over type size: Regulation (EU) 2024/2865, 120 % (memory: of the font size;
/// another reading found says of the x-height, which this meets too).
constexpr double minimum_line_spacing = 1.2;

/// Principal display panel, 16 CFR 1500.121(c)(1) (found): 0.40 x height x circumference of a
/// cylinder's wall without shoulders and neck, the whole of a flat side.
units::Area cylinder_panel(units::Length height, units::Length diameter);
units::Area disc_panel(units::Length diameter);
units::Area rectangle_panel(units::Length width, units::Length height);

/// Of a container: the larger of its wall's and its lid's panel, for larger panels ask for larger
/// type. None when the job gives neither.
std::optional<units::Area> panel_of(const job::Body& body);

/// Sizes of a label and its pictograms, CLP Annex I, 1.2.1, Table 1.3 (found).
struct LabelSize {
    units::Length width, height;
    bool if_possible = false;             ///< up to 3 L: "if possible"
    units::Length pictogram;              ///< side of the diamond's red frame, least
    units::Length pictogram_if_possible;  ///< the same, where there is room
};
LabelSize label_size(units::Volume capacity);

/// Width (and height) that a diamond with sides of this length takes up, standing on its point.
units::Length diamond_width(units::Length side);

}  // namespace gallipot::safety
