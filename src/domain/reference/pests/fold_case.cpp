#include "domain/reference/pests/fold_case.hpp"

#include "base/diag/utf8.hpp"

namespace gallipot::reference {

namespace {

char32_t lower(char32_t c) {
    if (c >= U'A' && c <= U'Z') return c + 0x20;
    if (c >= 0xC0 && c <= 0xDE && c != 0xD7) return c + 0x20;  // À to Þ without ×
    // Latin Extended-A: pairs of a capital and its small letter, three runs of them.
    if ((c >= 0x100 && c <= 0x12F) || (c >= 0x132 && c <= 0x137) || (c >= 0x14A && c <= 0x177))
        return c | 1;
    if ((c >= 0x139 && c <= 0x148) || (c >= 0x179 && c <= 0x17E)) return c % 2 == 1 ? c + 1 : c;
    if (c == 0x178) return 0xFF;                    // Ÿ
    if (c >= 0x400 && c <= 0x40F) return c + 0x50;  // Ѐ to Џ: Є, І, Ї
    if (c >= 0x410 && c <= 0x42F) return c + 0x20;  // А to Я
    if (c >= 0x460 && c <= 0x4BF && !(c >= 0x482 && c <= 0x48A)) return c | 1;  // with Ґ
    if (c == 0x1E9E) return 0xDF;                                               // capital sharp s
    return c;
}

/// Every letter that lower() changes has a small letter below U+0800.
void append(std::string& out, char32_t c) {
    if (c < 0x80) {
        out += static_cast<char>(c);
    } else {
        out += static_cast<char>(0xC0 | (c >> 6));
        out += static_cast<char>(0x80 | (c & 0x3F));
    }
}

}  // namespace

std::string fold_case(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const diag::Character character = diag::character_at(text, at);
        const char32_t code = character.valid ? lower(character.code) : character.code;
        if (!character.valid || code == character.code)
            out += text.substr(at, character.bytes);
        else
            append(out, code);
        at += character.bytes;
    }
    return out;
}

}  // namespace gallipot::reference
