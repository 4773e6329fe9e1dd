#include "papers/pdf/composite_font.hpp"

#include <cmath>
#include <fmt/format.h>
#include <hpdf_objects.h>
#include <hpdf_streams.h>

#include "base/diag/utf8.hpp"
#include "base/strings/fnv1a.hpp"

namespace gallipot::pdf {

namespace {

/// Glyph space of a font: thousandths of an em.
int in_glyph_units(double ems) {
    return static_cast<int>(std::lround(ems * 1000));
}

/// The name of a subset begins with six capitals that tell it from others of its font (9.6.4).
std::string tag_of(const CompositeFont& font) {
    std::u32string used;
    for (const auto& letter : font.letters) used += static_cast<char32_t>(letter.glyph);
    std::uint64_t hash = strings::fnv1a(std::u32string_view(used));
    std::string tag;
    for (int i = 0; i < 6; ++i, hash /= 26) tag += static_cast<char>('A' + hash % 26);
    return tag;
}

/// A section holds at most 100 lines (Adobe technical note 5014).
std::string to_unicode(const std::vector<CompositeFont::Letter>& letters) {
    constexpr std::size_t lines = 100;
    std::string map =
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    for (std::size_t first = 0; first < letters.size(); first += lines) {
        const std::size_t end = std::min(first + lines, letters.size());
        map += fmt::format("{} beginbfchar\n", end - first);
        for (std::size_t i = first; i < end; ++i)
            map += fmt::format("<{:04X}> <{}>\n", letters[i].code, letters[i].text);
        map += "endbfchar\n";
    }
    return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

/// Two bytes for each code from 0 on: its glyph.
std::string glyphs_of_codes(const std::vector<CompositeFont::Letter>& letters) {
    std::string map(letters.empty() ? 2 : 2 * (letters.back().code + std::size_t{1}), '\0');
    for (const auto& letter : letters) {
        map[2 * std::size_t{letter.code}] = static_cast<char>(letter.glyph >> 8);
        map[2 * std::size_t{letter.code} + 1] = static_cast<char>(letter.glyph & 0xFF);
    }
    return map;
}

HPDF_Array widths_of(HPDF_Doc document, const std::vector<CompositeFont::Letter>& letters,
                     const Fault& fault) {
    HPDF_Array widths = HPDF_Array_New(document->mmgr);
    fault.check("adding a font");
    HPDF_Array run = nullptr;
    for (std::size_t i = 0; i < letters.size(); ++i) {
        if (i == 0 || letters[i].code != letters[i - 1].code + 1) {
            HPDF_Array_AddNumber(widths, letters[i].code);
            run = HPDF_Array_New(document->mmgr);
            fault.check("adding a font");
            HPDF_Array_Add(widths, run);
        }
        HPDF_Array_AddNumber(run, in_glyph_units(letters[i].advance));
    }
    return widths;
}

}  // namespace

FontObject::FontObject(HPDF_Doc document, const Fault& fault, Compressor& compressor)
    : document_(document),
      fault_(fault),
      compressor_(compressor),
      font_(add_object()),
      letters_(add_object()) {}

HPDF_Dict FontObject::add_object() {
    HPDF_Dict made = HPDF_Dict_New(document_->mmgr);
    HPDF_Xref_Add(document_->xref, made);
    fault_.check("adding a font");
    return made;
}

void FontObject::add_stream(HPDF_Dict to, const char* key, const std::string& bytes) {
    HPDF_Dict made = HPDF_DictStream_New(document_->mmgr, document_->xref);
    fault_.check("adding a font");
    HPDF_Dict_AddNumber(made, "Length1", static_cast<HPDF_INT32>(bytes.size()));
    compressor_.fill(made, bytes);
    HPDF_Dict_Add(to, key, made);
}

void FontObject::describe(const CompositeFont& with, const std::string& name) {
    constexpr int symbolic = 4;  // letters beyond the Latin ones (9.8.2)
    HPDF_Dict about = add_object();
    HPDF_Dict_AddName(about, "Type", "FontDescriptor");
    HPDF_Dict_AddName(about, "FontName", name.c_str());
    HPDF_Dict_AddNumber(about, "Flags", symbolic);
    HPDF_Array box = HPDF_Array_New(document_->mmgr);
    fault_.check("adding a font");
    for (const double edge : with.box) HPDF_Array_AddNumber(box, in_glyph_units(edge));
    HPDF_Dict_Add(about, "FontBBox", box);
    HPDF_Dict_AddNumber(about, "ItalicAngle", 0);
    HPDF_Dict_AddNumber(about, "Ascent", in_glyph_units(with.ascent));
    HPDF_Dict_AddNumber(about, "Descent", -in_glyph_units(with.descent));
    HPDF_Dict_AddNumber(about, "CapHeight", in_glyph_units(with.cap_height));
    HPDF_Dict_AddNumber(about, "StemV", 80);  // asked for; used by readers without the font alone
    add_stream(about, "FontFile2", with.file);
    HPDF_Dict_Add(letters_, "FontDescriptor", about);
}

void FontObject::fill(const CompositeFont& with) {
    const std::string name = tag_of(with) + "+" + with.name;
    HPDF_Dict_AddName(font_, "Type", "Font");
    HPDF_Dict_AddName(font_, "Subtype", "Type0");
    HPDF_Dict_AddName(font_, "BaseFont", name.c_str());
    HPDF_Dict_AddName(font_, "Encoding", "Identity-H");
    HPDF_Array descendants = HPDF_Array_New(document_->mmgr);
    fault_.check("adding a font");
    HPDF_Array_Add(descendants, letters_);
    HPDF_Dict_Add(font_, "DescendantFonts", descendants);
    add_stream(font_, "ToUnicode", to_unicode(with.letters));

    HPDF_Dict_AddName(letters_, "Type", "Font");
    HPDF_Dict_AddName(letters_, "Subtype", "CIDFontType2");
    HPDF_Dict_AddName(letters_, "BaseFont", name.c_str());
    HPDF_Dict system = HPDF_Dict_New(document_->mmgr);
    fault_.check("adding a font");
    HPDF_Dict_Add(letters_, "CIDSystemInfo", system);
    HPDF_Dict_Add(system, "Registry", HPDF_String_New(document_->mmgr, "Adobe", nullptr));
    HPDF_Dict_Add(system, "Ordering", HPDF_String_New(document_->mmgr, "Identity", nullptr));
    HPDF_Dict_AddNumber(system, "Supplement", 0);
    HPDF_Dict_Add(letters_, "W", widths_of(document_, with.letters, fault_));
    add_stream(letters_, "CIDToGIDMap", glyphs_of_codes(with.letters));
    describe(with, name);
    fault_.check("embedding a font");
}

std::string utf16(std::string_view text) {
    std::string digits;
    for (std::size_t at = 0; at < text.size();) {
        const diag::Character character = diag::character_at(text, at);
        at += character.bytes;
        const char32_t code = character.code;
        if (code > 0xFFFF)
            digits += fmt::format("{:04X}{:04X}", 0xD800 + ((code - 0x10000) >> 10),
                                  0xDC00 + ((code - 0x10000) & 0x3FF));
        else
            digits += fmt::format("{:04X}", static_cast<unsigned>(code));
    }
    return digits;
}

}  // namespace gallipot::pdf
