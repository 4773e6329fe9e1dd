#pragma once

#include <string>

#include "papers/fonts/handles.hpp"

/// Cutting a font to the glyphs in use.
namespace gallipot::fonts {

/// Keeps what a PDF reader needs to draw glyphs by their number, and no more; which, is still to be
/// said. Throws std::bad_alloc.
Owned<hb_subset_input_t> outlines_alone();

/// A font that has been cut, and how it was.
struct Cut {
    std::string bytes;
    Owned<hb_subset_plan_t> plan;

    /// The number there of a glyph that had this one. Throws std::bad_alloc: HarfBuzz goes on with
    /// maps that lack what there was no memory for.
    [[nodiscard]] std::uint16_t number_of(hb_codepoint_t old_glyph) const;
};

/// Cuts the font that was read from `path`. Throws FontError and std::bad_alloc.
Cut cut(hb_face_t* face, hb_subset_input_t* input, const std::string& path);

}  // namespace gallipot::fonts
