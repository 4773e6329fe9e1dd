#include "fonts/fonts.hpp"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_OUTLINE_H
#include FT_TRUETYPE_TABLES_H
#include <algorithm>
#include <cstdint>
#include <fmt/core.h>
#include <stdexcept>
#include <unicode/uscript.h>

#include "diag/utf8.hpp"
#include "system/files.hpp"

namespace gallipot::fonts {

namespace {

struct Closer {
    void operator()(FT_Library library) const { FT_Done_FreeType(library); }
    void operator()(FT_Face face) const { FT_Done_Face(face); }
};
using Library = std::unique_ptr<FT_LibraryRec_, Closer>;
using Face = std::unique_ptr<FT_FaceRec_, Closer>;

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
    double units_per_em = 1;
    double ascent = 0, descent = 0;
    std::vector<Glyph> glyphs;  ///< by code point, up to the last one covered

    [[nodiscard]] const Glyph* find(const diag::Character& character) const {
        const char32_t code = character.code;
        if (!character.valid || code >= glyphs.size() || glyphs[code].advance < 0) return nullptr;
        return &glyphs[code];
    }
    /// Calls `use` with each glyph of `text`.
    template <class Use>
    void each(std::string_view text, Use use) const {
        for (std::size_t offset = 0; offset < text.size();) {
            const diag::Character character = diag::character_at(text, offset);
            offset += character.bytes;
            const Glyph* glyph = find(character);
            if (glyph == nullptr) {
                throw std::invalid_argument(character.valid
                                                ? fmt::format("{} has no letter for {}", path,
                                                              diag::code_point_name(character.code))
                                                : std::string("text to be set is not UTF-8"));
            }
            use(*glyph);
        }
    }
    void measure(FT_Face face);
};

void Font::Impl::measure(FT_Face face) {
    FT_UInt index = 0;
    for (FT_ULong code = FT_Get_First_Char(face, &index); index != 0;
         code = FT_Get_Next_Char(face, code, &index)) {
        if (code > 0xFFFF) break;  // they come in rising order
        const auto character = static_cast<char32_t>(code);
        if (!letter_by_letter(character)) continue;
        if (FT_Load_Glyph(face, index, FT_LOAD_NO_SCALE) != 0) continue;
        FT_BBox box{};
        FT_Outline_Get_CBox(&face->glyph->outline, &box);
        if (character >= glyphs.size()) glyphs.resize(character + 1);
        glyphs[character] = {static_cast<std::int16_t>(face->glyph->metrics.horiAdvance),
                             static_cast<std::int16_t>(box.yMin),
                             static_cast<std::int16_t>(box.yMax)};
    }
}

namespace {

std::string read(const std::string& path) {
    try {
        return system::read_file(path);
    } catch (const system::SystemError& error) {
        throw FontError{error.message};
    }
}

}  // namespace

Font::Font(const std::string& path) : Font(path, read(path)) {}

Font::Font(const std::string& path, const std::string& bytes) {
    FT_Library raw_library = nullptr;
    if (FT_Init_FreeType(&raw_library) != 0) throw FontError{"the FreeType library does not start"};
    const Library library(raw_library);
    FT_Face raw_face = nullptr;
    if (FT_New_Memory_Face(raw_library, reinterpret_cast<const FT_Byte*>(bytes.data()),
                           static_cast<FT_Long>(bytes.size()), 0, &raw_face) != 0) {
        throw FontError{fmt::format("{} is not a font file", path)};
    }
    const Face face(raw_face);
    // libharu embeds TrueType outlines only, and subsets by the Unicode map.
    constexpr FT_ULong glyf = FT_MAKE_TAG('g', 'l', 'y', 'f');
    FT_ULong length = 0;
    if (FT_Load_Sfnt_Table(raw_face, glyf, 0, nullptr, &length) != 0 ||
        FT_Select_Charmap(raw_face, FT_ENCODING_UNICODE) != 0) {
        throw FontError{fmt::format("{} is not a TrueType font with a Unicode map", path)};
    }
    auto impl = std::make_unique<Impl>();
    impl->path = path;
    impl->units_per_em = raw_face->units_per_EM;
    impl->ascent = raw_face->ascender / impl->units_per_em;
    impl->descent = -raw_face->descender / impl->units_per_em;
    impl->measure(raw_face);
    if (impl->find({U'H'}) == nullptr || impl->find({U'x'}) == nullptr) {
        throw FontError{fmt::format("{} has no Latin letters", path)};
    }
    impl_ = std::move(impl);
}

Font::~Font() = default;

const std::string& Font::path() const {
    return impl_->path;
}

double Font::advance(std::string_view text) const {
    std::int64_t sum = 0;
    impl_->each(text, [&](const Impl::Glyph& glyph) { sum += glyph.advance; });
    return static_cast<double>(sum) / impl_->units_per_em;
}

Ink Font::ink(std::string_view text) const {
    bool any = false;
    std::int16_t low = 0;
    std::int16_t high = 0;
    impl_->each(text, [&](const Impl::Glyph& glyph) {
        if (glyph.low == 0 && glyph.high == 0) return;
        low = any ? std::min(low, glyph.low) : glyph.low;
        high = any ? std::max(high, glyph.high) : glyph.high;
        any = true;
    });
    return {high / impl_->units_per_em, -low / impl_->units_per_em};
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
