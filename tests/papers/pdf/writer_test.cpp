#include "papers/pdf/writer.hpp"

#include <cstdio>
#include <random>
#include <regex>
#include <sstream>

#include "catch_all.hpp"

#include "golden.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/sample_document.hpp"
#include "papers/pdf/picture.hpp"
#include "papers/pdf/program.hpp"

using namespace gallipot;
using layout::Page;
using layout::Paper;
using layout::Text;
using tests::installed_faces;
using tests::Picture;
using tests::plain;
using tests::run;
using tests::TemporaryFile;

namespace {

const Paper& sample() {
    static const Paper paper =
        layout::lay_out(tests::sample_document(), layout::a4_style(), installed_faces());
    return paper;
}

const TemporaryFile& sample_file() {
    static const TemporaryFile file(pdf::write(sample(), installed_faces()), ".pdf");
    return file;
}

Page blank_page(double width = 100) {
    return {{width, 50}, {"a group"}, {}};
}

Paper paper_of(Page page) {
    Paper paper;
    paper.title = "Test";
    paper.language = "en";
    paper.pages.push_back(std::move(page));
    return paper;
}

Page page_saying(const std::string& text, layout::Face face = layout::Face::regular) {
    Page page = blank_page(300);
    layout::Item item;
    item.shape = Text{{10, 20}, 12, face, layout::black, text, 0};
    item.group = 0;
    page.items.push_back(item);
    return page;
}

TemporaryFile file_of(Page page) {
    return {pdf::write(paper_of(std::move(page)), installed_faces()), ".pdf"};
}

/// Without white space of any kind: how readers space and break lines is theirs.
std::string letters_of(const std::string& text) {
    std::string letters;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text.compare(i, 2, "\u00a0") == 0) {
            ++i;
        } else if (static_cast<unsigned char>(text[i]) > ' ') {
            letters += text[i];
        }
    }
    return letters;
}

std::string letters_of(const Paper& paper) {
    std::string letters;
    for (const Page& page : paper.pages) {
        for (const layout::Item& item : page.items) {
            if (const auto* text = std::get_if<Text>(&item.shape))
                letters += letters_of(text->text);
        }
    }
    return letters;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// Bytes of the space, no-break or not, that begins at `at`; 0 when none does.
std::size_t space_bytes(const std::string& text, std::size_t at) {
    if (at < text.size() && text[at] == ' ') return 1;
    return text.compare(std::min(at, text.size()), 2, "\u00a0") == 0 ? 2 : 0;
}

std::size_t word_end(const std::string& text, std::size_t at) {
    while (at < text.size() && space_bytes(text, at) == 0) ++at;
    return at;
}

struct PlacedWord {
    std::string word;
    double x = 0, baseline = 0;  ///< points from the top left
};

/// The words of a page and where the layout puts them. What touches on a line is one word, though
/// it be in two faces.
std::vector<PlacedWord> words_on(const Page& page) {
    std::vector<PlacedWord> words;
    constexpr double points_per_mm = 72 / 25.4;
    double right = -1;  // where the last word ends, when no space follows it
    double baseline = -1;
    for (const layout::Item& item : page.items) {
        const auto* text = std::get_if<Text>(&item.shape);
        if (text == nullptr) continue;
        const fonts::Font& font =
            text->face == layout::Face::bold ? *installed_faces().bold : *installed_faces().regular;
        const double y = text->origin.y * points_per_mm;
        for (std::size_t begin = 0; begin < text->text.size();) {
            const std::size_t end = word_end(text->text, begin);
            const double x = text->origin.x * points_per_mm +
                             font.advance(text->text.substr(0, begin)) * text->size;
            const std::string word = text->text.substr(begin, end - begin);
            const bool touches = std::abs(x - right) < 1e-6 && std::abs(y - baseline) < 1e-6;
            if (touches && !word.empty()) {
                words.back().word += word;
            } else if (!word.empty()) {
                words.push_back({word, x, y});
            }
            baseline = y;
            right = end < text->text.size() ? -1 : x + font.advance(word) * text->size;
            begin = end + space_bytes(text->text, end);
        }
    }
    return words;
}

}  // namespace

TEST_CASE("qpdf finds nothing wrong") {
    const auto ran = run("qpdf --check " + sample_file().path());
    CHECK(ran.status == 0);
    CHECK_THAT(ran.output,
               Catch::Matchers::ContainsSubstring("No syntax or stream encoding errors found"));
    CHECK_THAT(ran.output, !Catch::Matchers::ContainsSubstring("WARNING"));
}

TEST_CASE("mupdf reads every object and page without complaint") {
    const auto info = run("mutool info " + sample_file().path());
    CHECK(info.status == 0);
    CHECK_THAT(info.output, Catch::Matchers::ContainsSubstring(
                                "Pages: " + std::to_string(sample().pages.size())));
    for (const char* complaint : {"error", "warning: syntax", "warning: trying"}) {
        CHECK_THAT(info.output, !Catch::Matchers::ContainsSubstring(complaint));
    }
    // mupdf-tools on Debian says on standard error that it was built without colour management,
    // and which page it is at; it has nothing else to say.
    const auto drawn = run("mutool draw -F txt -o /dev/null " + sample_file().path());
    CHECK(drawn.status == 0);
    for (const std::string& line : lines_of(drawn.output)) {
        CHECK((line == "warning: ICC support is not available" || line.rfind("page ", 0) == 0));
    }
}

TEST_CASE("both fonts are embedded subsets with their Unicode values") {
    const auto lines = lines_of(run("pdffonts " + sample_file().path()).output);
    REQUIRE(lines.size() == 4);
    for (std::size_t i = 2; i < 4; ++i) {
        CHECK_THAT(lines[i], Catch::Matchers::ContainsSubstring("+NotoSans-"));
        CHECK_THAT(lines[i], Catch::Matchers::ContainsSubstring("CID TrueType"));
        CHECK_THAT(lines[i],
                   Catch::Matchers::ContainsSubstring("yes yes yes"));  // embedded, subset, Unicode
    }
}

TEST_CASE("a subset holds the letters used and few others") {
    const TemporaryFile few = file_of(page_saying("borax"));
    const TemporaryFile many(pdf::write(sample(), installed_faces()), ".pdf");
    const std::string sizes =
        "qpdf --show-npages " + few.path() + " && stat -c %s " + few.path() + " " + many.path();
    const auto lines = lines_of(run(sizes).output);
    REQUIRE(lines.size() == 3);
    CHECK(std::stol(lines[1]) < 15'000);
    CHECK(std::stol(lines[1]) < std::stol(lines[2]));
    CHECK(std::stol(lines[2]) < 60'000);
}

TEST_CASE("the text that went in comes out, in reading order") {
    const auto poppler = run("pdftotext -raw -enc UTF-8 " + sample_file().path() + " -");
    CHECK(poppler.status == 0);
    CHECK(letters_of(poppler.output) == letters_of(sample()));
    const auto mupdf =
        run("mutool draw -q -F txt -o - " + sample_file().path(), tests::Errors::dropped);
    CHECK(letters_of(mupdf.output) == letters_of(sample()));
}

TEST_CASE("letters of every language of the papers come out as they went in") {
    const std::vector<std::string> texts = {
        "\u0406\u0437 \u0446\u0443\u043a\u0440\u043e\u043c \u0456 \u0431\u0443\u0440\u043e\u044e: "
        "\u0433\u0440\u0438\u0431, \u0491\u0430\u043d\u043e\u043a, \u0457\u0436\u0430, \u0454\u0434"
        "\u043d\u0456\u0441\u0442\u044c, \u0429\u0435\u043d\u044f, \u043f\u2019\u044f\u0442\u044c "
        "\u2116 5",
        "\u00c4pfel, \u00d6l, \u00dcberma\u00df, s\u00fc\u00df, Gro\u1e9e, "
        "\u201eBors\u00e4ure\u201c",
        "\u00bfD\u00f3nde est\u00e1n los ni\u00f1os? \u00a1No comer! ping\u00fcino, \u00c1rbol",
        "Ilayo sa mga bata; Ma\u00f1anita, \u00c2no, \u00eb, \u00f2",
        "\u00bd tsp, \u00bc tsp, 40 \u00b0C, 3 \u00d7 5 \u2013 7 \u00b1 2 \u00b5g \u2022 \u2026"};
    for (const auto face : {layout::Face::regular, layout::Face::bold}) {
        for (const std::string& text : texts) {
            const TemporaryFile file = file_of(page_saying(text, face));
            const auto ran = run("pdftotext -raw -enc UTF-8 " + file.path() + " -");
            CHECK(letters_of(ran.output) == letters_of(text));
        }
    }
}

TEST_CASE("poppler finds each word where the layout put it, within 0.1 mm") {
    constexpr double tenth_of_a_millimetre = 0.1 * 72 / 25.4;
    // poppler's boxes reach from the font's ascender to its descender.
    const double ascent = installed_faces().regular->ascent();
    const double share = ascent / (ascent + installed_faces().regular->descent());
    for (std::size_t i = 0; i < sample().pages.size(); ++i) {
        std::vector<PlacedWord> expected = words_on(sample().pages[i]);
        REQUIRE(!expected.empty());
        const std::string number = std::to_string(i + 1);
        const auto ran = run("pdftotext -bbox -f " + number + " -l " + number + " " +
                             sample_file().path() + " -");
        const std::regex box(
            R"re(<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">(.*)</word>)re");
        for (std::sregex_iterator at(ran.output.begin(), ran.output.end(), box), end; at != end;
             ++at) {
            const double x = std::stod((*at)[1]);
            const double top = std::stod((*at)[2]);
            const double baseline = top + (std::stod((*at)[3]) - top) * share;
            const auto found =
                std::find_if(expected.begin(), expected.end(), [&](const PlacedWord& placed) {
                    return placed.word == (*at)[4] &&
                           std::abs(placed.x - x) < tenth_of_a_millimetre &&
                           std::abs(placed.baseline - baseline) < tenth_of_a_millimetre;
                });
            INFO("page " << number << ": " << at->str());
            REQUIRE(found != expected.end());
            expected.erase(found);
        }
        CHECK(expected.empty());
    }
}

TEST_CASE("mupdf finds every letter of a line within a hundredth of a millimetre") {
    const std::string text = "Keep out of reach";
    const TemporaryFile file = file_of(page_saying(text));
    const auto ran = run("mutool draw -q -F stext -o - " + file.path(), tests::Errors::dropped);
    const std::regex letter(R"re( x="([\d.]+)" y="([\d.]+)"[^>]* color="#000000"[^>]* c="(.)")re");
    constexpr double points_per_mm = 72 / 25.4;
    std::size_t i = 0;
    for (std::sregex_iterator at(ran.output.begin(), ran.output.end(), letter), end; at != end;
         ++at, ++i) {
        REQUIRE(i < text.size());
        CHECK((*at)[3] == std::string(1, text[i]));
        const double x =
            10 * points_per_mm + installed_faces().regular->advance(text.substr(0, i)) * 12;
        CHECK(std::stod((*at)[1]) == Approx(x).margin(0.01 * points_per_mm));
        CHECK(std::stod((*at)[2]) == Approx(20 * points_per_mm).margin(0.01 * points_per_mm));
    }
    CHECK(i == text.size());
}

TEST_CASE("the file states title, author, language and page size, and no date") {
    const auto info = run("pdfinfo " + sample_file().path());
    CHECK_THAT(info.output,
               Catch::Matchers::ContainsSubstring("Title:           Millrace Community Hall"));
    CHECK_THAT(info.output, Catch::Matchers::ContainsSubstring("Author:          Hall caretaker"));
    // ISO 216: A4 is 210 by 297 mm.
    CHECK_THAT(info.output,
               Catch::Matchers::ContainsSubstring("Page size:       595.276 x 841.89 pts (A4)"));
    CHECK_THAT(info.output, !Catch::Matchers::ContainsSubstring("Date"));
    const auto root = run("mutool show " + sample_file().path() + " trailer/Root");
    CHECK_THAT(root.output, Catch::Matchers::ContainsSubstring("/Lang (en)"));
    CHECK_THAT(root.output, Catch::Matchers::ContainsSubstring("/DisplayDocTitle true"));
}

TEST_CASE("Letter is Letter, and a label's page is its own size") {
    // ANSI/ASME Y14.1: Letter is 8.5 by 11 inches.
    const Paper letter =
        layout::lay_out(tests::sample_document(), layout::letter_style(), installed_faces());
    const TemporaryFile file(pdf::write(letter, installed_faces()), ".pdf");
    CHECK_THAT(run("pdfinfo " + file.path()).output,
               Catch::Matchers::ContainsSubstring("Page size:       612 x 792 pts (letter)"));
    const TemporaryFile label = file_of(blank_page());
    CHECK_THAT(run("pdfinfo " + label.path()).output,
               Catch::Matchers::ContainsSubstring("283.465 x 141.732 pts"));
}

TEST_CASE("titles and bookmarks in any language survive") {
    Paper paper = paper_of(blank_page());
    paper.title =
        "\u0421\u043e\u043b\u043e\u0434\u043a\u0430 \u043f\u0440\u0438\u043d\u0430\u0434\u0430";
    paper.author = "J\u00f6rg (Hall) \\ test";
    paper.language = "uk-UA";
    paper.pages.push_back(blank_page());
    paper.bookmarks = {{"\u041a\u0430\u0440\u0442\u043a\u0430", 0, 5, 0},
                       {"Mix (1)", 0, 20, 1},
                       {"Then", 1, 10, 1},
                       {"Second", 1, 30, 0}};
    const TemporaryFile file(pdf::write(paper, installed_faces()), ".pdf");
    CHECK(run("qpdf --check " + file.path()).status == 0);
    const auto info = run("pdfinfo -enc UTF-8 " + file.path());
    CHECK_THAT(info.output, Catch::Matchers::ContainsSubstring(paper.title));
    CHECK_THAT(info.output, Catch::Matchers::ContainsSubstring(paper.author));
    CHECK_THAT(run("mutool show " + file.path() + " trailer/Root/Lang").output,
               Catch::Matchers::ContainsSubstring("uk-UA"));
    const auto outline = run("mutool show " + file.path() + " outline");
    const auto lines = lines_of(outline.output);
    REQUIRE(lines.size() == 4);
    CHECK_THAT(lines[0], Catch::Matchers::ContainsSubstring(
                             "\"\u041a\u0430\u0440\u0442\u043a\u0430\"\t#page=1&"));
    CHECK_THAT(lines[1], Catch::Matchers::StartsWith("|") &&
                             Catch::Matchers::ContainsSubstring("\"Mix (1)\"\t#page=1&"));
    CHECK_THAT(lines[2], Catch::Matchers::StartsWith("|") &&
                             Catch::Matchers::ContainsSubstring("\"Then\"\t#page=2&"));
    CHECK_THAT(lines[3], Catch::Matchers::ContainsSubstring("\"Second\"\t#page=2&"));
    // 20 mm below the top of a page 50 mm high; at whatever zoom the reader has.
    CHECK(std::stod(lines[1].substr(lines[1].rfind(',') + 1)) ==
          Approx(20 * 72 / 25.4).margin(0.001));
}

TEST_CASE("the same paper gives the same bytes") {
    const std::string first = pdf::write(sample(), installed_faces());
    CHECK(first == pdf::write(sample(), installed_faces()));
    CHECK(first == tests::slurp(sample_file().path().substr(1, sample_file().path().size() - 2)));
}

TEST_CASE("writing page by page gives the same file") {
    pdf::Writer writer(installed_faces(), sample().title, sample().author, sample().language);
    for (const Page& page : sample().pages) writer.add(page);
    for (const layout::Bookmark& bookmark : sample().bookmarks) writer.add(bookmark);
    CHECK(writer.finish() == pdf::write(sample(), installed_faces()));
}

TEST_CASE("a file of four hundred pages is whole") {
    pdf::Writer writer(installed_faces(), "Labels", "Tests", "en");
    for (int i = 0; i < 400; ++i) writer.add(page_saying("K" + std::to_string(i)));
    writer.add(layout::Bookmark{"Last", 399, 10, 0});
    const TemporaryFile file(writer.finish(), ".pdf");
    CHECK(run("qpdf --check " + file.path()).status == 0);
    CHECK(run("qpdf --show-npages " + file.path()).output == "400\n");
    CHECK_THAT(run("pdftotext -f 400 -l 400 " + file.path() + " -").output,
               Catch::Matchers::ContainsSubstring("K399"));
}

TEST_CASE("a file may have more pages than one list of libharu holds") {
    Paper paper;
    paper.title = "Long";
    paper.pages.assign(8'200, blank_page());
    paper.bookmarks = {{"last", 8'199, 0, 0}};
    const TemporaryFile file(pdf::write(paper, installed_faces()), ".pdf");
    CHECK(lines_of(run("qpdf --show-npages " + file.path()).output).front() == "8200");
}

TEST_CASE("everything is vectors") {
    const auto ran = run("pdfimages -list " + sample_file().path());
    CHECK(lines_of(ran.output).size() == 2);  // two lines of heading, no picture
}

TEST_CASE("a painted page shows what was drawn") {
    const Picture page(sample_file(), 1, 72);
    CHECK(page.width() == 596);
    CHECK(page.height() == 842);
    CHECK(page.dark_share() > 0.01);
    CHECK(page.dark_share() < 0.30);
    CHECK(page.at(19, 39) == 0);    // the banner's left end
    CHECK(page.at(8, 150) == 255);  // the margin
}

TEST_CASE("shapes are painted in their place, by the even-odd rule and in their colours") {
    using layout::PathStep;
    Page page = blank_page();
    page.items.push_back(item(layout::Rectangle{{10, 10, 20, 10}}));
    page.items.push_back(item(layout::Rectangle{{40, 10, 20, 10}, false, layout::black, 2}));
    page.items.push_back(item(layout::Rectangle{{70, 10, 20, 10}, true, {128, 128, 128}, 0, 5}));
    page.items.push_back(item(layout::Line{{10, 30}, {30, 30}, 2, layout::black}));
    layout::Path ring;
    const auto square = [&](double x, double y, double side) {
        ring.steps.push_back({PathStep::Kind::move, {x, y}, {}, {}});
        ring.steps.push_back({PathStep::Kind::line, {x + side, y}, {}, {}});
        ring.steps.push_back({PathStep::Kind::line, {x + side, y + side}, {}, {}});
        ring.steps.push_back({PathStep::Kind::line, {x, y + side}, {}, {}});
        ring.steps.push_back({PathStep::Kind::close, {}, {}, {}});
    };
    square(40, 25, 20);
    square(45, 30, 10);
    page.items.push_back(item(ring));
    layout::Path drop;
    drop.steps = {{PathStep::Kind::move, {70, 40}, {}, {}},
                  {PathStep::Kind::curve, {70, 25}, {90, 25}, {90, 40}},
                  {PathStep::Kind::close, {}, {}, {}}};
    page.items.push_back(item(drop));
    const TemporaryFile file = file_of(page);
    CHECK(run("qpdf --check " + file.path()).status == 0);
    const Picture picture(file, 1, 254);  // ten dots a millimetre
    CHECK(picture.at(20, 15) == 0);
    CHECK(picture.at(9.5, 15) == 255);
    CHECK(picture.at(30.5, 15) == 255);
    CHECK(picture.at(50, 15) == 255);
    CHECK(picture.at(40.5, 15) == 0);
    CHECK(picture.at(39.5, 15) == 0);
    CHECK(picture.at(80, 15) == Approx(128).margin(2));
    CHECK(picture.at(70.3, 10.3) == 255);  // outside the rounded corner
    CHECK(picture.at(20, 30.5) == 0);
    CHECK(picture.at(20, 31.5) == 255);
    CHECK(picture.at(42, 27) == 0);
    CHECK(picture.at(50, 35) == 255);  // the hole of the ring
    CHECK(picture.at(80, 32) == 0);
    CHECK(picture.at(80, 27) == 255);  // a cubic reaches three quarters of the way to its controls
}

TEST_CASE("a code's modules are painted one by one where they belong") {
    std::mt19937 random(7);
    qr::Symbol symbol;
    symbol.modules = 33;
    for (int i = 0; i < 33 * 33; ++i) symbol.dark.push_back(random() % 2 == 0);
    Page page = blank_page();
    page.items.push_back(
        item(layout::Code{{10, 5, 33, 33}, std::make_shared<const qr::Symbol>(symbol)}));
    const TemporaryFile file = file_of(page);
    const Picture picture(file, 1, 254);
    int wrong = 0;
    for (int row = 0; row < 33; ++row) {
        for (int column = 0; column < 33; ++column) {
            const bool dark = picture.at(10.5 + column, 5.5 + row) < 128;
            if (dark != symbol.dark[static_cast<std::size_t>(33 * row + column)]) ++wrong;
        }
    }
    CHECK(wrong == 0);
    CHECK(picture.at(9.5, 20) == 255);
    CHECK(picture.at(43.5, 20) == 255);
}

TEST_CASE("dark modules below one another leave no seam") {
    qr::Symbol symbol;
    symbol.modules = 33;
    symbol.dark.resize(33 * 33, true);
    Page page = blank_page();
    page.items.push_back(
        item(layout::Code{{10, 5, 9.9, 9.9}, std::make_shared<const qr::Symbol>(symbol)}));
    const TemporaryFile file = file_of(page);
    const Picture picture(file, 1, 201);
    int lightest = 0;
    for (double y = 5.2; y < 14.7; y += 0.07) {
        for (double x = 10.2; x < 19.7; x += 0.07) lightest = std::max(lightest, picture.at(x, y));
    }
    CHECK(lightest == 0);
}

TEST_CASE("what a PDF of ours cannot hold is refused by name") {
    CHECK_THROWS_WITH(pdf::write(paper_of(page_saying("ant \U0001F41C")), installed_faces()),
                      Catch::Matchers::ContainsSubstring("U+1F41C"));
    CHECK_THROWS_WITH(pdf::write(paper_of(page_saying("\u4e2d")), installed_faces()),
                      Catch::Matchers::ContainsSubstring("U+4E2D"));
    CHECK_THROWS_AS(pdf::write(paper_of(page_saying("\xff")), installed_faces()),
                    std::invalid_argument);
}

TEST_CASE("a fault inside libharu becomes one of our errors") {
    Page huge = blank_page();
    huge.size = {1e6, 1e6};
    CHECK_THROWS_AS(pdf::write(paper_of(huge), installed_faces()), pdf::PdfError);
    Paper astray = paper_of(blank_page());
    astray.bookmarks = {{"nowhere", 7, 0, 0}};
    CHECK_THROWS(pdf::write(astray, installed_faces()));
}

TEST_CASE("a paper without pages is refused: no reader opens one") {
    CHECK_THROWS_AS(pdf::write({}, installed_faces()), std::invalid_argument);
}

TEST_CASE("chapters: pages are named by theirs, and links lead to their pages and to calls") {
    Paper cover = paper_of(page_saying("cover"));
    cover.pages[0].links = {{{10, 10, 50, 5}, {}, 1}, {{10, 30, 20, 5}, "tel:131126", -1}};
    Paper cards = paper_of(page_saying("first"));
    cards.pages.push_back(page_saying("second"));
    Paper plan = paper_of(page_saying("plan"));
    cover.pages[0].links.push_back({{10, 20, 50, 5}, {}, 2});
    const TemporaryFile file(
        pdf::write(
            {{"Cover", &cover, "cover"}, {"Cards", &cards, "cards"}, {"Plan", &plan, "План"}},
            "Pack", installed_faces()),
        ".pdf");
    CHECK(run("qpdf --check " + file.path()).status == 0);
    const std::string json = run("qpdf --json=2 " + file.path(), tests::Errors::dropped).output;
    // Page labels (PDF 32000-1:2008, 12.4.2): a prefix, and numbers from 1 again.
    const auto labels = json.substr(json.find("\"pagelabels\""));
    for (const char* part : {"\"/P\": \"u:cover \"", "\"/P\": \"u:cards \"", "\"/P\": \"u:План \"",
                             "\"/S\": \"/D\""}) {
        INFO(labels.substr(0, 900));
        CHECK(labels.find(part) != std::string::npos);
    }
    // Poppler reads the links as a reader would.
    const auto urls = run("pdfinfo -url " + file.path()).output;
    INFO(urls);
    CHECK(urls.find("tel:131126") != std::string::npos);
    std::size_t links = 0;
    for (auto at = json.find("\"/Subtype\": \"/Link\""); at != std::string::npos;
         at = json.find("\"/Subtype\": \"/Link\"", at + 1))
        ++links;
    CHECK(links == 3);
    // Where they lead: to the pages themselves, by their objects.
    const auto target = [&](const std::string& what) {
        return run("mutool show " + file.path() + " " + what, tests::Errors::dropped).output;
    };
    CHECK(target("pages/1/Annots/1/Dest/1") == target("pages/2"));
    CHECK(target("pages/1/Annots/3/Dest/1") == target("pages/4"));
    CHECK(target("pages/2").find("/Page") != std::string::npos);
}
