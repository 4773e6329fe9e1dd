#pragma once

#include <map>
#include <string>
#include <vector>

#include "papers/document/content.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/layout/misfit.hpp"
#include "papers/layout/strip.hpp"
#include "papers/layout/style.hpp"
#include "papers/layout/word_store.hpp"

/// From the blocks of a document to strips that can be put on pages.
namespace gallipot::layout {

/// What every block is set with.
struct Press {
    const PageStyle& style;
    const fonts::Faces& faces;
    std::string language;
    WordStore& store;

    /// Kept by the store.
    [[nodiscard]] const Words& words(const text::Runs& runs, std::string_view what) const;
    /// Set in `type`, or in the largest smaller size of the style in which its widest word fits.
    /// Throws LayoutError when it fits in none.
    [[nodiscard]] Setting set(const Words& words, double measure, const Type& type,
                              std::string_view what) const;
    [[nodiscard]] Setting set(const text::Runs& runs, double measure, const Type& type,
                              std::string_view what) const;
    /// From the top of a line to its baseline: capitals stand in the middle of the leading.
    [[nodiscard]] double baseline(const Type& type) const;
    [[nodiscard]] double baseline(const Setting& setting) const;
    /// The measure of running text: the page's, but no wider than reads well.
    [[nodiscard]] double measure(const Type& type) const;
};

/// Adds a setting to a strip, the top of its first line at `top_left`.
void add(Strip& strip, const Setting& setting, Point top_left, const Press& press);

/// A level line across a strip, its middle at `y`.
Item level_line(double left, double right, double y, double width, Colour colour);

Strips strips_of(const document::Heading& heading, const Press& press, const std::string& name);
Strips strips_of(const document::Paragraph& paragraph, const Press& press, const std::string& name);
Strips strips_of(const document::Banner& banner, const Press& press, const std::string& name);
Strips strips_of(const document::Checklist& list, const Press& press, const std::string& name);
Strips strips_of(const document::Columns& columns, const Press& press, const std::string& name);
Strips strips_of(const document::Table& table, const Press& press, const std::string& name);
Strips strips_of(const document::FillIn& fill_in, const Press& press, const std::string& name);
Strips strips_of(const document::Plots& plots, const Press& press, const std::string& name);
Strips strips_of(const document::Signs& signs, const Press& press, const std::string& name);
Strips strips_of(const document::Code& code, const Press& press, const std::string& name);
Strips strips_of(const document::FloorDrawing& floor, const Press& press, const std::string& name);
Strips strips_of(const document::PlotKey& key, const Press& press, const std::string& name);

/// All blocks of a sheet in order, spaced. What does not fit is left out and listed in `misfits`.
Strips strips_of(const std::vector<document::Block>& blocks, const Press& press,
                 const std::string& sheet, std::vector<Misfit>& misfits);

}  // namespace gallipot::layout
