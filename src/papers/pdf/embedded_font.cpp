#include "papers/pdf/embedded_font.hpp"

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
    object_.fill(made);
}

}  // namespace gallipot::pdf
