#pragma once

#include "papers/document/content.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/layout/page.hpp"
#include "papers/layout/style.hpp"

namespace gallipot::layout {

/// Flows a document on pages: each sheet begins a new one, with its title at the head, its footer
/// at the foot and, when it takes more than one page, "1 / 2" there and its title small above the
/// text of the others. Sheets and headings become bookmarks.
///
/// Throws LayoutError with everything that does not fit; text is never cut or laid over text.
Paper lay_out(const document::Document& document, const PageStyle& style,
              const fonts::Faces& faces);

/// Throws LayoutError when lay_out() would, in half the time where it would not: whether tighter
/// spaces save a page does not matter then, since they only leave more room.
void try_out(const document::Document& document, const PageStyle& style, const fonts::Faces& faces);

}  // namespace gallipot::layout
