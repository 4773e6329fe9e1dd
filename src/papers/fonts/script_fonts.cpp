#include "papers/fonts/script_fonts.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/core.h>
#include <map>
#include <mutex>
#include <set>
#include <stdexcept>
#include <unicode/uchar.h>
#include <unicode/uscript.h>

#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "papers/fonts/cut.hpp"
#include "papers/fonts/handles.hpp"

namespace gallipot::fonts {

struct ScriptFont::Impl {
    std::string path, name, bytes;
    Owned<hb_face_t> face;
    Owned<hb_font_t> font;  ///< immutable
    double em = 1;

    [[nodiscard]] double ems(double units) const { return units / em; }
};

ScriptFont::ScriptFont(const std::string& path, std::string bytes) {
    auto impl = std::make_unique<Impl>();
    impl->path = path;
    impl->bytes = std::move(bytes);
    const Owned<hb_blob_t> blob(hb_blob_create(impl->bytes.data(),
                                               static_cast<unsigned>(impl->bytes.size()),
                                               HB_MEMORY_MODE_READONLY, nullptr, nullptr));
    impl->face.reset(hb_face_create(blob.get(), 0));
    const Owned<hb_blob_t> outlines(hb_face_reference_table(impl->face.get(), tag("glyf")));
    if (hb_face_get_glyph_count(impl->face.get()) == 0 || hb_blob_get_length(outlines.get()) == 0)
        throw FontError{fmt::format("{} is not a TrueType font", path)};
    if (!is_whole(impl->bytes))
        throw FontError{fmt::format("{} is damaged: its checksum is wrong", path)};
    hb_face_make_immutable(impl->face.get());
    impl->font.reset(hb_font_create(impl->face.get()));
    hb_font_make_immutable(impl->font.get());
    impl->em = hb_face_get_upem(impl->face.get());
    char name[64] = {};
    unsigned length = sizeof name;
    hb_ot_name_get_utf8(impl->face.get(), HB_OT_NAME_ID_POSTSCRIPT_NAME, nullptr, &length, name);
    impl->name = length > 0 ? std::string(name, length) : "Font";
    impl_ = std::move(impl);
}

ScriptFont::~ScriptFont() = default;

const std::string& ScriptFont::path() const {
    return impl_->path;
}
const std::string& ScriptFont::name() const {
    return impl_->name;
}

bool ScriptFont::covers(char32_t character) const {
    hb_codepoint_t glyph = 0;
    return hb_font_get_nominal_glyph(impl_->font.get(), character, &glyph) != 0;
}

bool ScriptFont::is_bold() const {
    constexpr float semibold = 600;  // usWeightClass, OpenType's OS/2 table
    return hb_style_get_value(impl_->font.get(), HB_STYLE_TAG_WEIGHT) >= semibold;
}

namespace {

/// The letters of a cluster over its glyphs, in reading order: one each, the last has the rest.
std::vector<std::string> shared_out(std::string_view text, std::size_t glyphs) {
    std::vector<std::string> parts(glyphs);
    std::size_t at = 0;
    for (std::size_t i = 0; i < glyphs && at < text.size(); ++i) {
        const std::size_t bytes =
            i + 1 == glyphs ? text.size() - at : diag::character_at(text, at).bytes;
        parts[i] = text.substr(at, bytes);
        at += bytes;
    }
    return parts;
}

}  // namespace

Shaped ScriptFont::shape(std::string_view text, const std::string& language,
                         bool right_to_left) const {
    const Owned<hb_buffer_t> buffer(hb_buffer_create());
    hb_buffer_add_utf8(buffer.get(), text.data(), static_cast<int>(text.size()), 0,
                       static_cast<int>(text.size()));
    hb_buffer_set_direction(buffer.get(), right_to_left ? HB_DIRECTION_RTL : HB_DIRECTION_LTR);
    hb_buffer_set_language(
        buffer.get(), hb_language_from_string(language.c_str(), static_cast<int>(language.size())));
    hb_buffer_guess_segment_properties(buffer.get());
    hb_buffer_set_cluster_level(buffer.get(), HB_BUFFER_CLUSTER_LEVEL_MONOTONE_GRAPHEMES);
    hb_shape(impl_->font.get(), buffer.get(), nullptr, 0);
    if (!hb_buffer_allocation_successful(buffer.get())) throw std::bad_alloc();
    unsigned count = 0;
    const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer.get(), &count);
    const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(buffer.get(), nullptr);

    Shaped shaped;
    shaped.font = shared_from_this();
    std::set<std::size_t> starts{text.size()};
    for (unsigned i = 0; i < count; ++i) starts.insert(infos[i].cluster);
    double pen = 0;
    bool any = false;
    for (unsigned i = 0; i < count;) {
        const std::size_t from = infos[i].cluster, to = *starts.upper_bound(from);
        Cluster cluster{std::string(text.substr(from, to - from)), {}};
        for (; i < count && infos[i].cluster == from; ++i) {
            const auto id = infos[i].codepoint;
            const double x = pen + positions[i].x_offset, y = positions[i].y_offset;
            cluster.glyphs.push_back(
                {static_cast<std::uint16_t>(id), impl_->ems(x), impl_->ems(y), {}});
            hb_glyph_extents_t ink{};
            hb_font_get_glyph_extents(impl_->font.get(), id, &ink);
            if (ink.width != 0 || ink.height != 0) {
                const double above = impl_->ems(y + ink.y_bearing);
                const double below = -impl_->ems(y + ink.y_bearing + ink.height);
                shaped.ink.above = any ? std::max(shaped.ink.above, above) : above;
                shaped.ink.below = any ? std::max(shaped.ink.below, below) : below;
                any = true;
            }
            pen += positions[i].x_advance;
        }
        // HarfBuzz gives them from left to right.
        if (right_to_left) std::reverse(cluster.glyphs.begin(), cluster.glyphs.end());
        const auto parts = shared_out(cluster.text, cluster.glyphs.size());
        for (std::size_t k = 0; k < parts.size(); ++k) cluster.glyphs[k].text = parts[k];
        shaped.clusters.push_back(std::move(cluster));
    }
    if (right_to_left) std::reverse(shaped.clusters.begin(), shaped.clusters.end());
    shaped.advance = impl_->ems(pen);
    return shaped;
}

double ScriptFont::advance(std::uint16_t glyph) const {
    return impl_->ems(hb_font_get_glyph_h_advance(impl_->font.get(), glyph));
}
double ScriptFont::ascent() const {
    hb_font_extents_t extents{};
    hb_font_get_h_extents(impl_->font.get(), &extents);
    return impl_->ems(extents.ascender);
}
double ScriptFont::descent() const {
    hb_font_extents_t extents{};
    hb_font_get_h_extents(impl_->font.get(), &extents);
    return -impl_->ems(extents.descender);
}

std::array<double, 4> ScriptFont::box() const {
    return box_in_ems(impl_->face.get());
}

Subset ScriptFont::subset(const std::vector<std::uint16_t>& glyphs) const {
    const auto input = outlines_alone();
    for (const auto glyph : glyphs) hb_set_add(hb_subset_input_glyph_set(input.get()), glyph);
    Cut made = cut(impl_->face.get(), input.get(), impl_->path);
    Subset subset{std::move(made.bytes), {}};
    for (const auto glyph : glyphs) subset.glyphs.push_back(made.number_of(glyph));
    return subset;
}

namespace {

/// Punctuation as wide as a Chinese letter.
bool is_wide(char32_t character) {
    const auto block = ublock_getCode(static_cast<UChar32>(character));
    return block == UBLOCK_CJK_SYMBOLS_AND_PUNCTUATION ||
           block == UBLOCK_HALFWIDTH_AND_FULLWIDTH_FORMS;
}

}  // namespace

struct ScriptFonts::Impl {
    std::vector<ScriptFiles> files;
    std::vector<std::string> folders;
    std::mutex mutex;
    std::map<std::string, std::shared_ptr<const ScriptFont>> opened;  ///< by file; null: not there

    std::shared_ptr<const ScriptFont> open(const std::string& file) {
        const std::lock_guard lock(mutex);
        const auto known = opened.find(file);
        if (known != opened.end()) return known->second;
        std::shared_ptr<const ScriptFont> font;
        for (const std::string& folder : folders) {
            const auto path = std::filesystem::path(folder) / file;
            if (auto bytes = system::read_if_there(path)) {
                font = std::make_shared<const ScriptFont>(path.string(), std::move(*bytes));
                break;
            }
        }
        return opened.emplace(file, font).first->second;
    }
    [[nodiscard]] const ScriptFiles* files_of(char32_t character) const {
        // Some marks belong to several scripts (Unicode Standard Annex 24); commas and brackets as
        // wide as a Chinese letter belong to none, and come with those letters.
        const bool wide = is_wide(character);
        const auto found = std::ranges::find_if(files, [&](const ScriptFiles& one) {
            const auto script =
                static_cast<UScriptCode>(u_getPropertyValueEnum(UCHAR_SCRIPT, one.script.c_str()));
            return uscript_hasScript(static_cast<UChar32>(character), script) != 0 ||
                   (wide && script == USCRIPT_HAN);
        });
        return found == files.end() ? nullptr : &*found;
    }
};

ScriptFonts::ScriptFonts(std::vector<ScriptFiles> files, std::vector<std::string> folders)
    : impl_(std::make_unique<Impl>()) {
    impl_->files = std::move(files);
    impl_->folders = std::move(folders);
}
ScriptFonts::~ScriptFonts() = default;

std::shared_ptr<const ScriptFont> ScriptFonts::find(char32_t character, bool bold) const {
    const ScriptFiles* files = impl_->files_of(character);
    if (files == nullptr) return nullptr;
    std::shared_ptr<const ScriptFont> font;
    if (bold && !files->bold.empty()) font = impl_->open(files->bold);
    if (!font) font = impl_->open(files->regular);
    return font && font->covers(character) ? font : nullptr;
}

std::string ScriptFonts::package_for(char32_t character) const {
    const ScriptFiles* files = impl_->files_of(character);
    return files == nullptr ? std::string() : files->package;
}

std::string script_of(char32_t character) {
    UErrorCode status = U_ZERO_ERROR;
    const UScriptCode script = uscript_getScript(static_cast<UChar32>(character), &status);
    const char* name = U_SUCCESS(status) ? uscript_getName(script) : nullptr;
    return name == nullptr ? std::string() : name;
}

bool goes_with_script(char32_t character) {
    UErrorCode status = U_ZERO_ERROR;
    const UScriptCode script = uscript_getScript(static_cast<UChar32>(character), &status);
    return script == USCRIPT_INHERITED || character == 0x200C || character == 0x200D ||
           (script == USCRIPT_COMMON &&
            u_charType(static_cast<UChar32>(character)) != U_SPACE_SEPARATOR && character > 0x7F);
}

}  // namespace gallipot::fonts
