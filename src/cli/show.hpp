#pragma once

#include <string>

#include "app/papers.hpp"

/// What `render --show` prints of papers instead of writing them: for whoever works on the program,
/// and for whoever cannot look at a PDF.
namespace gallipot::cli {

/// What stands on each page, a line for each line of text, in the order in which it is placed.
std::string papers_as_text(const app::Papers& papers);

/// Every placed text, line, box, path and code, in millimetres from the page's top left: place and
/// size, what it is, the piece of content it belongs to, and of text the type size in points.
std::string papers_as_boxes(const app::Papers& papers);

}  // namespace gallipot::cli
