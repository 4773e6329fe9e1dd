#include "papers/document/label_code.hpp"

namespace gallipot::document {

std::string dense_text(std::string_view text) {
    constexpr std::string_view marks = "$%*+-./:";
    constexpr std::string_view no_break_space = "\u00A0";
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text.substr(i).starts_with(no_break_space)) {
            ++i;
            out += ' ';
            continue;
        }
        const char c = text[i];
        if (static_cast<unsigned char>(c) >= 0x80) return std::string(text);
        const bool small = c >= 'a' && c <= 'z';
        const bool fits = small || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                          marks.find(c) != std::string_view::npos;
        if (fits)
            out += small ? static_cast<char>(c - 'a' + 'A') : c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

}  // namespace gallipot::document
