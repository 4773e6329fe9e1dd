#pragma once

#include <array>
#include <hb-ot.h>
#include <hb-subset.h>
#include <memory>
#include <string_view>

/// HarfBuzz's objects as owned ones.
namespace gallipot::fonts {

struct Closer {
    void operator()(hb_blob_t* blob) const { hb_blob_destroy(blob); }
    void operator()(hb_buffer_t* buffer) const { hb_buffer_destroy(buffer); }
    void operator()(hb_face_t* face) const { hb_face_destroy(face); }
    void operator()(hb_font_t* font) const { hb_font_destroy(font); }
    void operator()(hb_set_t* set) const { hb_set_destroy(set); }
    void operator()(hb_subset_input_t* input) const { hb_subset_input_destroy(input); }
    void operator()(hb_subset_plan_t* plan) const { hb_subset_plan_destroy(plan); }
};
template <class T>
using Owned = std::unique_ptr<T, Closer>;

inline hb_tag_t tag(std::string_view name) {
    return hb_tag_from_string(name.data(), static_cast<int>(name.size()));
}

/// A TrueType file is made so that its 32-bit words, big-endian, add up to this (OpenType, `head`
/// table, checksumAdjustment). One that was cut short or overwritten does not.
bool is_whole(std::string_view bytes);

/// Around all glyphs of a font, in ems: left, bottom, right, top.
std::array<double, 4> box_in_ems(hb_face_t* face);

}  // namespace gallipot::fonts
