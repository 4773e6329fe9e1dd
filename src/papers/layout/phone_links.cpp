#include "papers/layout/phone_links.hpp"

#include <algorithm>

#include "base/strings/ascii.hpp"
#include "papers/layout/typeset.hpp"

namespace gallipot::layout {

namespace {

constexpr std::string_view no_break = "\u00a0";

/// The letter or digit that stands next to a number, a space between them or not.
bool goes_on_before(std::string_view before) {
    if (before.ends_with(no_break)) before.remove_suffix(no_break.size());
    return !before.empty() && (strings::is_digit(before.back()) || before.back() == '+');
}
bool goes_on_behind(std::string_view behind) {
    if (behind.starts_with(no_break)) behind.remove_prefix(no_break.size());
    return !behind.empty() && strings::is_digit(behind.front());
}

void link_in(Page& page, const Item& item, const std::string& number, const fonts::Faces& faces) {
    const auto& text = std::get<Text>(item.shape);
    const fonts::Font& font = text.face == Face::bold ? *faces.bold : *faces.regular;
    const std::string_view all = text.text;
    for (auto at = all.find(number); at != std::string_view::npos;
         at = all.find(number, at + number.size())) {
        const auto before = all.substr(0, at), behind = all.substr(at + number.size());
        if (goes_on_before(before) || goes_on_behind(behind)) continue;
        const double left = text.origin.x + in_mm(font.advance(before), text.size);
        const double height = text.size * mm_per_point;
        page.links.push_back({{left, text.origin.y - 0.9 * height,
                               in_mm(font.advance(number), text.size), 1.2 * height},
                              phone_link(number),
                              -1,
                              number,
                              item.tag});
    }
}

}  // namespace

std::string phone_link(const std::string& number) {
    std::string link = "tel:";
    for (const char c : number)
        if (strings::is_digit(c) || (c == '+' && link.size() == 4)) link += c;
    return link;
}

void link_phones(Paper& paper, const std::vector<std::string>& numbers, const fonts::Faces& faces) {
    for (Page& page : paper.pages)
        for (const Item& item : page.items) {
            if (!std::holds_alternative<Text>(item.shape)) continue;
            for (const std::string& number : numbers) {
                if (number.empty()) continue;
                link_in(page, item, text::unbroken(number), faces);
            }
        }
}

}  // namespace gallipot::layout
