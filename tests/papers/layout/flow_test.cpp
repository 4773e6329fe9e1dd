#include "papers/layout/flow.hpp"

#include <algorithm>
#include <map>
#include <random>
#include <set>
#include <sstream>
#include <string>

#include "catch_all.hpp"

#include "golden.hpp"
#include "papers/layout/check.hpp"
#include "papers/layout/dump.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/sample_document.hpp"

using namespace gallipot;
using namespace gallipot::document;
using layout::LayoutError;
using layout::Page;
using layout::PageStyle;
using layout::Paper;
using tests::bold;
using tests::installed_faces;
using tests::plain;

namespace {

Paper laid(const Document& document, const PageStyle& style = layout::a4_style()) {
    bool fits = true;
    try {
        layout::try_out(document, style, installed_faces());
    } catch (const layout::LayoutError&) {
        fits = false;
    }
    try {
        Paper paper = layout::lay_out(document, style, installed_faces());
        CHECK(fits);
        return paper;
    } catch (const layout::LayoutError&) {
        CHECK_FALSE(fits);
        throw;
    }
}

Document with_sheet(Sheet sheet, const std::string& language = "en") {
    return {"Title", "Author", language, {std::move(sheet)}};
}

Sheet sheet_of(std::vector<Block> blocks) {
    Sheet sheet;
    sheet.bookmark = "Sheet";
    sheet.title = plain("Title");
    sheet.blocks = std::move(blocks);
    return sheet;
}

/// Nothing overlaps, nothing stands in the margins, everything is named.
void check_sound(const Paper& paper, const PageStyle& style) {
    const layout::Box allowed{style.margin, style.margin_top, style.width(),
                              style.page.height - style.margin_top - style.margin_bottom};
    for (std::size_t i = 0; i < paper.pages.size(); ++i) {
        INFO("page " << i + 1);
        const Page& page = paper.pages[i];
        CHECK(page.size.width == style.page.width);
        CHECK(page.size.height == style.page.height);
        CHECK(layout::overlaps(page) == std::vector<std::string>{});
        CHECK(layout::strays(page, allowed) == std::vector<std::string>{});
        CHECK(layout::unnamed(page) == std::vector<std::string>{});
    }
}

using Counts = std::map<std::string, int>;

/// A line may break after a hyphen or a slash, so words end there too.
void count_words(Counts& counts, std::string text) {
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '-' || c == '/'; }, ' ');
    std::istringstream words(text);
    for (std::string word; words >> word;) ++counts[word];
}

/// Words of everything a document says.
class Said {
  public:
    explicit Said(const Document& document) {
        for (const Sheet& sheet : document.sheets) {
            for (const StyledText* runs : {&sheet.kicker, &sheet.title, &sheet.aside,
                                           &sheet.footer_left, &sheet.footer_right}) {
                add(*runs);
            }
            blocks(sheet.blocks);
        }
    }
    void operator()(const Heading& heading) {
        add(heading.text);
        for (const StyledText& field : heading.fields) add(field);
    }
    void operator()(const Paragraph& paragraph) { add(paragraph.text); }
    void operator()(const Banner& banner) {
        add(banner.left);
        add(banner.right);
    }
    void operator()(const Checklist& list) {
        for (const StyledText& item : list.items) add(item);
    }
    void operator()(const Table& table) {
        headings(table.columns);
        for (const auto& row : table.rows) {
            for (const Cell& cell : row) {
                add(cell.text);
                add(cell.note);
                for (const StyledText& choice : cell.choices) add(choice);
            }
        }
    }
    void operator()(const ContainerDrawings& drawings) {
        for (const ContainerDrawing& one : drawings.drawings)
            for (const auto* part :
                 {&one.title, &one.lid, &one.holes, &one.label, &one.fill, &one.note})
                add(*part);
    }
    void operator()(const Beside& beside) {
        blocks(beside.left->blocks);
        blocks(beside.right->blocks);
    }
    void operator()(const FillIn& fill_in) { headings(fill_in.columns); }
    void operator()(const Columns& columns) {
        for (const Columns::Part& part : columns.parts) {
            add(part.heading);
            for (const StyledText& line : part.lines) add(line);
        }
    }
    void operator()(const Plots& plots) {
        for (const Plot& plot : plots.plots) {
            add(plot.title);
            add(plot.note);
            for (const Plot::Tick& tick : plot.ticks) count_words(counts, tick.label);
            for (const Plot::Panel& panel : plot.panels)
                for (const Plot::Tick& tick : panel.ticks) count_words(counts, tick.label);
        }
    }
    void operator()(const PlotKey& key) {
        for (const PlotKey::Entry& entry : key.entries) add(entry.text);
    }
    void operator()(const FloorDrawing& floor) {
        for (const auto& room : floor.rooms) add(room.name);
        for (const auto& spot : floor.spots) count_words(counts, spot.name);
    }
    void operator()(const Signs& signs) {
        for (const auto& entry : signs.entries) add(entry.text);
    }
    void operator()(const Code& code) {
        for (const auto& line : code.lines) add(line);
    }
    void operator()(const std::shared_ptr<const Group>& group) { blocks(group->blocks); }

    Counts counts;

  private:
    void blocks(const std::vector<Block>& all) {
        for (const Block& block : all) std::visit(*this, block);
    }
    void headings(const std::vector<Column>& columns) {
        for (const Column& column : columns) add(column.heading);
    }
    void add(const StyledText& runs) { count_words(counts, text::plain(runs)); }
};

/// The words of a page. Items that touch on a line make one word; others are apart.
void count_words_of(Counts& counts, const Page& page) {
    std::string text;
    double right = -1;
    double baseline = -1;
    for (const layout::Item& item : page.items) {
        const auto* piece = std::get_if<layout::Text>(&item.shape);
        if (piece == nullptr) continue;
        const bool touches =
            std::abs(piece->origin.y - baseline) < 1e-6 && std::abs(piece->origin.x - right) < 1e-6;
        if (!touches) text += ' ';
        text += piece->text;
        right = piece->origin.x + piece->width;
        baseline = piece->origin.y;
    }
    count_words(counts, text);
}

/// Every word a document says stands on its pages, at least as often.
void check_nothing_lost(const Document& document, const Paper& paper) {
    Counts shown;
    for (const Page& page : paper.pages) count_words_of(shown, page);
    for (const auto& [word, count] : Said(document).counts) {
        INFO("the word " << word);
        CHECK(shown[word] >= count);
    }
}

/// Names of the groups on a page that begin with `part` after the sheet's name, in order.
std::vector<std::string> groups_with(const Page& page, const std::string& part) {
    std::vector<std::string> found;
    for (const std::string& group : page.groups) {
        if (group.find(part) != std::string::npos) found.push_back(group);
    }
    return found;
}

/// Texts on a page in a group whose name contains `part`.
std::vector<std::string> texts_in(const Page& page, const std::string& part) {
    std::vector<std::string> found;
    for (const layout::Item& item : page.items) {
        const auto* text = std::get_if<layout::Text>(&item.shape);
        if (text != nullptr && page.groups[item.group].find(part) != std::string::npos) {
            found.push_back(text->text);
        }
    }
    return found;
}

std::string last_group_before_footer(const Page& page) {
    for (auto group = page.groups.rbegin(); group != page.groups.rend(); ++group) {
        if (group->find("footer") == std::string::npos) return *group;
    }
    return {};
}

}  // namespace

TEST_CASE("the sample is sound on A4 and on Letter, and nothing of it is lost") {
    for (const PageStyle& style : {layout::a4_style(), layout::letter_style()}) {
        const Document document = tests::sample_document();
        const Paper paper = laid(document, style);
        CHECK(paper.title == "Millrace Community Hall");
        CHECK(paper.author == "Hall caretaker");
        CHECK(paper.language == "en");
        check_sound(paper, style);
        check_nothing_lost(document, paper);
    }
}

TEST_CASE("the mixing card stands as it was last looked at") {
    tests::check_golden("layout/mixing_card.txt", dump(laid(with_sheet(tests::mixing_card()))));
}

TEST_CASE("type comes in four sizes") {
    std::set<double> sizes;
    for (const Page& page : laid(tests::sample_document()).pages) {
        for (const layout::Item& item : page.items) {
            if (const auto* text = std::get_if<layout::Text>(&item.shape)) sizes.insert(text->size);
        }
    }
    CHECK(sizes.size() == 4);
}

TEST_CASE("each sheet begins a page, and has its bookmarks") {
    const Paper paper = laid(tests::sample_document());
    std::vector<std::string> titles;
    std::vector<int> pages;
    for (const layout::Bookmark& bookmark : paper.bookmarks) {
        CHECK(bookmark.page < static_cast<int>(paper.pages.size()));
        if (bookmark.level == 0) {
            titles.push_back(bookmark.title);
            pages.push_back(bookmark.page);
        }
    }
    CHECK(titles ==
          std::vector<std::string>{"Sweet liquid bait", "For everyone in the building", "Visits"});
    CHECK(pages == std::vector<int>{0, 1, 2});
    CHECK(paper.bookmarks[1].title == "Measure out");
    CHECK(paper.bookmarks[1].level == 1);
}

TEST_CASE("a table over many pages repeats its headings and shows every row once") {
    const Document document = with_sheet(tests::visit_sheet(200));
    const Paper paper = laid(document);
    REQUIRE(paper.pages.size() >= 6);
    check_sound(paper, layout::a4_style());
    check_nothing_lost(document, paper);
    std::size_t rows = 0;
    for (const Page& page : paper.pages) {
        const std::size_t here = groups_with(page, "table 1, row").size();
        rows += here;
        const auto headings = texts_in(page, "column headings");
        if (here > 0) {
            CHECK(headings ==
                  std::vector<std::string>{"Station", "Place", "Due", "Seen", "Bait left"});
        }
    }
    CHECK(rows == 200);
}

TEST_CASE("pages are numbered when there is more than one") {
    const Paper one = laid(with_sheet(tests::mixing_card()));
    REQUIRE(one.pages.size() == 1);
    for (const std::string& text : texts_in(one.pages[0], "footer")) {
        CHECK(text.find('/') == std::string::npos);
    }
    const Paper many = laid(with_sheet(tests::visit_sheet(200)));
    for (std::size_t i = 0; i < many.pages.size(); ++i) {
        CHECK(texts_in(many.pages[i], "footer").back() ==
              std::to_string(i + 1) + "\u00a0/\u00a0" + std::to_string(many.pages.size()));
        CHECK(groups_with(many.pages[i], "running head").size() == (i > 0 ? 1 : 0));
    }
}

TEST_CASE("a heading is never the last thing on a page") {
    for (int lines = 0; lines < 70; ++lines) {
        std::vector<Block> blocks;
        Checklist filler;
        filler.items.assign(static_cast<std::size_t>(lines), plain("A line."));
        blocks.push_back(filler);
        blocks.push_back(Heading{plain("Heading")});
        if (lines % 3 == 0) {
            blocks.push_back(Paragraph{plain("What it heads."), Voice::normal});
        } else if (lines % 3 == 1) {
            Table table;
            table.columns = {{plain("Column"), Align::left, 0}};
            table.rows.assign(5, {{plain("cell"), {}}});
            blocks.push_back(table);
        } else {
            FillIn fill_in;
            fill_in.columns = {{plain("Name"), Align::left, 0}};
            fill_in.lines = 2;
            blocks.push_back(fill_in);
        }
        const Paper paper = laid(with_sheet(sheet_of(blocks)));
        INFO(lines << " lines before it");
        check_sound(paper, layout::a4_style());
        for (const Page& page : paper.pages) {
            const std::string last = last_group_before_footer(page);
            CHECK(last.find("heading") == std::string::npos);
        }
    }
}

TEST_CASE("a paragraph never leaves a single line on either page") {
    for (int lines = 30; lines < 60; ++lines) {
        Checklist filler;
        filler.items.assign(static_cast<std::size_t>(lines), plain("A line."));
        std::string text;
        for (int i = 0; i < 70; ++i) text += "some words ";
        const Paper paper =
            laid(with_sheet(sheet_of({filler, Paragraph{plain(text), Voice::normal}})));
        INFO(lines << " lines before it");
        for (const Page& page : paper.pages) {
            CHECK(texts_in(page, "paragraph").size() != 1);
        }
    }
}

TEST_CASE("a group that a page can hold is not split") {
    auto group = std::make_shared<Group>();
    Checklist steps;
    steps.items.assign(12, plain("A step of the group."));
    group->blocks = {Heading{plain("Kept together")}, steps};
    for (int lines = 20; lines < 60; lines += 3) {
        Checklist filler;
        filler.items.assign(static_cast<std::size_t>(lines), plain("A line."));
        const Paper paper =
            laid(with_sheet(sheet_of({filler, std::shared_ptr<const Group>(group)})));
        for (const Page& page : paper.pages) {
            const auto steps_here = texts_in(page, "list 2").size();
            CHECK((steps_here == 0 || steps_here == 12));
        }
    }
    // One that no page can hold flows on, with nothing lost.
    steps.items.assign(120, plain("A step of the group."));
    auto large = std::make_shared<Group>();
    large->blocks = {steps};
    const Document document = with_sheet(sheet_of({std::shared_ptr<const Group>(large)}));
    const Paper paper = laid(document);
    CHECK(paper.pages.size() > 1);
    check_nothing_lost(document, paper);
}

TEST_CASE("figures end at one edge, whatever their length") {
    Table table;
    table.columns = {{plain("What"), Align::left, 1}, {plain("Weight"), Align::right, 0}};
    table.rows = {{{plain("borax"), {}}, {plain("3.2\u00a0g"), {}}},
                  {{plain("sugar"), {}}, {plain("1234.5\u00a0g"), plain("about")}}};
    const Paper paper = laid(with_sheet(sheet_of({table})));
    std::set<long> edges;
    for (const layout::Item& item : paper.pages[0].items) {
        const auto* text = std::get_if<layout::Text>(&item.shape);
        if (text == nullptr || text->origin.x < 100) continue;
        edges.insert(std::lround((text->origin.x + text->width) * 1000));
    }
    CHECK(edges == std::set<long>{193000});
}

TEST_CASE("a table too wide for normal type is set in small type before it is refused") {
    const auto table_of = [](int columns, const std::string& word) {
        Table table;
        for (int i = 0; i < columns; ++i) {
            table.columns.push_back({plain("Spalte"), Align::left, 1});
        }
        table.rows.push_back(
            std::vector<Cell>(static_cast<std::size_t>(columns), {plain(word), {}}));
        return table;
    };
    const std::string word = "Bors\u00e4urekonzentration";
    const Document fits = with_sheet(sheet_of({table_of(5, word)}), "de");
    const Paper paper = laid(fits);
    check_sound(paper, layout::a4_style());
    for (const layout::Item& item : paper.pages[0].items) {
        const auto* text = std::get_if<layout::Text>(&item.shape);
        if (text != nullptr && text->text == word) CHECK(text->size == 7.5);
    }
    try {
        laid(with_sheet(sheet_of({table_of(9, word)}), "de"));
        FAIL("set where it does not fit");
    } catch (const LayoutError& error) {
        REQUIRE(error.overflows().size() == 1);
        CHECK(error.overflows()[0].what.english() == "Sheet: table 1");
        CHECK(error.overflows()[0].needed > error.overflows()[0].available);
        CHECK_THAT(error.overflows()[0].problem.english(),
                   Catch::Matchers::ContainsSubstring("at 7.5 pt"));
        CHECK_THAT(error.overflows()[0].problem.english(),
                   Catch::Matchers::ContainsSubstring(word));
    }
}

TEST_CASE("a title with a word wider than the page is set smaller, never cut") {
    Sheet sheet = sheet_of({});
    sheet.title = plain("Donaudampfschifffahrtselektrizit\u00e4tenhauptbetriebswerk");
    const Document document = with_sheet(sheet, "de");
    const Paper paper = laid(document);
    check_sound(paper, layout::a4_style());
    check_nothing_lost(document, paper);
    CHECK(std::get<layout::Text>(paper.pages[0].items[0].shape).size < 20);
}

TEST_CASE("everything that does not fit is told of at once") {
    const std::string endless(400, 'x');
    const Document document = with_sheet(sheet_of(
        {Heading{plain(endless)}, Paragraph{plain("fine"), Voice::normal},
         Paragraph{plain(endless), Voice::normal}, Paragraph{plain("\U0001F41C"), Voice::normal}}));
    try {
        laid(document);
        FAIL("set where it does not fit");
    } catch (const LayoutError& error) {
        REQUIRE(error.overflows().size() == 3);
        CHECK_THAT(error.overflows()[1].what.english(),
                   Catch::Matchers::ContainsSubstring("paragraph 2"));
        CHECK_THAT(error.overflows()[2].problem.english(),
                   Catch::Matchers::ContainsSubstring("U+1F41C"));
        CHECK_THAT(error.what(), Catch::Matchers::ContainsSubstring("heading"));
    }
}

TEST_CASE("a row higher than a page is an error with the figures") {
    std::string text;
    for (int i = 0; i < 3000; ++i) text += "word ";
    Table table;
    table.columns = {{plain("Column"), Align::left, 1}};
    table.rows = {{{plain(text), {}}}};
    try {
        laid(with_sheet(sheet_of({table})));
        FAIL("set where it does not fit");
    } catch (const LayoutError& error) {
        REQUIRE(error.overflows().size() == 1);
        CHECK(error.overflows()[0].what.english() == "Sheet: table 1, row 1");
        CHECK(error.overflows()[0].needed > error.overflows()[0].available);
    }
}

TEST_CASE("more cells than columns is our own mistake, and said so") {
    Table table;
    table.columns = {{plain("Column"), Align::left, 1}};
    table.rows = {{{plain("one"), {}}, {plain("two"), {}}}};
    CHECK_THROWS_AS(laid(with_sheet(sheet_of({table}))), std::invalid_argument);
}

TEST_CASE("a sheet that just misses a page is drawn together") {
    std::vector<Block> blocks;
    for (int i = 0; i < 11; ++i) {
        blocks.push_back(Heading{plain("Heading")});
        blocks.push_back(Paragraph{plain("A line."), Voice::normal});
    }
    const PageStyle style = layout::a4_style();
    const Document document = with_sheet(sheet_of(blocks));
    const Paper paper = laid(document, style);
    CHECK(paper.pages.size() == 1);
    check_sound(paper, style);
    for (int i = 0; i < 16; ++i) blocks.push_back(Heading{plain("Heading")});
    blocks.push_back(Paragraph{plain("A line."), Voice::normal});
    CHECK(laid(with_sheet(sheet_of(blocks)), style).pages.size() == 2);
}

TEST_CASE("an empty sheet is an empty page, an empty document no page") {
    CHECK(laid(with_sheet({})).pages.size() == 1);
    CHECK(laid({}).pages.empty());
    const Document hollow =
        with_sheet(sheet_of({Paragraph{}, Banner{}, Checklist{}, Table{}, FillIn{}, Columns{},
                             std::shared_ptr<const Group>()}));
    check_sound(laid(hollow), layout::a4_style());
}

namespace {

/// Random documents from words of several languages.
class Inventor {
  public:
    explicit Inventor(unsigned seed) : random_(seed) {}

    Document document() {
        Document made{"Random", "Tests", "en", {}};
        for (int i = number(1, 3); i > 0; --i) {
            Sheet sheet;
            sheet.bookmark = "Sheet " + std::to_string(i);
            sheet.kicker = runs(6);
            sheet.title = runs(14);
            sheet.aside = runs(7);
            sheet.footer_left = runs(40);
            sheet.footer_right = runs(12);
            sheet.blocks = blocks(number(0, 14), 2);
            made.sheets.push_back(std::move(sheet));
        }
        return made;
    }

  private:
    int number(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }

    StyledText runs(int maximum) {
        static const std::vector<std::string> words = {"borax",
                                                       "3.2\u00a0g",
                                                       "bait",
                                                       "\u043f\u0440\u0438\u043d\u0430\u0434\u0430",
                                                       "Bors\u00e4ure\u00e4quivalent",
                                                       "a",
                                                       "ni\u00f1os",
                                                       "of",
                                                       "\u0411\u0443\u0440\u0430",
                                                       "children",
                                                       "\u00c5",
                                                       "1\u00a0%",
                                                       "well-known",
                                                       "and/or"};
        StyledText made;
        for (int i = number(0, maximum); i > 0; --i) {
            const auto at = static_cast<std::size_t>(number(0, static_cast<int>(words.size()) - 1));
            made.push_back({words[at] + (i > 1 ? " " : ""), number(0, 4) == 0});
        }
        return made;
    }

    std::vector<Block> blocks(int count, int depth) {
        std::vector<Block> made;
        for (int i = 0; i < count; ++i) made.push_back(block(depth));
        return made;
    }

    std::vector<Column> columns(int count) {
        std::vector<Column> made;
        for (int i = 0; i < count; ++i) {
            made.push_back({runs(3), number(0, 2) == 0 ? Align::right : Align::left,
                            static_cast<double>(number(0, 3))});
        }
        return made;
    }

    Block block(int depth) {
        switch (number(0, depth > 0 ? 7 : 6)) {
            case 0:
                return Heading{runs(8)};
            case 1:
                return Paragraph{runs(90), static_cast<Voice>(number(0, 2))};
            case 2:
                return Banner{runs(20), runs(5)};
            case 3: {
                Checklist list;
                list.numbered = number(0, 1) == 1;
                list.boxes = number(0, 1) == 1;
                for (int i = number(0, 14); i > 0; --i) list.items.push_back(runs(40));
                return list;
            }
            case 4: {
                Table table;
                table.columns = columns(number(1, 5));
                for (int r = number(0, 40); r > 0; --r) {
                    std::vector<Cell> row(table.columns.size());
                    for (Cell& cell : row)
                        cell = {runs(8), number(0, 3) == 0 ? runs(5) : StyledText{}};
                    table.rows.push_back(std::move(row));
                }
                table.last_row_is_total = number(0, 1) == 1;
                return table;
            }
            case 5: {
                FillIn fill_in;
                fill_in.columns = columns(number(1, 5));
                fill_in.lines = number(0, 30);
                return fill_in;
            }
            case 6: {
                Columns made;
                for (int i = number(1, 3); i > 0; --i) {
                    made.parts.push_back({runs(4), {runs(20), runs(20), runs(3)}});
                }
                return made;
            }
            default: {
                auto group = std::make_shared<Group>();
                group->blocks = blocks(number(0, 4), depth - 1);
                return std::shared_ptr<const Group>(group);
            }
        }
    }

    std::mt19937 random_;
};

}  // namespace

TEST_CASE("random documents are laid out soundly and whole") {
    for (unsigned seed = 1; seed <= 150; ++seed) {
        const Document document = Inventor(seed).document();
        const PageStyle style = seed % 2 == 0 ? layout::a4_style() : layout::letter_style();
        INFO("seed " << seed);
        const Paper paper = laid(document, style);
        check_sound(paper, style);
        check_nothing_lost(document, paper);
        CHECK(dump(paper) == dump(laid(document, style)));
    }
}

namespace {

std::shared_ptr<const Group> group_of(const std::string& name, int lines) {
    Group group;
    for (int i = 0; i < lines; ++i)
        group.blocks.emplace_back(Paragraph{{{name + std::to_string(i), false}}});
    return std::make_shared<const Group>(std::move(group));
}

/// Where a text begins, and on which page; fails when it is not there.
std::pair<std::size_t, layout::Point> found(const layout::Paper& paper, const std::string& what) {
    for (std::size_t p = 0; p < paper.pages.size(); ++p)
        for (const layout::Item& item : paper.pages[p].items)
            if (const auto* text = std::get_if<layout::Text>(&item.shape))
                if (text->text == what) return {p, text->origin};
    FAIL(what << " is on no page");
    return {};
}

}  // namespace

TEST_CASE("two groups stand side by side, and one below the other where they are too high",
          "[layout][flow]") {
    const auto laid = [](int lines) {
        Sheet sheet;
        sheet.bookmark = "Sheet";
        sheet.title = {{"Title", false}};
        sheet.blocks = {Beside{group_of("left", lines), group_of("right", 3)}};
        return layout::lay_out({"Title", "", "en", {sheet}}, layout::a4_style(),
                               tests::installed_faces());
    };
    const auto low = laid(4);
    CHECK(found(low, "left0").second.y == Approx(found(low, "right0").second.y));
    CHECK(found(low, "right0").second.x > 110);
    const auto high = laid(60);
    CHECK(high.pages.size() == 2);
    CHECK(found(high, "left0").second.x == Approx(found(high, "right0").second.x));
    CHECK(found(high, "right2").first == 1);
}

TEST_CASE(
    "a long list of short items is set in two columns where it may be, one of long items not") {
    Checklist list;
    for (int i = 1; i <= 11; ++i)
        list.items.push_back(plain("Item " + std::to_string(i) + " is short."));
    list.numbered = true;
    const auto high = [](const Checklist& what) {
        const Paper paper = laid(with_sheet(sheet_of({what})));
        check_sound(paper, layout::a4_style());
        REQUIRE(paper.pages.size() == 1);
        double top = 1000, bottom = 0, right = 0;
        for (const auto& item : paper.pages.front().items) {
            const auto* text = std::get_if<layout::Text>(&item.shape);
            if (text == nullptr || text->text.find("Item") == std::string::npos) continue;
            top = std::min(top, item.bounds.y);
            bottom = std::max(bottom, item.bounds.bottom());
            right = std::max(right, item.bounds.x);
        }
        return std::pair{bottom - top, right};
    };
    const auto [whole, left] = high(list);
    list.may_halve = true;
    const auto [halved, right] = high(list);
    CHECK(halved < 0.6 * whole);
    CHECK(right > left + 80);
    for (auto& item : list.items)
        item = plain(text::plain(item) +
                     " But then it goes on for so long that half a page's width holds only half.");
    CHECK(high(list).second == Approx(left));
}

TEST_CASE(
    "a sheet stands below the one before it where all of it fits, else on a page of its own") {
    const auto lines = [](const std::string& what, int count) {
        Sheet sheet = sheet_of({});
        sheet.bookmark = what;
        sheet.title = plain(what);
        for (int i = 0; i < count; ++i)
            sheet.blocks.emplace_back(Paragraph{plain(what + std::to_string(i))});
        return sheet;
    };
    for (const int count : {10, 45}) {
        Sheet second = lines("Second", count);
        second.follows = true;
        const Paper paper = laid({"Title", "Author", "en", {lines("First", 12), second}});
        check_sound(paper, layout::a4_style());
        INFO(count);
        CHECK(paper.pages.size() == (count == 10 ? 1U : 2U));
        REQUIRE(paper.bookmarks.size() == 2);
        CHECK(paper.bookmarks[1].title == "Second");
        CHECK(paper.bookmarks[1].level == 0);
        CHECK(paper.bookmarks[1].page == (count == 10 ? 0 : 1));
        CHECK((paper.bookmarks[1].top > paper.bookmarks[0].top + 60) == (count == 10));
    }
}

TEST_CASE("a sheet of several sizes is set in the largest that brings its front to the front",
          "[layout][flow]") {
    const auto size_of = [](int lines, std::size_t front, std::size_t most_pages) {
        Sheet sheet;
        sheet.bookmark = "Sheet";
        sheet.title = {{"Title", false}};
        for (int i = 0; i < lines; ++i) sheet.blocks.emplace_back(Paragraph{{{"line", false}}});
        sheet.sizes = {12, 11, 10, 9.5};
        sheet.front = front;
        sheet.most_pages = most_pages;
        const auto paper = layout::lay_out({"Title", "", "en", {sheet}}, layout::a4_style(),
                                           tests::installed_faces());
        for (const layout::Item& item : paper.pages.front().items)
            if (const auto* text = std::get_if<layout::Text>(&item.shape))
                if (text->text == "line") return text->size;
        return 0.0;
    };
    CHECK(size_of(10, 10, 1) == Approx(12));
    CHECK(size_of(46, 46, 0) < 12);
    CHECK(size_of(46, 46, 0) >= 9.5);
    CHECK(size_of(46, 10, 0) == Approx(12));  // the rest may go on behind
    CHECK(size_of(46, 10, 1) == Approx(12));  // or be smaller there
    CHECK(size_of(46, 46, 1) < 12);
    CHECK(size_of(200, 200, 0) == Approx(9.5));
}

TEST_CASE("what need not stand on the front is set smaller before the front is", "[layout][flow]") {
    // The sizes of a front of 20 lines and of what is behind it, on one page.
    const auto sizes_of = [](int behind, double least_behind) {
        Sheet sheet;
        sheet.bookmark = "Sheet";
        sheet.title = {{"Title", false}};
        for (int i = 0; i < 20; ++i) sheet.blocks.emplace_back(Paragraph{{{"front", false}}});
        for (int i = 0; i < behind; ++i) sheet.blocks.emplace_back(Paragraph{{{"behind", false}}});
        sheet.sizes = {12, 11, 10, 9.5};
        sheet.front = 20;
        sheet.least_behind = least_behind;
        sheet.most_pages = 1;
        const Paper paper = laid({"Title", "", "en", {sheet}});
        check_sound(paper, layout::a4_style());
        CHECK(paper.pages.size() == 1);
        std::pair<double, double> sizes;
        for (const layout::Item& item : paper.pages.front().items)
            if (const auto* text = std::get_if<layout::Text>(&item.shape)) {
                if (text->text == "front") sizes.first = text->size;
                if (text->text == "behind") sizes.second = text->size;
            }
        return sizes;
    };
    CHECK(sizes_of(10, 0) == std::pair(12.0, 12.0));
    const auto [front, behind] = sizes_of(24, 0);
    CHECK(front == Approx(12));
    CHECK(behind < 12);
    // Where that would be too small, both are smaller.
    const auto [both, the_same] = sizes_of(24, 12);
    CHECK(both < 12);
    CHECK(both == the_same);
}

TEST_CASE("side by side, whoever has much more to say has as much more room as saves a line",
          "[layout][flow]") {
    const auto height = [](const std::string& left, const std::string& right) {
        Columns columns;
        columns.parts = {{plain("Left"), {plain(left)}}, {plain("Right"), {plain(right)}}};
        const Paper paper = laid(with_sheet(sheet_of({columns})));
        check_sound(paper, layout::a4_style());
        double low = 0, high = 1000;
        for (const layout::Item& item : paper.pages.front().items) {
            const auto* text = std::get_if<layout::Text>(&item.shape);
            if (text == nullptr || text->text == "Title" || text->text == "Sheet") continue;
            high = std::min(high, item.bounds.y);
            low = std::max(low, item.bounds.bottom());
        }
        return low - high;
    };
    std::string much;
    for (int i = 0; i < 8; ++i) much += (i == 0 ? "" : " ") + std::string("something");
    const double one_line = height("short", "short");
    CHECK(height("short", much) == Approx(one_line).margin(1));
    CHECK(height(much, much) > one_line + 3);
}
