#pragma once

#include <map>
#include <string>
#include <vector>

#include "papers/document/content.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/layout/line_box.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/style.hpp"
#include "papers/layout/word_store.hpp"

/// From the blocks of a document to strips that can be put on pages.
namespace gallipot::layout {

/// What every block is set with.
struct LayoutContext {
    const PageStyle& style;
    const fonts::Faces& faces;
    std::string language;
    WordStore& store;

    /// Kept by the store.
    [[nodiscard]] const MeasuredText& words(const text::StyledText& runs,
                                            std::string_view what) const;
    /// Set in `type`, or in the largest smaller size of the style in which its widest word fits.
    /// Throws LayoutError when it fits in none.
    [[nodiscard]] TextLayout set(const MeasuredText& words, double measure, const Type& type,
                                 std::string_view what) const;
    [[nodiscard]] TextLayout set(const text::StyledText& runs, double measure, const Type& type,
                                 std::string_view what) const;
    /// From the top of a line to its baseline: capitals stand in the middle of the leading.
    [[nodiscard]] double baseline(const Type& type) const;
    [[nodiscard]] double baseline(const TextLayout& setting) const;
    /// The measure of running text: the page's, but no wider than reads well.
    [[nodiscard]] double measure(const Type& type) const;
};

/// Adds a setting to a strip, the top of its first line at `top_left`, under the strip's tag.
void add(LineBox& line_box, const TextLayout& setting, Point top_left,
         const LayoutContext& context);

/// What is added next is a piece of content by itself, or within the tag `parent`; its index.
int begin(LineBox& line_box, Role role, int parent = -1, std::string name = {});
/// All items from `first` on are one figure that shows this.
void make_figure(LineBox& line_box, std::size_t first, std::string alternative, int parent = -1);

/// A level line across a strip, its middle at `y`.
Item level_line(double left, double right, double y, double width, Colour colour);

LineBoxes line_boxes_of(const document::Heading& heading, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Paragraph& paragraph, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Banner& banner, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Checklist& list, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Columns& columns, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Table& table, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::FillIn& fill_in, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Plots& plots, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Signs& signs, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::ContainerDrawings& drawings, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Code& code, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::FloorDrawing& floor, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::PlotKey& key, const LayoutContext& context,
                        const std::string& name);
LineBoxes line_boxes_of(const document::Beside& beside, const LayoutContext& context,
                        const std::string& name);

/// All blocks of a sheet in order, spaced. What does not fit is left out and listed in `overflows`.
LineBoxes line_boxes_of(const std::vector<document::Block>& blocks, const LayoutContext& context,
                        const std::string& sheet, std::vector<Overflow>& overflows);

/// The same, the blocks from `front` on set in another context.
LineBoxes line_boxes_of(const std::vector<document::Block>& blocks, const LayoutContext& context,
                        std::size_t front, const LayoutContext& behind, const std::string& sheet,
                        std::vector<Overflow>& overflows);

}  // namespace gallipot::layout
