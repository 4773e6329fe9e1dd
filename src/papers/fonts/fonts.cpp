#include "papers/fonts/fonts.hpp"

#include <algorithm>
#include <cstdint>
#include <fmt/core.h>
#include <stdexcept>
#include <unicode/uscript.h>

#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "papers/fonts/cut.hpp"
#include "papers/fonts/handles.hpp"

namespace gallipot::fonts {

namespace {

/// Letters that stand side by side and need no joining, reordering or stacking.
bool letter_by_letter(char32_t character) {
    if (diag::is_control(character) || diag::is_direction_control(character)) return false;
    UErrorCode status = U_ZERO_ERROR;
    switch (uscript_getScript(static_cast<UChar32>(character), &status)) {
        case USCRIPT_LATIN:
        case USCRIPT_GREEK:
        case USCRIPT_CYRILLIC:
        case USCRIPT_ARMENIAN:
        case USCRIPT_GEORGIAN:
        case USCRIPT_COMMON:
        case USCRIPT_INHERITED:
            return U_SUCCESS(status);
        default:
            return false;
    }
}

}  // namespace

struct Font::Impl {
    /// In font units. An advance below zero marks a character that is not covered.
    struct Glyph {
        std::int16_t advance = -1, low = 0, high = 0;
    };

    std::string path;
    std::string name;
    std::string bytes;      ///< of the file; `face` reads in them
    Owned<hb_face_t> face;  ///< immutable
    double units_per_em = 1;
    double ascent = 0, descent = 0;
    /// By code point, 256 to a block; a font covers few of the 256 blocks there are.
    using Block = std::array<Glyph, 256>;
    std::array<std::unique_ptr<Block>, 256> blocks;

    [[nodiscard]] const Glyph* find(const diag::Character& character) const {
        const char32_t code = character.code;
        if (!character.valid || code > 0xFFFF || blocks[code / 256] == nullptr) return nullptr;
        const Glyph& found = (*blocks[code / 256])[code % 256];
        return found.advance < 0 ? nullptr : &found;
    }
    [[nodiscard]] const Glyph& glyph(const diag::Character& character) const {
        const Glyph* found = find(character);
        if (found != nullptr) return *found;
        throw std::invalid_argument(character.valid
                                        ? fmt::format("{} has no letter for {}", path,
                                                      diag::code_point_name(character.code))
                                        : std::string("text to be set is not UTF-8"));
    }
    /// Calls `use` with each glyph of `text`.
    template <class Use>
    void each(std::string_view text, Use use) const {
        for (std::size_t offset = 0; offset < text.size();) {
            const diag::Character character = diag::character_at(text, offset);
            offset += character.bytes;
            use(glyph(character));
        }
    }
    void measure();
};

void Font::Impl::measure() {
    const Owned<hb_font_t> font(hb_font_create(face.get()));
    const Owned<hb_set_t> characters(hb_set_create());
    hb_face_collect_unicodes(face.get(), characters.get());
    auto code = static_cast<hb_codepoint_t>(-1);  // before the first
    while (hb_set_next(characters.get(), &code) && code <= 0xFFFF) {
        const auto character = static_cast<char32_t>(code);
        hb_codepoint_t glyph = 0;
        if (!letter_by_letter(character) || !hb_font_get_nominal_glyph(font.get(), code, &glyph))
            continue;
        hb_glyph_extents_t ink{};
        hb_font_get_glyph_extents(font.get(), glyph, &ink);
        auto& block = blocks[character / 256];
        if (block == nullptr) block = std::make_unique<Block>();
        (*block)[character % 256] = {
            static_cast<std::int16_t>(hb_font_get_glyph_h_advance(font.get(), glyph)),
            static_cast<std::int16_t>(ink.y_bearing + ink.height),
            static_cast<std::int16_t>(ink.y_bearing)};
    }
    hb_font_extents_t extents{};
    hb_font_get_h_extents(font.get(), &extents);
    ascent = extents.ascender / units_per_em;
    descent = -extents.descender / units_per_em;
}

namespace {

std::string read(const std::string& path) {
    try {
        return system::read_file(path);
    } catch (const system::SystemError& error) {
        throw FontError{error.what()};
    }
}

}  // namespace

bool is_whole(std::string_view bytes) {
    constexpr std::uint32_t sum_of_a_font = 0xB1B0AFBA;
    const auto byte = [&](std::size_t i) {
        return i < bytes.size() ? std::uint32_t{static_cast<std::uint8_t>(bytes[i])} : 0;
    };
    std::uint32_t sum = 0;
    for (std::size_t i = 0; i < bytes.size(); i += 4)
        sum += byte(i) << 24 | byte(i + 1) << 16 | byte(i + 2) << 8 | byte(i + 3);
    return sum == sum_of_a_font;
}

Font::Font(const std::string& path) : Font(path, read(path)) {}

Font::Font(const std::string& path, std::string bytes) {
    auto impl = std::make_unique<Impl>();
    impl->path = path;
    impl->bytes = std::move(bytes);
    const Owned<hb_blob_t> blob(hb_blob_create(impl->bytes.data(),
                                               static_cast<unsigned>(impl->bytes.size()),
                                               HB_MEMORY_MODE_READONLY, nullptr, nullptr));
    impl->face.reset(hb_face_create(blob.get(), 0));
    hb_face_t* face = impl->face.get();
    if (hb_face_get_glyph_count(face) == 0)
        throw FontError{fmt::format("{} is not a font file", path)};
    // A PDF of ours embeds TrueType outlines only, and takes letters by the Unicode map.
    const Owned<hb_blob_t> outlines(hb_face_reference_table(face, tag("glyf")));
    if (hb_blob_get_length(outlines.get()) == 0)
        throw FontError{fmt::format("{} is not a TrueType font with a Unicode map", path)};
    if (!is_whole(impl->bytes))
        throw FontError{fmt::format("{} is damaged: its checksum is wrong", path)};
    impl->units_per_em = hb_face_get_upem(face);
    impl->measure();
    if (impl->find({U'H'}) == nullptr || impl->find({U'x'}) == nullptr) {
        throw FontError{fmt::format("{} has no Latin letters", path)};
    }
    char name[64] = {};
    unsigned length = sizeof name;
    hb_ot_name_get_utf8(face, HB_OT_NAME_ID_POSTSCRIPT_NAME, nullptr, &length, name);
    impl->name = length > 0 ? std::string(name, length) : "Font";
    impl_ = std::move(impl);
}

Font::~Font() = default;

const std::string& Font::path() const {
    return impl_->path;
}

const std::string& Font::name() const {
    return impl_->name;
}

double Font::advance(std::string_view text) const {
    std::int64_t sum = 0;
    impl_->each(text, [&](const Impl::Glyph& glyph) { sum += glyph.advance; });
    return static_cast<double>(sum) / impl_->units_per_em;
}

double Font::advance(char32_t character) const {
    return impl_->glyph({character}).advance / impl_->units_per_em;
}

Ink Font::ink(std::string_view text) const {
    return extent(text).ink;
}

Extent Font::extent(std::string_view text) const {
    bool any = false;
    std::int64_t advance = 0;
    std::int16_t low = 0;
    std::int16_t high = 0;
    impl_->each(text, [&](const Impl::Glyph& glyph) {
        advance += glyph.advance;
        if (glyph.low == 0 && glyph.high == 0) return;
        low = any ? std::min(low, glyph.low) : glyph.low;
        high = any ? std::max(high, glyph.high) : glyph.high;
        any = true;
    });
    return {static_cast<double>(advance) / impl_->units_per_em,
            {high / impl_->units_per_em, -low / impl_->units_per_em}};
}

bool Font::covers(char32_t character) const {
    return impl_->find({character}) != nullptr;
}

double Font::cap_height() const {
    return impl_->find({U'H'})->high / impl_->units_per_em;
}
double Font::x_height() const {
    return impl_->find({U'x'})->high / impl_->units_per_em;
}
double Font::ascent() const {
    return impl_->ascent;
}
double Font::descent() const {
    return impl_->descent;
}

Subset Font::subset(const std::vector<char32_t>& characters) const {
    const auto input = outlines_alone();
    for (const char32_t character : characters)
        hb_set_add(hb_subset_input_unicode_set(input.get()), character);
    Cut made = cut(impl_->face.get(), input.get(), impl_->path);
    const hb_map_t* glyphs = hb_subset_plan_unicode_to_old_glyph_mapping(made.plan.get());
    Subset subset{std::move(made.bytes), {}};
    for (const char32_t character : characters)
        subset.glyphs.push_back(made.number_of(hb_map_get(glyphs, character)));
    return subset;
}

std::array<double, 4> box_in_ems(hb_face_t* face) {
    // head.xMin, yMin, xMax and yMax (OpenType 1.9).
    const Owned<hb_blob_t> head(hb_face_reference_table(face, tag("head")));
    unsigned length = 0;
    const char* data = hb_blob_get_data(head.get(), &length);
    std::array<double, 4> box{};
    if (length < 44) return box;
    for (std::size_t i = 0; i < box.size(); ++i) {
        const auto high = static_cast<unsigned char>(data[36 + 2 * i]);
        const auto low = static_cast<unsigned char>(data[37 + 2 * i]);
        box[i] = static_cast<std::int16_t>(high << 8 | low) /
                 static_cast<double>(hb_face_get_upem(face));
    }
    return box;
}

std::array<double, 4> Font::box() const {
    return box_in_ems(impl_->face.get());
}

std::vector<char32_t> uncovered(const Font& font, std::string_view text) {
    std::vector<char32_t> missing;
    for (std::size_t offset = 0; offset < text.size();) {
        const diag::Character character = diag::character_at(text, offset);
        offset += character.bytes;
        if (character.valid && font.covers(character.code)) continue;
        const char32_t code = character.valid ? character.code : U'\uFFFD';
        if (std::find(missing.begin(), missing.end(), code) == missing.end()) {
            missing.push_back(code);
        }
    }
    return missing;
}

}  // namespace gallipot::fonts
