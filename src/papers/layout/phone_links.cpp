#include "papers/layout/phone_links.hpp"

#include "papers/layout/typeset.hpp"
#include "papers/text/phone_numbers.hpp"

namespace gallipot::layout {

void link_phones(Paper& paper, const std::vector<std::string>& numbers, const fonts::Faces& faces) {
    for (Page& page : paper.pages)
        for (const Item& item : page.items) {
            const auto* text = std::get_if<Text>(&item.shape);
            if (text == nullptr) continue;
            const fonts::Font& font = text->face == Face::bold ? *faces.bold : *faces.regular;
            const std::string_view all = text->text;
            for (const auto& [at, number] : text::phones_in(all, numbers)) {
                const double left =
                    text->origin.x + in_mm(font.advance(all.substr(0, at)), text->size);
                const double height = text->size * mm_per_point;
                page.links.push_back({{left, text->origin.y - 0.9 * height,
                                       in_mm(font.advance(number), text->size), 1.2 * height},
                                      text::phone_link(number),
                                      -1,
                                      std::string(number),
                                      item.tag});
            }
        }
}

}  // namespace gallipot::layout
