#include "papers/html/sheet_page.hpp"

#include <algorithm>

#include "papers/html/drawing.hpp"
#include "papers/html/markup.hpp"
#include "papers/layout/blocks.hpp"
#include "papers/qr/symbol.hpp"
#include "papers/text/phone_numbers.hpp"

namespace gallipot::html {

namespace {

using text::StyledText;

/// Drawings are laid out as wide as a phone is, so that their words can be read there.
constexpr double drawing_width = 100;  // mm

class Page {
  public:
    explicit Page(const PageOptions& options) : options_(options), style_(narrow()) {}

    std::string operator()(const document::Sheet& sheet) {
        Html head = element("title", {options_.title});
        head += lone("meta",
                     {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
        Html top;
        if (!sheet.kicker.empty()) top += element("p", {{"class", "kicker"}}, {said(sheet.kicker)});
        top += element("h1", {said(sheet.title)});
        if (!sheet.aside.empty()) top += element("p", {said(sheet.aside)});
        const Html main = element("main", {element("header", {top}), blocks(sheet.blocks),
                                           sheet.code ? (*this)(*sheet.code) : Html()});
        const Html foot = element("footer", {element("p", {said(sheet.footer_left)}),
                                             element("p", {said(sheet.footer_right)})});
        return page_markup(options_.language, options_.style, head, main + foot);
    }

    Html operator()(const document::Heading& heading) {
        return element("h2", {said(heading.text)});
    }
    Html operator()(const document::Paragraph& paragraph) {
        const char* name = paragraph.voice == document::Voice::large   ? "large"
                           : paragraph.voice == document::Voice::small ? "small"
                                                                       : "normal";
        return element("p", {{"class", name}}, {said(paragraph.text)});
    }
    Html operator()(const document::Banner& banner) {
        Html words = element("p", {said(banner.left)});
        if (!banner.right.empty()) words += element("p", {said(banner.right)});
        return element("div", {{"class", "banner"}}, {words});
    }
    Html operator()(const document::Checklist& list) {
        Html items;
        for (const auto& one : list.items) items += element("li", {said(one)});
        return list.numbered ? element("ol", {items}) : element("ul", {items});
    }
    Html operator()(const document::Table& table) {
        Html headings, rows;
        bool any = false;
        for (const auto& column : table.columns) {
            any |= !column.heading.empty();
            headings += column.heading.empty()
                            ? element("td", {})
                            : element("th", {{"scope", "col"}}, {said(column.heading)});
        }
        for (const auto& row : table.rows) {
            Html cells;
            for (const auto& cell : row) {
                Html words = said(cell.text);
                if (!cell.note.empty()) words += element("small", {said(cell.note)});
                for (const auto& choice : cell.choices) words += element("span", {said(choice)});
                for (const auto& tool : cell.tools) words += element("small", {said(tool.name)});
                cells += element("td", {words});
            }
            rows += element("tr", {cells});
        }
        Html all;
        if (any) all += element("thead", {element("tr", {headings})});
        all += element("tbody", {rows});
        return element("table", {all});
    }
    Html operator()(const document::FillIn&) { return {}; }
    Html operator()(const document::Columns& columns) {
        Html parts;
        for (const auto& part : columns.parts) {
            Html lines = element("p", {element("b", {said(part.heading)})});
            for (const auto& line : part.lines) lines += element("p", {said(line)});
            parts += element("div", {lines});
        }
        return element("div", {{"class", "beside"}}, {parts});
    }
    Html operator()(const document::Plots& plots) {
        Html all;
        for (const auto& plot : plots.plots)
            all += figure(document::Plots{{plot}, 1}, plot.alternative);
        return all;
    }
    Html operator()(const document::PlotKey& key) {
        std::string words;
        for (const auto& entry : key.entries)
            words += (words.empty() ? "" : " · ") + text::plain(entry.text);
        return figure(key, words);
    }
    Html operator()(const document::Signs& signs) {
        Html items;
        for (const auto& entry : signs.entries) {
            const document::Signs picture{{{entry.sign, {}, {}}}};
            const auto boxes = layout::line_boxes_of(picture, context(), "sign");
            items += element("li", {drawing(boxes, style_.sign, entry.alternative),
                                    element("span", {said(entry.text)})});
        }
        return element("ul", {{"class", "signs"}}, {items});
    }
    Html operator()(const document::Code& code) {
        const document::Code alone{code.content, {}, code.alternative};
        const auto boxes = layout::line_boxes_of(alone, context(), "code");
        // As wide as the symbol: its clear space at the sides is the style's.
        const double zones = 2 * qr::quiet_zone * style_.code_module;
        Html html = drawing(boxes, boxes.front().height - zones, code.alternative);
        for (const auto& line : code.lines) html += element("p", {said(line)});
        html += element("p", {element("a", {{"href", code.content}}, {code.content})});
        return element("div", {{"class", "code"}}, {html});
    }
    Html operator()(const document::FloorDrawing& floor) {
        return figure(floor, floor.alternative);
    }
    Html operator()(const document::ContainerDrawings& drawings) {
        Html all;
        for (const auto& one : drawings.drawings)
            all += figure(document::ContainerDrawings{{one}}, one.alternative);
        return all;
    }
    Html operator()(const document::Beside& beside) {
        return element("div", {{"class", "beside"}},
                       {element("div", {blocks(beside.left->blocks)}),
                        element("div", {blocks(beside.right->blocks)})});
    }
    Html operator()(const std::shared_ptr<const document::Group>& group) {
        return element("section", {blocks(group->blocks)});
    }

  private:
    static layout::PageStyle narrow() {
        layout::PageStyle style = layout::a4_style();
        style.page.width = drawing_width + 2 * style.margin;
        return style;
    }
    layout::LayoutContext context() { return {style_, options_.faces, options_.language, store_}; }

    Html blocks(const std::vector<document::Block>& all) {
        Html made;
        for (const auto& block : all) made += std::visit(*this, block);
        return made;
    }

    template <class Block>
    Html figure(const Block& block, const std::string& alternative) {
        const auto boxes = layout::line_boxes_of(block, context(), "drawing");
        if (boxes.empty()) return {};
        return element("figure", {drawing(boxes, drawing_width, alternative)});
    }

    Html said(const StyledText& runs) const {
        Html made;
        for (const text::Run& run : runs) {
            Html words = linked(run.text);
            if (run.bold) words = element("b", {words});
            if (!run.language.empty()) words = element("span", {{"lang", run.language}}, {words});
            made += words;
        }
        return made;
    }

    /// A text, its telephone numbers to be called by a touch.
    Html linked(std::string_view words) const {
        Html made;
        std::size_t done = 0;
        for (const auto& [at, number] : text::phones_in(words, options_.numbers)) {
            made += words.substr(done, at - done);
            made += element("a", {{"href", text::phone_link(number)}}, {number});
            done = at + number.size();
        }
        return made + words.substr(done);
    }

    const PageOptions& options_;
    layout::PageStyle style_;
    layout::WordStore store_{options_.faces};
};

}  // namespace

std::string sheet_page(const document::Sheet& sheet, const PageOptions& options) {
    return Page(options)(sheet);
}

}  // namespace gallipot::html
