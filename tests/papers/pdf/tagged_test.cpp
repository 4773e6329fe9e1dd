#include <algorithm>
#include <regex>
#include <sstream>

#include "catch_all.hpp"

#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/said.hpp"
#include "papers/layout/sample_document.hpp"
#include "papers/pdf/program.hpp"
#include "papers/pdf/writer.hpp"

using namespace gallipot;
using tests::installed_faces;
using tests::run;
using tests::Said;
using tests::TemporaryFile;
using tests::without_spaces;

namespace {

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
    CHECK(without_spaces(heard(file)) == without_spaces(Said(true)(document)));
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
    CHECK(laid_open(page_saying(text)).find("/Lang (es)") == std::string::npos);
    text.language = "es";
    CHECK(laid_open(page_saying(text)).find("/Lang (es)") != std::string::npos);
}

TEST_CASE("what is said in several languages is a paragraph in each, which says which") {
    document::Signs signs;
    signs.large = true;
    document::Signs::Entry entry{document::Sign::not_food, {}, "no food"};
    const std::string german =
        "Nicht essen, nicht trinken und auch nicht daran riechen, und das gilt für alle.";
    entry.lines = {{{"No.", false}}, {{german, false, "de"}}, {{"No.", false, "es"}}};
    signs.entries.push_back(entry);
    document::Sheet sheet;
    sheet.bookmark = "Pictures";
    sheet.title = {{"Pictures", false}};
    sheet.blocks.emplace_back(signs);
    const auto paper =
        layout::lay_out({"Pictures", "", "en", {sheet}}, layout::a4_style(), installed_faces());
    std::vector<std::string> languages, words;  // of the paragraphs; of the words in them
    for (const layout::Tag& tag : paper.pages.front().tags)
        if (!tag.language.empty()) languages.push_back(tag.language);
    for (const layout::Item& item : paper.pages.front().items)
        if (const auto* text = std::get_if<layout::Text>(&item.shape); text && text->text == "No.")
            words.push_back(text->language);
    // A line's end within a sentence begins no other one.
    CHECK(languages == std::vector<std::string>{"de", "es"});
    // The same words are not those of the language that said them first.
    CHECK(words == std::vector<std::string>{"", "es"});
    const std::string open = laid_open(pdf::write(paper, installed_faces()));
    CHECK(open.find("/Lang (de)") != std::string::npos);
    CHECK(open.find("/Lang (es)") != std::string::npos);
}

TEST_CASE("a line that ends at a space has one") {
    const auto read = [](const layout::Text& text) {
        const TemporaryFile file(page_saying(text), ".pdf");
        return heard(file);
    };
    layout::Text text = text_of("of boric");
    CHECK(read(text) == "of boric");
    text.space_after = true;
    CHECK(read(text) == "of boric ");
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
