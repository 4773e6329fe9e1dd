#include <stdexcept>
#include <thread>

#include "catch_all.hpp"

#include "folder.hpp"
#include "golden.hpp"

using namespace gallipot;
using namespace std::chrono_literals;
using tests::TextFolder;
using text::Arguments;
using text::Catalog;
using text::Run;
using text::StyledText;

namespace {

const std::string formats = R"(
format: { date: d MMMM y, short_date: d MMM y, day: d MMMM, date_time: 'd MMMM y, HH:mm' }
)";

Catalog catalog_of(const TextFolder& folder, const std::string& texts,
                   const std::string& language = "en", const std::string& region = "") {
    folder.put(language + ".yaml", formats + texts);
    diag::Diagnostics out;
    Catalog catalog(folder.path(), language, region, out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    return catalog;
}

/// What is said of a catalog that is wrong, the folder's own path left out.
std::string complaints(const TextFolder& folder, const std::string& language = "en",
                       const std::string& region = "") {
    diag::Diagnostics out;
    const Catalog catalog(folder.path(), language, region, out);
    std::string text = diag::print(out);
    for (auto at = text.find(folder.path()); at != std::string::npos;
         at = text.find(folder.path(), at)) {
        text.replace(at, folder.path().size(), "T");
    }
    return text;
}

}  // namespace

TEST_CASE("keys of nested groups are joined by dots", "[text]") {
    const TextFolder folder;
    const auto words = catalog_of(folder, "card: { mix: { heading: Mix } }\n");
    CHECK(words("card.mix.heading") == "Mix");
    CHECK(words.has("card.mix.heading"));
    CHECK_FALSE(words.has("card.mix"));
    CHECK(words.keys() == std::vector<std::string>{"card.mix.heading", "format.date",
                                                   "format.date_time", "format.day",
                                                   "format.short_date"});
}

TEST_CASE("markup becomes runs", "[text]") {
    const TextFolder folder;
    const auto words = catalog_of(folder, R"(
a: "Call <b>{phone}</b> now"
b: "{n, plural, one {<b>#</b> cup} other {<b>#</b> cups}} left"
c: "<b>{a}</b>{b}"
)");
    CHECK(words.rich("a", {{"phone", "13 11 26"}}) ==
          StyledText{{"Call ", false}, {"13 11 26", true}, {" now", false}});
    CHECK(words.rich("b", {{"n", std::int64_t{1}}}) ==
          StyledText{{"1", true}, {" cup left", false}});
    CHECK(words.rich("b", {{"n", std::int64_t{3}}}) ==
          StyledText{{"3", true}, {" cups left", false}});
    CHECK(words.rich("c", {{"a", ""}, {"b", "x"}}) == StyledText{{"x", false}});
}

TEST_CASE("a user's text is never read as markup or as a message", "[text]") {
    const TextFolder folder;
    const auto words = catalog_of(folder, R"(
simple: "At {place}."
plural: "{n, plural, one {# cup} other {# cups}} at {place}."
)");
    for (const std::string place : {"<b>Shed</b>", "{n}", "the '{' shelf", "# 4", "a & b"}) {
        CHECK(words.rich("simple", {{"place", place}}) == StyledText{{"At " + place + ".", false}});
        CHECK(words.rich("plural", {{"n", std::int64_t{2}}, {"place", place}}) ==
              StyledText{{"2 cups at " + place + ".", false}});
    }
    // The two characters that mark bold inside, were they to come in from outside.
    CHECK(words.rich("plural", {{"n", std::int64_t{2}}, {"place", "\uE000x\uE001"}}) ==
          StyledText{{"2 cups at \uFFFDx\uFFFD.", false}});
}

TEST_CASE("an apostrophe is just an apostrophe", "[text]") {
    const TextFolder folder;
    const auto words = catalog_of(folder, R"(
a: "the packet's label"
b: "{n, plural, one {the packet's # label} other {the packet's # labels}}"
c: "braces '{'like this'}'"
)");
    CHECK(words("a") == "the packet's label");
    CHECK(words("b", {{"n", std::int64_t{1}}}) == "the packet's 1 label");
    CHECK(words("c") == "braces {like this}");
}

TEST_CASE("arguments of every kind", "[text]") {
    const TextFolder folder;
    const auto words = catalog_of(folder, "a: 'by {x}'\n");
    CHECK(words("a", {{"x", std::int64_t{1234}}}) == "by 1,234");
    CHECK(words("a", {{"x", 2.46}}) == "by 2.5");
    CHECK(words("a", {{"x", std::chrono::year{2027} / 3 / 2}}) == "by 2 March 2027");
    CHECK(words("a", {{"x", std::chrono::local_days{std::chrono::year{2027} / 3 / 2} + 19h +
                                30min}}) == "by 2 March 2027, 19:30");
}

TEST_CASE("a missing key or argument is named", "[text]") {
    const TextFolder folder;
    const auto words = catalog_of(folder, R"(
a: "by {x}"
b: "{n, plural, one {# cup} other {# cups}} by {x}"
)");
    CHECK_THROWS_WITH(words("none.such"), "there is no message 'none.such'");
    CHECK_THROWS_WITH(words("a"), "the message 'a' needs the argument 'x'");
    CHECK_THROWS_WITH(words("b", {{"n", std::int64_t{1}}}),
                      "the message 'b' needs the argument 'x'");
    CHECK_THROWS_AS(words("a", {{"y", "z"}}), std::logic_error);
}

TEST_CASE("a region words some texts anew", "[text]") {
    const TextFolder folder;
    folder.put("en-US.yaml", "format: { date: 'MMMM d, y' }\nplace: center\n");
    const std::string texts = "place: centre\nother: same\n";
    const auto here = catalog_of(folder, texts, "en", "AU");
    const auto there = catalog_of(folder, texts, "en", "US");
    CHECK(here("place") == "centre");
    CHECK(there("place") == "center");
    CHECK(there("other") == "same");
    CHECK(here.date(std::chrono::year{2027} / 3 / 2) == "2 March 2027");
    CHECK(there.date(std::chrono::year{2027} / 3 / 2) == "March 2, 2027");
    CHECK(here.tag() == "en-AU");
    CHECK(there.language() == "en");

    SECTION("and a language may bring its region along") {
        diag::Diagnostics out;
        const Catalog own(folder.path(), "en-US", "AU", out);
        CHECK(own("place") == "center");
    }
}

TEST_CASE("plurals follow the language", "[text]") {
    const TextFolder folder;
    const auto words = catalog_of(folder,
                                  "a: '{n, plural, one {# кришка} few {# кришки} many {# кришок} "
                                  "other {# кришки}}'\n",
                                  "uk");
    CHECK(words("a", {{"n", std::int64_t{1}}}) == "1 кришка");
    CHECK(words("a", {{"n", std::int64_t{3}}}) == "3 кришки");
    CHECK(words("a", {{"n", std::int64_t{5}}}) == "5 кришок");
    CHECK(words("a", {{"n", std::int64_t{11}}}) == "11 кришок");
    CHECK(words("a", {{"n", std::int64_t{21}}}) == "21 кришка");
    CHECK(words.plural_categories() == std::vector<std::string>{"few", "many", "one"});
}

TEST_CASE("one catalog serves several threads", "[text]") {
    const TextFolder folder;
    const auto words = catalog_of(folder, R"(
unit: { gram: "{n} g" }
a: "{n, plural, one {# cup} other {# cups}} of {what}"
)");
    std::vector<std::thread> threads;
    std::vector<int> wrong(4, 0);
    for (int t = 0; t < 4; ++t) {
        threads.emplace_back([&, t] {
            for (int i = 0; i < 200; ++i) {
                if (words("a", {{"n", std::int64_t{i + 2}}, {"what", words.mass(units::g(3.2))}}) !=
                    std::to_string(i + 2) + " cups of 3.2\u00A0g") {
                    ++wrong[t];
                }
            }
        });
    }
    for (auto& thread : threads) thread.join();
    CHECK(wrong == std::vector<int>(4, 0));
}

TEST_CASE("what is wrong with a catalog is said with its place", "[text]") {
    const TextFolder folder;
    folder.put("en.yaml", formats + R"(a: "unclosed {n"
b: "<i>slanted</i>"
c: "<b>open"
d: "{n, plural, one {<b>#} other {#</b>}}"
e: "{0} cups"
f: [a, list]
g:
h.i: dotted
)");
    tests::check_golden("text/catalog_complaints.txt", complaints(folder));
}

TEST_CASE("a region's file may only replace what is there", "[text]") {
    const TextFolder folder;
    folder.put("en.yaml", formats + "place: centre\n");
    folder.put("en-US.yaml", "plaze: center\n");
    tests::check_golden("text/region_complaints.txt", complaints(folder, "en", "US"));
}

TEST_CASE("a language or region that could be a path is refused", "[text]") {
    const TextFolder folder;
    folder.put("en.yaml", formats);
    CHECK(complaints(folder, "../en") != "");
    CHECK(complaints(folder, "e") != "");
    CHECK(complaints(folder, "en", "../US") != "");
    CHECK(complaints(folder, "en") == "");
}

TEST_CASE("a telephone number stays on one line", "[text]") {
    CHECK(text::unbroken("13 11 26") == "13\u00A011\u00A026");
}
