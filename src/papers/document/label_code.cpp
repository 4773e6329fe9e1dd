#include "papers/document/label_code.hpp"

#include "base/strings/ascii.hpp"

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
        if (strings::is_letter_or_digit(c) || marks.find(c) != std::string_view::npos)
            out += strings::to_upper(c);
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

}  // namespace gallipot::document
