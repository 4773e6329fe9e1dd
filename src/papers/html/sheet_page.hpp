#pragma once

#include <string>
#include <vector>

#include "papers/document/content.hpp"
#include "papers/fonts/fonts.hpp"

namespace gallipot::html {

/// How a sheet becomes a page.
struct PageOptions {
    std::string title;                 ///< of the window
    std::string language;              ///< BCP 47
    std::string style;                 ///< the style sheet
    std::vector<std::string> numbers;  ///< telephone numbers, to be called by a touch
    fonts::Faces faces;                ///< what drawings are measured with
};

/// A sheet to be read on a screen: one page that needs nothing else, by the same blocks in the same
/// order as on paper. What is only there to be written on is left out. Throws LayoutError for a
/// drawing that cannot be made.
std::string sheet_page(const document::Sheet& sheet, const PageOptions& options);

}  // namespace gallipot::html
