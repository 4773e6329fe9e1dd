#include "papers/html/sheet_page.hpp"

#include <regex>

#include "catch_all.hpp"

#include "papers/layout/installed_faces.hpp"
#include "papers/layout/said.hpp"
#include "papers/layout/sample_document.hpp"

using namespace gallipot;
using tests::installed_faces;
using tests::plain;

namespace {

std::string page_of(const document::Sheet& sheet, const std::vector<std::string>& numbers = {}) {
    return html::sheet_page(sheet, {"Title", "en", "p { margin: 0 }", numbers, installed_faces()});
}

document::Sheet saying(const std::string& words) {
    document::Sheet sheet;
    sheet.title = plain("Title");
    sheet.blocks.emplace_back(document::Paragraph{plain(words)});
    return sheet;
}

/// What a reader sees of a page's main part: no drawings, no tags.
std::string seen(const std::string& page) {
    const auto from = page.find("<main>"), to = page.find("</main>");
    std::string all = page.substr(from, to - from);
    all = std::regex_replace(all, std::regex("<svg[^]*?</svg>"), "");
    all = std::regex_replace(all, std::regex("<a href=\"http[^]*?</a>"), "");
    all = std::regex_replace(all, std::regex("<[^>]*>"), "");
    for (const auto& [name, letter] :
         {std::pair{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}})
        all = std::regex_replace(all, std::regex(name), letter);
    return all;
}

std::size_t count(const std::string& text, const std::string& of) {
    std::size_t found = 0;
    for (auto at = text.find(of); at != std::string::npos; at = text.find(of, at + 1)) ++found;
    return found;
}

}  // namespace

TEST_CASE("a sheet on a screen says what it says on paper, in the same order") {
    for (const document::Sheet& sheet : tests::sample_document().sheets)
        CHECK(tests::without_spaces(seen(page_of(sheet))) ==
              tests::without_spaces(tests::Said(false)({"Title", "", "en", {sheet}})));
}

TEST_CASE("a page needs nothing else, and every drawing says what it shows") {
    for (const document::Sheet& sheet : tests::sample_document().sheets) {
        const std::string page = page_of(sheet);
        for (const char* outside : {"src=", "url(", "@import", "<link", "<script"})
            CHECK(page.find(outside) == std::string::npos);
        CHECK(count(page, "<svg") ==
              count(page, "role=\"img\" aria-label=\"") + count(page, "aria-hidden=\"true\""));
    }
}

TEST_CASE("a code on a page is drawn, named and can be touched") {
    document::Sheet sheet = saying("Words.");
    sheet.code = document::Code{"HTTP://192.168.1.20:8017/HOME/7Q2MX4KD9A",
                                {plain("Scan: this sheet on your phone")},
                                "A code that opens it"};
    const std::string page = page_of(sheet);
    CHECK(count(page, "class=\"code\"") == 1);
    CHECK(count(page, "role=\"img\" aria-label=\"A code that opens it\"") == 1);
    CHECK(count(page, "<a href=\"HTTP://192.168.1.20:8017/HOME/7Q2MX4KD9A\">") == 1);
    CHECK(seen(page).find("Words.") < seen(page).find("Scan: this sheet"));
    CHECK(count(page_of(saying("Words.")), "class=\"code\"") == 0);
}

TEST_CASE("a telephone number rings when it is touched, and no other number does") {
    const auto links = [](const std::string& words) {
        return count(page_of(saying(words), {"13 11 26", "000"}), "<a href=\"tel:");
    };
    CHECK(links("Call 13\u00a011\u00a026 now.") == 1);
    CHECK(links("Call 000, then 13\u00a011\u00a026.") == 2);
    CHECK(links("Lot 113\u00a011\u00a026 and 13\u00a011\u00a0265.") == 0);
    CHECK(links("1\u00a0000 g") == 0);
    CHECK(links("No number.") == 0);
}

TEST_CASE("what a user wrote stays text") {
    const std::string page = page_of(saying("<script>alert(1)</script> & \"more\""));
    CHECK(page.find("<script>") == std::string::npos);
    CHECK(page.find("&lt;script&gt;") != std::string::npos);
}
