#include "pdf/writer.hpp"

#include <algorithm>
#include <array>
#include <bitset>
#include <cmath>
#include <fmt/format.h>
#include <hpdf.h>
#include <hpdf_doc.h>
#include <hpdf_objects.h>
#include <hpdf_pages.h>
#include <hpdf_streams.h>
#include <vector>

#include "diag/utf8.hpp"
#include "pdf/operators.hpp"

namespace gallipot::pdf {

namespace {

constexpr double points_per_mm = 1 / layout::mm_per_point;

/// The first error of a document. libharu calls note() from inside C functions, through which no
/// exception may pass: it is kept here and thrown by the next check().
struct Fault {
    HPDF_STATUS code = HPDF_OK;
    HPDF_STATUS detail = 0;

    static void note(HPDF_STATUS code, HPDF_STATUS detail, void* self) {
        auto& fault = *static_cast<Fault*>(self);
        if (fault.code != HPDF_OK) return;
        fault.code = code;
        fault.detail = detail;
    }
    void check(std::string_view doing) const {
        if (code == HPDF_OK) return;
        throw PdfError(fmt::format("libharu failed at {}: error {:#06x}, detail {}", doing,
                                   static_cast<unsigned long>(code),
                                   static_cast<unsigned long>(detail)));
    }
};

struct Closer {
    void operator()(HPDF_Doc document) const { HPDF_Free(document); }
};

/// The character codes on a page are UTF-16 units, so the map to Unicode is the identity. libharu
/// 2.3 writes a malformed one. A range may not cross a high byte, and a section holds at most 100
/// ranges (Adobe technical note 5014, section 7).
std::string identity_to_unicode() {
    std::string map =
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    for (int first = 0; first < 256; first += 100) {
        const int count = std::min(100, 256 - first);
        map += fmt::format("{} beginbfrange\n", count);
        for (int high = first; high < first + count; ++high) {
            map += fmt::format("<{0:02X}00> <{0:02X}FF> <{0:02X}00>\n", high);
        }
        map += "endbfrange\n";
    }
    return map + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

void write_to(HPDF_Stream stream, const std::string& text) {
    HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(text.data()),
                      static_cast<HPDF_UINT>(text.size()));
}

/// To a thousandth of a point: A4 is 595.276 by 841.89.
HPDF_REAL in_points(double mm) {
    return static_cast<HPDF_REAL>(std::round(mm * points_per_mm * 1000) / 1000);
}

}  // namespace

struct Writer::Impl final : FontUse {
    explicit Impl(const fonts::Faces& wanted) : faces(wanted) {}

    Fault fault;  // outlives the document, which points at it
    std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, Closer> document;
    fonts::Faces faces;
    std::array<HPDF_Font, 2> loaded{};  ///< by Face
    std::array<std::bitset<0x10000>, 2> used;
    HPDF_Page page = nullptr;  ///< the one being drawn
    std::vector<HPDF_Page> pages;
    std::vector<double> heights;         ///< of the pages, mm
    std::vector<HPDF_Outline> outlines;  ///< the last bookmark of each level

    [[nodiscard]] HPDF_Doc doc() const { return document.get(); }
    [[nodiscard]] const fonts::Font& font(layout::Face face) const {
        return face == layout::Face::bold ? *faces.bold : *faces.regular;
    }

    std::string_view name(layout::Face face) override {
        const char* given =
            HPDF_Page_GetLocalFontName(page, loaded[static_cast<std::size_t>(face)]);
        fault.check("naming a font");
        return given;
    }

    void use(layout::Face face, char32_t character) override {
        const auto index = static_cast<std::size_t>(face);
        if (used[index].test(character)) return;
        if (!font(face).covers(character)) {
            throw std::invalid_argument(font(face).path() + " has no letter for " +
                                        diag::code_point_name(character));
        }
        // Measuring a character is how libharu learns that the subset needs it.
        const std::string text = in_utf8(character);
        HPDF_Font_TextWidth(loaded[index], reinterpret_cast<const HPDF_BYTE*>(text.data()),
                            static_cast<HPDF_UINT>(text.size()));
        fault.check("noting a letter");
        used[index].set(character);
    }

    static std::string in_utf8(char32_t c) {
        const auto byte = [](char32_t value) { return static_cast<char>(value); };
        if (c < 0x80) return {byte(c)};
        if (c < 0x800) return {byte(0xC0 | c >> 6), byte(0x80 | (c & 0x3F))};
        return {byte(0xE0 | c >> 12), byte(0x80 | (c >> 6 & 0x3F)), byte(0x80 | (c & 0x3F))};
    }

    void load(layout::Face face) {
        const std::string& path = font(face).path();
        const char* loaded_name = HPDF_LoadTTFontFromFile(doc(), path.c_str(), HPDF_TRUE);
        fault.check("reading " + path);
        HPDF_Font made = HPDF_GetFont(doc(), loaded_name, "UTF-8");
        fault.check("using " + path);
        HPDF_Dict map = HPDF_DictStream_New(doc()->mmgr, doc()->xref);
        fault.check("adding a map to Unicode");
        map->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
        write_to(map->stream, identity_to_unicode());
        HPDF_Dict_Add(made, "ToUnicode", map);
        fault.check("adding a map to Unicode");
        loaded[static_cast<std::size_t>(face)] = made;
    }

    void set_properties(const std::string& title, const std::string& author,
                        const std::string& language) {
        HPDF_SetInfoAttr(doc(), HPDF_INFO_TITLE, title.c_str());
        if (!author.empty()) HPDF_SetInfoAttr(doc(), HPDF_INFO_AUTHOR, author.c_str());
        if (!language.empty()) {
            HPDF_Dict_Add(doc()->catalog, "Lang",
                          HPDF_String_New(doc()->mmgr, language.c_str(), nullptr));
        }
        // Window titles show the title, not the file's name.
        HPDF_Dict preferences = HPDF_Dict_New(doc()->mmgr);
        HPDF_Dict_Add(doc()->catalog, "ViewerPreferences", preferences);
        HPDF_Dict_AddBoolean(preferences, "DisplayDocTitle", HPDF_TRUE);
        // Both came with version 1.4.
        doc()->pdf_version = std::max(doc()->pdf_version, HPDF_VER_14);
        fault.check("setting the file's properties");
    }
};

Writer::Writer(const fonts::Faces& faces, const std::string& title, const std::string& author,
               const std::string& language)
    : impl_(std::make_unique<Impl>(faces)) {
    impl_->document.reset(HPDF_New(&Fault::note, &impl_->fault));
    if (!impl_->document) throw PdfError("libharu does not start");
    HPDF_SetCompressionMode(impl_->doc(), HPDF_COMP_ALL);
    HPDF_UseUTFEncodings(impl_->doc());
    HPDF_SetCurrentEncoder(impl_->doc(), "UTF-8");
    impl_->fault.check("starting a document");
    impl_->set_properties(title, author, language);
    impl_->load(layout::Face::regular);
    impl_->load(layout::Face::bold);
}

Writer::~Writer() = default;

void Writer::add(const layout::Page& page) {
    Impl& impl = *impl_;
    impl.page = HPDF_AddPage(impl.doc());
    impl.fault.check("adding a page");
    HPDF_Page_SetWidth(impl.page, in_points(page.size.width));
    HPDF_Page_SetHeight(impl.page, in_points(page.size.height));
    const std::string drawing = operators(page, impl);
    write_to(static_cast<HPDF_PageAttr>(impl.page->attr)->stream, drawing);
    impl.fault.check("drawing a page");
    impl.pages.push_back(impl.page);
    impl.heights.push_back(page.size.height);
}

void Writer::add(const layout::Bookmark& bookmark) {
    Impl& impl = *impl_;
    const auto level = static_cast<std::size_t>(std::max(bookmark.level, 0));
    impl.outlines.resize(std::min(level, impl.outlines.size()));
    HPDF_Outline parent = impl.outlines.empty() ? nullptr : impl.outlines.back();
    HPDF_Page page = impl.pages.at(static_cast<std::size_t>(bookmark.page));
    const double height = impl.heights.at(static_cast<std::size_t>(bookmark.page));

    HPDF_Outline outline = HPDF_CreateOutline(impl.doc(), parent, bookmark.title.c_str(),
                                              HPDF_GetEncoder(impl.doc(), "UTF-8"));
    HPDF_Destination place = HPDF_Page_CreateDestination(page);
    impl.fault.check("adding a bookmark");
    // To the place, at whatever zoom the reader has chosen: libharu's own call insists on one.
    HPDF_Array_Clear(place);
    HPDF_Array_Add(place, page);
    HPDF_Array_AddName(place, "XYZ");
    HPDF_Array_AddReal(place, 0);
    HPDF_Array_AddReal(place, in_points(height - bookmark.top));
    HPDF_Array_AddReal(place, 0);
    HPDF_Outline_SetDestination(outline, place);
    impl.fault.check("adding a bookmark");
    impl.outlines.push_back(outline);
}

std::string Writer::finish() {
    Impl& impl = *impl_;
    if (impl.pages.empty()) throw std::invalid_argument("a PDF needs at least one page");
    HPDF_SaveToStream(impl.doc());
    impl.fault.check("writing the file");
    std::string bytes(HPDF_GetStreamSize(impl.doc()), '\0');
    HPDF_UINT32 read = static_cast<HPDF_UINT32>(bytes.size());
    HPDF_ReadFromStream(impl.doc(), reinterpret_cast<HPDF_BYTE*>(bytes.data()), &read);
    impl.fault.check("writing the file");
    if (read != bytes.size()) throw PdfError("libharu gave back less than it wrote");
    return bytes;
}

std::string write(const layout::Paper& paper, const fonts::Faces& faces) {
    Writer writer(faces, paper.title, paper.author, paper.language);
    for (const layout::Page& page : paper.pages) writer.add(page);
    for (const layout::Bookmark& bookmark : paper.bookmarks) writer.add(bookmark);
    return writer.finish();
}

}  // namespace gallipot::pdf
