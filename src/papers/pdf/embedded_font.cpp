#include "papers/pdf/embedded_font.hpp"

#include <algorithm>
#include <stdexcept>
#include <vector>

#include "base/diag/utf8.hpp"

namespace gallipot::pdf {

void EmbeddedFont::use(char32_t character) {
    if (used_.test(character)) return;
    if (!font_->covers(character)) {
        throw std::invalid_argument(font_->path() + " has no letter for " +
                                    diag::code_point_name(character));
    }
    used_.set(character);
}

std::uint16_t EmbeddedFont::use_as(char32_t drawn, const std::string& read) {
    constexpr std::uint16_t own_codes = 0xE000;  // Unicode's private ones, of which a text has none
    use(drawn);
    for (const auto& [code, letter] : read_as_)
        if (letter == std::pair(drawn, read)) return code;
    const auto code = static_cast<std::uint16_t>(own_codes + read_as_.size());
    read_as_.emplace(code, std::pair(drawn, read));
    return code;
}

void EmbeddedFont::finish() {
    std::vector<char32_t> used;
    for (std::size_t code = 0; code < used_.size(); ++code)
        if (used_.test(code)) used.push_back(static_cast<char32_t>(code));
    const auto subset = font_->subset(used);
    CompositeFont made{font_->name(),
                       subset.bytes,
                       font_->ascent(),
                       font_->descent(),
                       font_->cap_height(),
                       font_->box(),
                       {}};
    for (std::size_t i = 0; i < used.size(); ++i)
        made.letters.push_back({static_cast<std::uint16_t>(used[i]), subset.glyphs[i],
                                font_->advance(used[i]), utf16(diag::utf8(used[i]))});
    for (const auto& [code, letter] : read_as_) {
        const auto at = std::ranges::lower_bound(used, letter.first) - used.begin();
        made.letters.push_back({code, subset.glyphs[static_cast<std::size_t>(at)],
                                font_->advance(letter.first), utf16(letter.second)});
    }
    std::ranges::sort(made.letters, {}, &CompositeFont::Letter::code);
    object_.fill(made);
}

}  // namespace gallipot::pdf
