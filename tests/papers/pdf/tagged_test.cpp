#include <algorithm>
#include <regex>
#include <sstream>

#include "catch_all.hpp"

#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/sample_document.hpp"
#include "papers/pdf/program.hpp"
#include "papers/pdf/writer.hpp"

using namespace gallipot;
using tests::installed_faces;
using tests::run;
using tests::TemporaryFile;

namespace {

/// What a document says in the order in which it says it, without spaces. Figures say nothing here:
/// they have words of their own (rules.py).
class Said {
  public:
    std::string operator()(const document::Document& document) {
        for (const document::Sheet& sheet : document.sheets) {
            add(sheet.kicker);
            add(sheet.title);
            add(sheet.aside);
            add(sheet.blocks);
        }
        return std::move(all_);
    }

    void operator()(const document::Heading& heading) {
        for (auto field = heading.fields.rbegin(); field != heading.fields.rend(); ++field)
            fields_.push_back(*field);
        add(heading.text);
        for (const auto& field : fields_) add(field);
        fields_.clear();
    }
    void operator()(const document::Paragraph& paragraph) { add(paragraph.text); }
    void operator()(const document::Banner& banner) {
        add(banner.left);
        add(banner.right);
    }
    void operator()(const document::Checklist& list) {
        for (std::size_t i = 0; i < list.items.size(); ++i) {
            if (list.numbered) add({{std::to_string(i + 1), true}});
            add(list.items[i]);
        }
    }
    void operator()(const document::Table& table) {
        for (const auto& column : table.columns) add(column.heading);
        for (const auto& row : table.rows)
            for (const auto& cell : row) {
                add(cell.text);
                add(cell.note);
                for (const auto& choice : cell.choices) add(choice);
                for (const auto& tool : cell.tools) add(tool.name);
            }
    }
    void operator()(const document::FillIn& fill_in) {
        for (const auto& column : fill_in.columns) add(column.heading);
    }
    void operator()(const document::Columns& columns) {
        for (const auto& part : columns.parts) {
            add(part.heading);
            for (const auto& line : part.lines) add(line);
        }
    }
    void operator()(const document::Plots& plots) {
        for (const auto& plot : plots.plots) {
            add(plot.title);
            add(plot.note);
        }
    }
    void operator()(const document::PlotKey& key) {
        for (const auto& entry : key.entries) add(entry.text);
    }
    void operator()(const document::FloorDrawing&) {}
    void operator()(const document::Signs& signs) {
        for (const auto& entry : signs.entries) add(entry.text);
    }
    void operator()(const document::ContainerDrawings&) {}
    void operator()(const document::Code& code) {
        for (const auto& line : code.lines) add(line);
    }
    void operator()(const document::Beside& beside) {
        add(beside.left->blocks);
        add(beside.right->blocks);
    }
    void operator()(const std::shared_ptr<const document::Group>& group) { add(group->blocks); }

  private:
    void add(const std::vector<document::Block>& blocks) {
        for (const auto& block : blocks) std::visit(*this, block);
    }
    void add(const text::StyledText& runs) { all_ += text::plain(runs); }

    std::string all_;
    std::vector<text::StyledText> fields_;
};

std::string without_spaces(std::string text) {
    std::erase_if(text, [](char c) { return c == ' ' || c == '\n'; });
    for (const std::string_view none : {"\u00A0", "\u00AD"})
        for (auto at = text.find(none); at != std::string::npos; at = text.find(none, at))
            text.erase(at, none.size());
    return text;
}

/// What poppler finds in the structure of a file, in its order; figures left out.
std::string heard(const TemporaryFile& file) {
    std::istringstream lines(run("pdfinfo -struct-text " + file.path()).output);
    std::string all, line;
    std::size_t figure = std::string::npos;  // how far in the figure stands that is being left out
    while (std::getline(lines, line)) {
        const auto indent = line.find_first_not_of(' ');
        if (indent == std::string::npos) continue;
        if (figure != std::string::npos && indent > figure) continue;
        figure = line.compare(indent, 6, "Figure") == 0 ? indent : std::string::npos;
        if (line[indent] == '"') all += line.substr(indent + 1, line.rfind('"') - indent - 1);
    }
    return all;
}

/// A file's objects and operators in plain sight.
std::string laid_open(const std::string& bytes) {
    const TemporaryFile file(bytes, ".pdf");
    return run("qpdf --qdf --object-streams=disable " + file.path() + " -").output;
}

std::string page_saying(layout::Text text) {
    layout::Page page{{100, 50}, {"a group"}, {}};
    layout::Item item;
    item.shape = std::move(text);
    item.group = 0;
    item.tag = layout::add_tag(page.tags, {layout::Role::paragraph, -1, {}, {}});
    page.items.push_back(item);
    layout::Paper paper;
    paper.title = "Test";
    paper.language = "en";
    paper.pages.push_back(std::move(page));
    return pdf::write(paper, installed_faces());
}

layout::Text text_of(const std::string& words) {
    layout::Text text;
    text.origin = {10, 20};
    text.size = 12;
    text.text = words;
    return text;
}

}  // namespace

TEST_CASE("what poppler reads by the structure is what the document says in its order") {
    const document::Document document = tests::sample_document();
    const auto paper = layout::lay_out(document, layout::a4_style(), installed_faces());
    REQUIRE(paper.pages.size() > 2);
    const TemporaryFile file(pdf::write(paper, installed_faces()), ".pdf");
    CHECK(without_spaces(heard(file)) == without_spaces(Said()(document)));
}

TEST_CASE("a table that goes on over the page is one table, its headings read once") {
    document::Table table;
    table.columns = {{tests::plain("Number"), document::Align::left, 0},
                     {tests::plain("Word"), document::Align::left, 1}};
    for (int i = 0; i < 120; ++i)
        table.rows.push_back({{tests::plain(std::to_string(i)), {}}, {tests::plain("word"), {}}});
    document::Sheet sheet;
    sheet.title = tests::plain("Numbers");
    sheet.blocks.emplace_back(std::move(table));
    const auto paper =
        layout::lay_out({"Numbers", "", "en", {sheet}}, layout::a4_style(), installed_faces());
    REQUIRE(paper.pages.size() > 1);
    const std::string open = laid_open(pdf::write(paper, installed_faces()));
    const auto count = [&](const std::string& of) {
        std::size_t found = 0;
        for (auto at = open.find(of); at != std::string::npos; at = open.find(of, at + 1)) ++found;
        return found;
    };
    CHECK(count("/S /Table") == 1);
    CHECK(count("/S /TR") == 121);
    CHECK(count("/S /TH") == 2);
    CHECK(count("/Scope /Column") == 2);
}

TEST_CASE("a phrase in another language says so") {
    layout::Text text = text_of("Manténgase fuera del alcance de los niños.");
    CHECK(laid_open(page_saying(text)).find("/Lang (es)>> BDC") == std::string::npos);
    text.language = "es";
    CHECK(laid_open(page_saying(text)).find("/Lang (es)>> BDC") != std::string::npos);
}

TEST_CASE("a line that ends at a space has one; a hyphen of its end alone is soft") {
    const auto read = [](const layout::Text& text) {
        const TemporaryFile file(page_saying(text), ".pdf");
        return heard(file);
    };
    layout::Text text = text_of("of boric");
    CHECK(read(text) == "of boric");
    text.space_after = true;
    CHECK(read(text) == "of boric ");
    text = text_of("cock-");
    text.hyphenated = true;
    CHECK(read(text) == "cock-");
    CHECK(laid_open(page_saying(text)).find("/ActualText <feff00ad>") != std::string::npos);
}

TEST_CASE("sheets that are called alike stay apart") {
    document::Sheet sheet;
    sheet.bookmark = "Home";
    sheet.title = tests::plain("Home");
    sheet.blocks.emplace_back(document::bullets({tests::plain("one"), tests::plain("two")}));
    const auto paper =
        layout::lay_out({"Homes", "", "en", {sheet, sheet}}, layout::a4_style(), installed_faces());
    const std::string open = laid_open(pdf::write(paper, installed_faces()));
    std::size_t lists = 0;
    for (auto at = open.find("/S /L\n"); at != std::string::npos; at = open.find("/S /L\n", at + 1))
        ++lists;
    CHECK(lists == 2);
}
