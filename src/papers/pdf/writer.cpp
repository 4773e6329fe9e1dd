#include "papers/pdf/writer.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <hpdf.h>
#include <hpdf_doc.h>
#include <hpdf_objects.h>
#include <hpdf_pages.h>
#include <hpdf_streams.h>
#include <map>
#include <vector>

#include "papers/pdf/embedded_font.hpp"
#include "papers/pdf/fault.hpp"
#include "papers/pdf/operators.hpp"
#include "papers/pdf/script_font_file.hpp"
#include "papers/pdf/standard.hpp"
#include "papers/pdf/stream.hpp"
#include "papers/text/direction.hpp"

namespace gallipot::pdf {

namespace {

constexpr double points_per_mm = 1 / layout::mm_per_point;
constexpr HPDF_UINT pages_a_node = 1000;

struct Closer {
    void operator()(HPDF_Doc document) const { HPDF_Free(document); }
};

/// To a thousandth of a point: A4 is 595.276 by 841.89.
HPDF_REAL in_points(double mm) {
    return static_cast<HPDF_REAL>(std::round(mm * points_per_mm * 1000) / 1000);
}

}  // namespace

struct Writer::Impl final : Uses {
    Fault fault;  // outlives the document, which points at it
    Compressor compressor;
    std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, Closer> document;
    std::vector<EmbeddedFont> embedded;  ///< by Face
    HPDF_Dict letters = nullptr;         ///< the fonts by name, in the resources of all
    /// Those beside the faces, in the order in which they were met.
    std::vector<std::pair<std::shared_ptr<const fonts::ScriptFont>, ScriptFontFile>> others;
    std::map<const void*, std::pair<std::string, HPDF_Dict>> drawings;  ///< by Stamp::drawing
    HPDF_Page page = nullptr;                                           ///< the one being drawn
    HPDF_Dict page_drawings = nullptr;                                  ///< those it refers to
    std::vector<HPDF_Page> pages;
    std::vector<double> heights;         ///< of the pages, mm
    std::vector<HPDF_Outline> outlines;  ///< the last bookmark of each level
    std::vector<std::size_t> chapters;   ///< the page each begins on
    /// Of the pages so far: made when all pages are there.
    std::vector<std::pair<std::size_t, layout::Link>> links;
    About about;
    Structure structure;
    std::vector<int> tag_of_mark;  ///< of the page being drawn

    [[nodiscard]] HPDF_Doc doc() const { return document.get(); }
    EmbeddedFont& font(layout::Face face) { return embedded[static_cast<std::size_t>(face)]; }

    HPDF_Dict add_object() {
        HPDF_Dict made = HPDF_Dict_New(doc()->mmgr);
        HPDF_Xref_Add(doc()->xref, made);
        fault.check("adding an object");
        return made;
    }

    void load(const fonts::Faces& faces) {
        embedded.emplace_back(doc(), faces.regular, fault, compressor);
        embedded.emplace_back(doc(), faces.bold, fault, compressor);
        letters = add_object();
        for (const auto face : {layout::Face::regular, layout::Face::bold})
            HPDF_Dict_Add(letters, font_name(face), font(face).object());
        fault.check("adding the fonts");
    }

    void letter(layout::Face face, char32_t character) override { font(face).use(character); }

    std::uint16_t turned(layout::Face face, char32_t drawn, const std::string& read) override {
        return font(face).use_as(drawn, read);
    }

    Code glyph(const std::shared_ptr<const fonts::ScriptFont>& font, std::uint16_t id,
               const std::string& text) override {
        auto known = std::ranges::find(others, font, [](const auto& one) { return one.first; });
        if (known == others.end()) {
            others.emplace_back(font, ScriptFontFile(doc(), font, fault, compressor));
            known = others.end() - 1;
            HPDF_Dict_Add(letters, other_name(others.size() - 1).c_str(), known->second.object());
            fault.check("adding a font");
        }
        const auto index = static_cast<std::size_t>(known - others.begin());
        return {other_name(index), known->second.code(id, text)};
    }
    static std::string other_name(std::size_t index) { return fmt::format("F{}", index + 3); }

    int mark(int tag) override {
        tag_of_mark.push_back(tag);
        return static_cast<int>(tag_of_mark.size()) - 1;
    }

    std::string drawing(const layout::Page& on, const layout::Stamp& stamp) override {
        auto [known, is_new] = drawings.try_emplace(stamp.drawing);
        if (is_new) known->second = {fmt::format("D{}", drawings.size()), draw(on, stamp)};
        const auto& [name, object] = known->second;
        if (page_drawings == nullptr) {
            page_drawings = HPDF_Dict_New(doc()->mmgr);
            HPDF_Dict_Add(resources(), "XObject", page_drawings);
        }
        if (HPDF_Dict_GetItem(page_drawings, name.c_str(), HPDF_OCLASS_DICT) == nullptr)
            HPDF_Dict_Add(page_drawings, name.c_str(), object);
        fault.check("referring to a drawing");
        return name;
    }

    /// A form that pages refer to (PDF 32000-1:2008, 8.10).
    HPDF_Dict draw(const layout::Page& on, const layout::Stamp& stamp) {
        HPDF_Dict form = HPDF_DictStream_New(doc()->mmgr, doc()->xref);
        fault.check("adding a drawing");
        HPDF_Dict_AddName(form, "Type", "XObject");
        HPDF_Dict_AddName(form, "Subtype", "Form");
        const HPDF_REAL across = in_points(on.size.width), down = in_points(on.size.height);
        HPDF_Dict_Add(form, "BBox",
                      HPDF_Box_Array_New(doc()->mmgr, {-across, -down, across, down}));
        HPDF_Dict own = HPDF_Dict_New(doc()->mmgr);
        HPDF_Dict_Add(form, "Resources", own);
        HPDF_Dict_Add(own, "Font", letters);
        compressor.fill(form, operators(on, stamp, *this));
        fault.check("adding a drawing");
        return form;
    }

    /// To a place on a page, at whatever zoom the reader has chosen: libharu's own call insists on
    /// one.
    HPDF_Destination place_on(std::size_t on, double top) {
        HPDF_Destination place = HPDF_Page_CreateDestination(pages.at(on));
        fault.check("adding a destination");
        HPDF_Array_Clear(place);
        HPDF_Array_Add(place, pages.at(on));
        HPDF_Array_AddName(place, "XYZ");
        HPDF_Array_AddReal(place, 0);
        HPDF_Array_AddReal(place, in_points(heights.at(on) - top));
        HPDF_Array_AddReal(place, 0);
        return place;
    }

    /// Links to chapters that the paper has not are left out.
    void add_link(std::size_t on, const layout::Link& link) {
        const double height = heights.at(on);
        const HPDF_Rect rect{in_points(link.box.x), in_points(height - link.box.bottom()),
                             in_points(link.box.right()), in_points(height - link.box.y)};
        HPDF_Annotation made = nullptr;
        if (!link.uri.empty()) {
            made = HPDF_Page_CreateURILinkAnnot(pages.at(on), rect, link.uri.c_str());
        } else if (const auto to = static_cast<std::size_t>(link.chapter); to < chapters.size()) {
            made = HPDF_Page_CreateLinkAnnot(pages.at(on), rect, place_on(chapters[to], 0));
        }
        fault.check("adding a link");
        if (made == nullptr) return;
        HPDF_LinkAnnot_SetBorderStyle(made, 0, 0, 0);
        structure.add_link(on, link);
        fault.check("adding a link");
    }

    [[nodiscard]] HPDF_Dict resources() const {
        return static_cast<HPDF_Dict>(
            HPDF_Page_GetInheritableItem(page, "Resources", HPDF_OCLASS_DICT));
    }

    void set_properties(const std::string& language) {
        if (!language.empty()) {
            HPDF_Dict_Add(doc()->catalog, "Lang",
                          HPDF_String_New(doc()->mmgr, language.c_str(), nullptr));
        }
        // Window titles show the title, not the file's name.
        HPDF_Dict preferences = HPDF_Dict_New(doc()->mmgr);
        HPDF_Dict_Add(doc()->catalog, "ViewerPreferences", preferences);
        HPDF_Dict_AddBoolean(preferences, "DisplayDocTitle", HPDF_TRUE);
        if (text::runs_right_to_left(language))
            HPDF_Dict_AddName(preferences, "Direction", "R2L");
        fault.check("setting the file's properties");
    }
};

Writer::Writer(const fonts::Faces& faces, const std::string& title, const std::string& author,
               const std::string& language)
    : impl_(std::make_unique<Impl>()) {
    memory_ran_out = false;
    impl_->document.reset(HPDF_NewEx(&Fault::note, &allocate, &release, 0, &impl_->fault));
    impl_->fault.check("starting");
    if (!impl_->document) throw PdfError("libharu does not start");
    HPDF_UseUTFEncodings(impl_->doc());
    HPDF_SetCurrentEncoder(impl_->doc(), "UTF-8");
    // As one list of pages it would end at 8,191 of them.
    HPDF_SetPagesConfiguration(impl_->doc(), pages_a_node);
    impl_->fault.check("starting a document");
    impl_->about = {title, author, language};
    impl_->set_properties(language);
    impl_->load(faces);
}

Writer::~Writer() = default;

void Writer::add(const layout::Page& page) {
    Impl& impl = *impl_;
    impl.page = HPDF_AddPage(impl.doc());
    impl.fault.check("adding a page");
    HPDF_Page_SetWidth(impl.page, in_points(page.size.width));
    HPDF_Page_SetHeight(impl.page, in_points(page.size.height));
    impl.page_drawings = nullptr;
    HPDF_Dict_Add(impl.resources(), "Font", impl.letters);
    impl.tag_of_mark.clear();
    const std::string drawing = operators(page, impl);
    impl.structure.add_page(page.tags, impl.tag_of_mark);
    impl.compressor.fill(static_cast<HPDF_PageAttr>(impl.page->attr)->contents, drawing);
    impl.fault.check("drawing a page");
    for (const layout::Link& link : page.links) impl.links.emplace_back(impl.pages.size(), link);
    impl.pages.push_back(impl.page);
    impl.heights.push_back(page.size.height);
}

void Writer::label_pages(const std::string& label) {
    HPDF_Doc doc = impl_->doc();
    HPDF_AddPageLabel(doc, static_cast<HPDF_UINT>(impl_->pages.size()), HPDF_PAGE_NUM_STYLE_DECIMAL,
                      1, nullptr);
    impl_->fault.check("naming pages");
    // libharu writes a prefix byte by byte: ours is text of any language.
    const auto tree =
        static_cast<HPDF_Dict>(HPDF_Dict_GetItem(doc->catalog, "PageLabels", HPDF_OCLASS_DICT));
    const auto numbers =
        static_cast<HPDF_Array>(HPDF_Dict_GetItem(tree, "Nums", HPDF_OCLASS_ARRAY));
    const auto last = static_cast<HPDF_Dict>(
        HPDF_Array_GetItem(numbers, HPDF_Array_Items(numbers) - 1, HPDF_OCLASS_DICT));
    HPDF_Dict_Add(last, "P",
                  HPDF_String_New(doc->mmgr, (label + " ").c_str(), HPDF_GetEncoder(doc, "UTF-8")));
    impl_->fault.check("naming pages");
}

void Writer::begin_chapter() {
    impl_->chapters.push_back(impl_->pages.size());
    impl_->structure.begin_chapter();
}

void Writer::add(const layout::Bookmark& bookmark) {
    Impl& impl = *impl_;
    const auto level = static_cast<std::size_t>(std::max(bookmark.level, 0));
    impl.outlines.resize(std::min(level, impl.outlines.size()));
    HPDF_Outline parent = impl.outlines.empty() ? nullptr : impl.outlines.back();
    HPDF_Outline outline = HPDF_CreateOutline(impl.doc(), parent, bookmark.title.c_str(),
                                              HPDF_GetEncoder(impl.doc(), "UTF-8"));
    impl.fault.check("adding a bookmark");
    HPDF_Destination place = impl.place_on(static_cast<std::size_t>(bookmark.page), bookmark.top);
    HPDF_Outline_SetDestination(outline, place);
    impl.fault.check("adding a bookmark");
    impl.outlines.push_back(outline);
}

std::string Writer::finish() {
    Impl& impl = *impl_;
    if (impl.pages.empty()) throw std::invalid_argument("a PDF needs at least one page");
    for (const auto& [page, link] : impl.links) impl.add_link(page, link);
    for (EmbeddedFont& font : impl.embedded) font.finish();
    for (auto& [font, file] : impl.others) file.finish();
    HPDF_SaveToStream(impl.doc());
    impl.fault.check("writing the file");
    std::string bytes(HPDF_GetStreamSize(impl.doc()), '\0');
    HPDF_UINT32 read = static_cast<HPDF_UINT32>(bytes.size());
    HPDF_ReadFromStream(impl.doc(), reinterpret_cast<HPDF_BYTE*>(bytes.data()), &read);
    impl.fault.check("writing the file");
    if (read != bytes.size()) throw PdfError("libharu gave back less than it wrote");
    return to_standard(bytes, impl.structure, impl.about);
}

std::string write(const layout::Paper& paper, const fonts::Faces& faces) {
    Writer writer(faces, paper.title, paper.author, paper.language);
    for (const layout::Page& page : paper.pages) writer.add(page);
    for (const layout::Bookmark& bookmark : paper.bookmarks) writer.add(bookmark);
    return writer.finish();
}

std::string write(const std::vector<layout::Chapter>& chapters, const std::string& title,
                  const fonts::Faces& faces) {
    const layout::Paper frame = layout::combine(chapters);
    Writer writer(faces, title, frame.author, frame.language);
    for (const layout::Chapter& chapter : chapters) {
        writer.begin_chapter();
        if (!chapter.label.empty()) writer.label_pages(chapter.label);
        for (const layout::Page& page : chapter.paper->pages) writer.add(page);
    }
    for (const layout::Bookmark& bookmark : frame.bookmarks) writer.add(bookmark);
    return writer.finish();
}

}  // namespace gallipot::pdf
