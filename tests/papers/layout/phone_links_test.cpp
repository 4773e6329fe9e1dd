#include "papers/layout/phone_links.hpp"

#include "catch_all.hpp"

#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"

using namespace gallipot;
using namespace gallipot::document;

namespace {

layout::Page page_saying(const std::string& text, const std::string& number) {
    Sheet sheet;
    sheet.bookmark = "Sheet";
    sheet.title = {{"Title", false}};
    sheet.blocks = {Paragraph{{{text, false}}}};
    auto paper =
        layout::lay_out({"Title", "", "en", {sheet}}, layout::a4_style(), tests::installed_faces());
    layout::link_phones(paper, {number}, tests::installed_faces());
    return paper.pages.at(0);
}

}  // namespace

TEST_CASE("a number on a page leads to a call, and lies where it is printed", "[layout][links]") {
    const auto page = page_saying("Call 13\u00a011\u00a026 now.", "13 11 26");
    REQUIRE(page.links.size() == 1);
    CHECK(page.links[0].uri == "tel:131126");
    const auto& font = *tests::installed_faces().regular;
    for (const auto& item : page.items)
        if (const auto* text = std::get_if<layout::Text>(&item.shape))
            if (text->text.find("Call") != std::string::npos) {
                const double left =
                    text->origin.x + font.advance("Call ") * text->size * layout::mm_per_point;
                CHECK(page.links[0].box.x == Approx(left));
                CHECK(page.links[0].box.y < text->origin.y);
                CHECK(page.links[0].box.bottom() > text->origin.y);
            }
}
