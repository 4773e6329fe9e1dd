#include "papers/fonts/cut.hpp"

#include <fmt/format.h>
#include <new>

#include "papers/fonts/fonts.hpp"

namespace gallipot::fonts {

Owned<hb_subset_input_t> outlines_alone() {
    Owned<hb_subset_input_t> input(hb_subset_input_create_or_fail());
    if (input == nullptr) throw std::bad_alloc();
    hb_subset_input_set_flags(input.get(), HB_SUBSET_FLAGS_NO_HINTING);
    hb_set_clear(hb_subset_input_set(input.get(), HB_SUBSET_SETS_LAYOUT_FEATURE_TAG));
    hb_set_t* dropped = hb_subset_input_set(input.get(), HB_SUBSET_SETS_DROP_TABLE_TAG);
    for (const auto* name : {"cmap", "name", "post", "OS/2", "GDEF", "GSUB", "GPOS", "kern", "gasp",
                             "STAT", "meta", "vhea", "vmtx"})
        hb_set_add(dropped, tag(name));
    return input;
}

std::uint16_t Cut::number_of(hb_codepoint_t old_glyph) const {
    const auto number = hb_map_get(hb_subset_plan_old_to_new_glyph_mapping(plan.get()), old_glyph);
    if (number == HB_MAP_VALUE_INVALID) throw std::bad_alloc();
    return static_cast<std::uint16_t>(number);
}

Cut cut(hb_face_t* face, hb_subset_input_t* input, const std::string& path) {
    Cut made;
    made.plan.reset(hb_subset_plan_create_or_fail(face, input));
    if (made.plan == nullptr) throw std::bad_alloc();
    const Owned<hb_face_t> smaller(hb_subset_plan_execute_or_fail(made.plan.get()));
    if (smaller == nullptr)
        throw FontError{fmt::format(
            "{} cannot be cut to its letters in use: out of memory, or the font is damaged", path)};
    const Owned<hb_blob_t> blob(hb_face_reference_blob(smaller.get()));
    unsigned length = 0;
    const char* data = hb_blob_get_data(blob.get(), &length);
    made.bytes.assign(data, length);
    return made;
}

}  // namespace gallipot::fonts
