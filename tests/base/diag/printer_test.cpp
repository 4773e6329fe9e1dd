#include <cstddef>
#include <memory>
#include <string>

#include "catch_all.hpp"

#include "base/diag/diagnostic.hpp"

using namespace gallipot::diag;

namespace {

SourcePtr file(const std::string& text, const std::string& name = "hall.yaml") {
    return std::make_shared<const Source>(Source{name, text});
}

Diagnostic finding(Place place) {
    return {Severity::error, "unknown-key", std::move(place), "unknown key 'ingredient'",
            "did you mean 'ingredients'?"};
}

}  // namespace

TEST_CASE("a diagnostic is printed with its line and a caret") {
    const auto source = file("a: 1\n    ingredient: { borax: 1 }\n");
    CHECK(print(finding({source, 2, 5, 10})) ==
          "hall.yaml:2:5: error: unknown key 'ingredient' [unknown-key]\n"
          "    2 |     ingredient: { borax: 1 }\n"
          "      |     ^~~~~~~~~~\n"
          "  fix: did you mean 'ingredients'?\n");
}

TEST_CASE("a warning, a file as a whole, and no file at all") {
    const auto source = file("a: 1\n");
    CHECK(print({Severity::warning,
                 "no-measures",
                 {source, 0, 0, 1},
                 "nothing to measure with",
                 "list what there is"}) ==
          "hall.yaml: warning: nothing to measure with [no-measures]\n"
          "  fix: list what there is\n");
    CHECK(print({Severity::error, "no-file", {}, "there is no file", "name one"}) ==
          "error: there is no file [no-file]\n"
          "  fix: name one\n");
    CHECK(print({Severity::error, "c", {source, 1, 0, 1}, "m", "h"}) ==
          "hall.yaml:1: error: m [c]\n"
          "    1 | a: 1\n"
          "  fix: h\n");
}

TEST_CASE("the last line needs no line break, CR LF is one, and large numbers fit") {
    CHECK(print({Severity::error, "c", {file("a\r\nbc\r\n"), 1, 1, 1}, "m", "h"}) ==
          "hall.yaml:1:1: error: m [c]\n    1 | a\n      | ^\n  fix: h\n");
    CHECK(print({Severity::error, "c", {file("a\nbc"), 2, 2, 1}, "m", "h"}) ==
          "hall.yaml:2:2: error: m [c]\n    2 | bc\n      |  ^\n  fix: h\n");
    const auto long_file = file(std::string(1234567, '\n') + "x\n");
    CHECK(print({Severity::error, "c", {long_file, 1234568, 1, 1}, "m", "h"}) ==
          "hall.yaml:1234568:1: error: m [c]\n1234568 | x\n      | ^\n  fix: h\n");
}

TEST_CASE("the caret may stand past the end of the line or the file") {
    CHECK(print({Severity::error, "c", {file("ab\n"), 1, 3, 1}, "m", "h"}) ==
          "hall.yaml:1:3: error: m [c]\n    1 | ab\n      |   ^\n  fix: h\n");
    CHECK(print({Severity::error, "c", {file("ab\n"), 9, 1, 1}, "m", "h"}) ==
          "hall.yaml:9:1: error: m [c]\n    9 | \n      | ^\n  fix: h\n");
}

TEST_CASE("columns are characters; the caret stands under the character a terminal shows") {
    // Two-byte letters, one column each.
    CHECK(print({Severity::error, "c", {file("tít\xC3\xBAlo: x\n"), 1, 9, 1}, "m", "h"}) ==
          "hall.yaml:1:9: error: m [c]\n"
          "    1 | tít\xC3\xBAlo: x\n"
          "      |         ^\n"
          "  fix: h\n");
    // Wide letters take two columns (Unicode East_Asian_Width W).
    CHECK(print({Severity::error, "c", {file("台所: 二三\n"), 1, 5, 2}, "m", "h"}) ==
          "hall.yaml:1:5: error: m [c]\n"
          "    1 | 台所: 二三\n"
          "      |       ^~~~\n"
          "  fix: h\n");
    // A combining accent takes none.
    CHECK(print({Severity::error, "c", {file("e\xCC\x81x\n"), 1, 3, 1}, "m", "h"}) ==
          "hall.yaml:1:3: error: m [c]\n"
          "    1 | e\xCC\x81x\n"
          "      |  ^\n"
          "  fix: h\n");
    // A tab is shown as one space.
    CHECK(print({Severity::error, "c", {file("\tab\n"), 1, 2, 2}, "m", "h"}) ==
          "hall.yaml:1:2: error: m [c]\n"
          "    1 |  ab\n"
          "      |  ^~\n"
          "  fix: h\n");
}

TEST_CASE("nothing in a file or a message can drive the terminal") {
    const auto source = file(
        "a\x1B[31m\xE2\x80\xAE\xFF\x7F\xC2\x9B"
        "b\n",
        "x\x1B.yaml");
    CHECK(print({Severity::error, "c", {source, 1, 2, 1}, "m\x07\n", "h\xE2\x81\xA6"}) ==
          "x\xEF\xBF\xBD.yaml:1:2: error: m\xEF\xBF\xBD\xEF\xBF\xBD [c]\n"
          "    1 | a\xEF\xBF\xBD[31m\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD"
          "b\n"
          "      |  ^\n"
          "  fix: h\xEF\xBF\xBD\n");
}

TEST_CASE("a message that quotes a huge text is cut, visibly") {
    const std::string huge(1'000'000, 'x');
    CHECK(print({Severity::error, "c", {}, huge, "h"}) ==
          "error: " + std::string(400, 'x') + "... [c]\n  fix: h\n");
}

TEST_CASE("long lines are cut around the caret, visibly") {
    std::string line;
    for (int i = 0; i < 40; ++i) line += "0123456789";
    SECTION("at the end only") {
        CHECK(print({Severity::error, "c", {file(line), 1, 11, 3}, "m", "h"}) ==
              "hall.yaml:1:11: error: m [c]\n"
              "    1 | " +
                  line.substr(0, 100) +
                  "...\n"
                  "      |           ^~~\n"
                  "  fix: h\n");
    }
    SECTION("on both sides") {
        CHECK(print({Severity::error, "c", {file(line), 1, 201, 1}, "m", "h"}) ==
              "hall.yaml:1:201: error: m [c]\n"
              "    1 | ..." +
                  line.substr(160, 97) +
                  "...\n"
                  "      | " +
                  std::string(43, ' ') +
                  "^\n"
                  "  fix: h\n");
    }
    SECTION("at the start only, and the underline ends with the text") {
        CHECK(print({Severity::error, "c", {file(line), 1, 396, 20}, "m", "h"}) ==
              "hall.yaml:1:396: error: m [c]\n"
              "    1 | ..." +
                  line.substr(355) +
                  "\n"
                  "      | " +
                  std::string(43, ' ') +
                  "^~~~~\n"
                  "  fix: h\n");
    }
    SECTION("exactly as wide as is shown: not cut") {
        CHECK(print({Severity::error, "c", {file(line.substr(0, 100)), 1, 100, 1}, "m", "h"}) ==
              "hall.yaml:1:100: error: m [c]\n"
              "    1 | " +
                  line.substr(0, 100) +
                  "\n"
                  "      | " +
                  std::string(99, ' ') +
                  "^\n"
                  "  fix: h\n");
    }
}

TEST_CASE("all of them, then how many there were") {
    const auto source = file("a\nb\n");
    Diagnostics found;
    CHECK(print(found) == "");
    found.error("c", {source, 2, 1, 1}, "second", "h");
    CHECK(print(found) ==
          "hall.yaml:2:1: error: second [c]\n    2 | b\n      | ^\n  fix: h\n1 error\n");
    found.error("c", {source, 1, 1, 1}, "first", "h");
    found.warning("w", {}, "last", "h");
    CHECK(print(found) ==
          "hall.yaml:1:1: error: first [c]\n    1 | a\n      | ^\n  fix: h\n"
          "hall.yaml:2:1: error: second [c]\n    2 | b\n      | ^\n  fix: h\n"
          "warning: last [w]\n  fix: h\n"
          "2 errors, 1 warning\n");
}

TEST_CASE("past the cap they are counted, and warnings make room for errors") {
    const auto source = file("a\n");
    Diagnostics found;
    for (int i = 1; i <= 4; ++i) found.warning("w", {source, i, 0, 1}, "careful", "h");
    for (int i = 5; i <= 7; ++i) found.error("c", {source, i, 0, 1}, "wrong", "h");
    CHECK(print(found, 4) ==
          "hall.yaml:1: warning: careful [w]\n    1 | a\n  fix: h\n"
          "hall.yaml:5: error: wrong [c]\n    5 | \n  fix: h\n"
          "hall.yaml:6: error: wrong [c]\n    6 | \n  fix: h\n"
          "hall.yaml:7: error: wrong [c]\n    7 | \n  fix: h\n"
          "and 3 more, not shown\n"
          "3 errors, 4 warnings\n");
    CHECK(print(found, 2) ==
          "hall.yaml:5: error: wrong [c]\n    5 | \n  fix: h\n"
          "hall.yaml:6: error: wrong [c]\n    6 | \n  fix: h\n"
          "and 5 more, not shown\n"
          "3 errors, 4 warnings\n");
}
