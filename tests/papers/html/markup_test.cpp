#include "papers/html/markup.hpp"

#include "catch_all.hpp"

namespace gallipot::html {
namespace {

const std::string hostile = "</title><script>alert(1)</script>\" onload=\"x' & <!--";

TEST_CASE("html: text becomes markup only by being escaped") {
    CHECK(Html("a < b & \"c\" 'd'").markup() == "a &lt; b &amp; &quot;c&quot; &#39;d&#39;");
    const Html page = element("p", {{"title", hostile}}, {hostile, element("b", {hostile})});
    const std::string& markup = page.markup();
    // What is left of tags is ours alone.
    std::string tags;
    for (std::size_t at = 0; (at = markup.find('<', at)) != std::string::npos; ++at)
        tags += markup.substr(at, 3);
    CHECK(tags == "<p <b></b</p");
    CHECK(markup.find("\" onload") == std::string::npos);
}

TEST_CASE("html: bold runs of a message, and markup in an argument stays text") {
    CHECK(Html(text::StyledText{{"Call ", false}, {"13 <11>", true}}).markup() ==
          "Call <b>13 &lt;11&gt;</b>");
}

TEST_CASE("html: attributes, lone tags, nothing") {
    CHECK(element("a", {{"href", "?a=1&b=2"}}, {"x"}).markup() == "<a href=\"?a=1&amp;b=2\">x</a>");
    CHECK(lone("input", {{"name", "seen"}}).markup() == "<input name=\"seen\"/>");
    CHECK(Html().empty());
    CHECK(element("p", {}).markup() == "<p></p>");
}

TEST_CASE("html: a style sheet cannot end its element") {
    CHECK_THROWS_AS(page_markup("en", "a{}</style><script>", {}, {}), std::invalid_argument);
    CHECK(
        page_markup("e\"n", "a{}", {}, "b") ==
        "<!DOCTYPE html>\n<html lang=\"e&quot;n\"><head><meta charset=\"utf-8\"><style>a{}</style>"
        "</head><body>b</body></html>\n");
}

TEST_CASE("a page runs as its language does") {
    for (const char* language : {"ar", "ar-EG", "he", "ur"})
        CHECK(page_markup(language, "", {}, "b").find(" dir=\"rtl\">") != std::string::npos);
    for (const char* language : {"en", "de-AT", "uk", "zh-Hans", "hi"})
        CHECK(page_markup(language, "", {}, "b").find("dir=") == std::string::npos);
}

}  // namespace
}  // namespace gallipot::html
