#include "papers/pdf/script_font_file.hpp"

#include <algorithm>
#include <stdexcept>

namespace gallipot::pdf {

std::uint16_t ScriptFontFile::code(std::uint16_t glyph, const std::string& text) {
    constexpr std::size_t most = 0xFFFF;
    const auto next = static_cast<std::uint16_t>(codes_.size() + 1);
    if (codes_.size() == most) throw std::length_error("more glyphs than a font of ours holds");
    return codes_.try_emplace({glyph, text}, next).first->second;
}

void ScriptFontFile::finish() {
    std::vector<std::uint16_t> glyphs;
    for (const auto& [pair, code] : codes_) glyphs.push_back(pair.first);
    const auto again = std::ranges::unique(glyphs);  // sorted by glyph already
    glyphs.erase(again.begin(), again.end());
    const auto subset = font_->subset(glyphs);
    CompositeFont made{font_->name(),
                       subset.bytes,
                       font_->ascent(),
                       font_->descent(),
                       font_->ascent(),
                       font_->box(),
                       {}};
    // What stands for nothing by itself is said of its cluster; a reader that looks it up
    // nevertheless finds a space of no width.
    constexpr const char* nothing = "200B";
    for (const auto& [pair, code] : codes_) {
        const auto& [glyph, text] = pair;
        const auto at = std::ranges::lower_bound(glyphs, glyph) - glyphs.begin();
        made.letters.push_back({code, subset.glyphs[static_cast<std::size_t>(at)],
                                font_->advance(glyph), text.empty() ? nothing : utf16(text)});
    }
    std::ranges::sort(made.letters, {}, &CompositeFont::Letter::code);
    object_.fill(made);
}

}  // namespace gallipot::pdf
