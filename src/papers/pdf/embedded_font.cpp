#include "papers/pdf/embedded_font.hpp"

#include <cmath>
#include <cstdint>
#include <fmt/format.h>
#include <hpdf_objects.h>
#include <hpdf_streams.h>
#include <stdexcept>

#include "base/diag/utf8.hpp"
#include "base/strings/fnv1a.hpp"
#include "papers/pdf/stream.hpp"

namespace gallipot::pdf {

namespace {

/// Glyph space of a font: thousandths of an em.
int in_glyph_units(double ems) {
    return static_cast<int>(std::lround(ems * 1000));
}

/// The name of a subset begins with six capitals that tell it from others of its font (9.6.4).
std::string tag_of(const std::vector<char32_t>& used) {
    std::uint64_t hash = strings::fnv1a(std::u32string_view(used.data(), used.size()));
    std::string tag;
    for (int i = 0; i < 6; ++i, hash /= 26) tag += static_cast<char>('A' + hash % 26);
    return tag;
}

/// Where codes are UTF-16 units, the map to Unicode is the identity. A range may not cross a high
/// byte, and a section holds at most 100 ranges (Adobe technical note 5014, section 7).
std::string identity_to_unicode(const std::vector<char32_t>& used) {
    std::vector<std::pair<unsigned, unsigned>> ranges;
    for (const unsigned code : used) {
        const bool follows = !ranges.empty() && ranges.back().second + 1 == code && code % 256 != 0;
        if (follows)
            ranges.back().second = code;
        else
            ranges.emplace_back(code, code);
    }
    std::string map =
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    for (std::size_t first = 0; first < ranges.size(); first += 100) {
        const std::size_t end = std::min(first + 100, ranges.size());
        map += fmt::format("{} beginbfrange\n", end - first);
        for (std::size_t i = first; i < end; ++i)
            map +=
                fmt::format("<{0:04X}> <{1:04X}> <{0:04X}>\n", ranges[i].first, ranges[i].second);
        map += "endbfrange\n";
    }
    return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

/// Two bytes for each code from 0 on: its glyph.
std::string glyphs_of_codes(const std::vector<char32_t>& used,
                            const std::vector<std::uint16_t>& glyphs) {
    std::string map(used.empty() ? 2 : 2 * (used.back() + std::size_t{1}), '\0');
    for (std::size_t i = 0; i < used.size(); ++i) {
        const std::size_t at = 2 * std::size_t{used[i]};
        map[at] = static_cast<char>(glyphs[i] >> 8);
        map[at + 1] = static_cast<char>(glyphs[i] & 0xFF);
    }
    return map;
}

}  // namespace

EmbeddedFont::EmbeddedFont(HPDF_Doc document, std::shared_ptr<const fonts::Font> font,
                           const Fault& fault, Compressor& compressor)
    : document_(document),
      font_(std::move(font)),
      fault_(fault),
      compressor_(compressor),
      font_object_(add_object()),
      letters_(add_object()) {}

HPDF_Dict EmbeddedFont::add_object() {
    HPDF_Dict made = HPDF_Dict_New(document_->mmgr);
    HPDF_Xref_Add(document_->xref, made);
    fault_.check("adding a font");
    return made;
}

void EmbeddedFont::use(char32_t character) {
    if (used_.test(character)) return;
    if (!font_->covers(character)) {
        throw std::invalid_argument(font_->path() + " has no letter for " +
                                    diag::code_point_name(character));
    }
    used_.set(character);
}

void EmbeddedFont::add_stream(HPDF_Dict to, const char* key, const std::string& bytes) {
    HPDF_Dict made = HPDF_DictStream_New(document_->mmgr, document_->xref);
    fault_.check("adding a font");
    HPDF_Dict_AddNumber(made, "Length1", static_cast<HPDF_INT32>(bytes.size()));
    compressor_.fill(made, bytes);
    HPDF_Dict_Add(to, key, made);
}

void EmbeddedFont::add_widths(const std::vector<char32_t>& used) {
    HPDF_Array widths = HPDF_Array_New(document_->mmgr);
    HPDF_Array run = nullptr;
    for (std::size_t i = 0; i < used.size(); ++i) {
        if (i == 0 || used[i] != used[i - 1] + 1) {
            HPDF_Array_AddNumber(widths, static_cast<HPDF_INT32>(used[i]));
            run = HPDF_Array_New(document_->mmgr);
            HPDF_Array_Add(widths, run);
        }
        HPDF_Array_AddNumber(run, in_glyph_units(font_->advance(used[i])));
    }
    HPDF_Dict_Add(letters_, "W", widths);
}

void EmbeddedFont::describe(const std::string& name, const std::string& file) {
    constexpr int symbolic = 4;  // letters beyond the Latin ones (9.8.2)
    HPDF_Dict about = add_object();
    HPDF_Dict_AddName(about, "Type", "FontDescriptor");
    HPDF_Dict_AddName(about, "FontName", name.c_str());
    HPDF_Dict_AddNumber(about, "Flags", symbolic);
    HPDF_Array box = HPDF_Array_New(document_->mmgr);
    for (const double edge : font_->box()) HPDF_Array_AddNumber(box, in_glyph_units(edge));
    HPDF_Dict_Add(about, "FontBBox", box);
    HPDF_Dict_AddNumber(about, "ItalicAngle", 0);
    HPDF_Dict_AddNumber(about, "Ascent", in_glyph_units(font_->ascent()));
    HPDF_Dict_AddNumber(about, "Descent", -in_glyph_units(font_->descent()));
    HPDF_Dict_AddNumber(about, "CapHeight", in_glyph_units(font_->cap_height()));
    HPDF_Dict_AddNumber(about, "StemV", 80);  // asked for; used by readers without the font alone
    add_stream(about, "FontFile2", file);
    HPDF_Dict_Add(letters_, "FontDescriptor", about);
}

void EmbeddedFont::finish() {
    std::vector<char32_t> used;
    for (std::size_t code = 0; code < used_.size(); ++code)
        if (used_.test(code)) used.push_back(static_cast<char32_t>(code));
    const auto subset = font_->subset(used);
    const std::string name = tag_of(used) + "+" + font_->name();

    HPDF_Dict_AddName(font_object_, "Type", "Font");
    HPDF_Dict_AddName(font_object_, "Subtype", "Type0");
    HPDF_Dict_AddName(font_object_, "BaseFont", name.c_str());
    HPDF_Dict_AddName(font_object_, "Encoding", "Identity-H");
    HPDF_Array descendants = HPDF_Array_New(document_->mmgr);
    HPDF_Array_Add(descendants, letters_);
    HPDF_Dict_Add(font_object_, "DescendantFonts", descendants);
    add_stream(font_object_, "ToUnicode", identity_to_unicode(used));

    HPDF_Dict_AddName(letters_, "Type", "Font");
    HPDF_Dict_AddName(letters_, "Subtype", "CIDFontType2");
    HPDF_Dict_AddName(letters_, "BaseFont", name.c_str());
    HPDF_Dict system = HPDF_Dict_New(document_->mmgr);
    HPDF_Dict_Add(letters_, "CIDSystemInfo", system);
    HPDF_Dict_Add(system, "Registry", HPDF_String_New(document_->mmgr, "Adobe", nullptr));
    HPDF_Dict_Add(system, "Ordering", HPDF_String_New(document_->mmgr, "Identity", nullptr));
    HPDF_Dict_AddNumber(system, "Supplement", 0);
    add_widths(used);
    add_stream(letters_, "CIDToGIDMap", glyphs_of_codes(used, subset.glyphs));
    describe(name, subset.bytes);
    fault_.check("embedding a font");
}

}  // namespace gallipot::pdf
