#include <memory>
#include <string>
#include <vector>

#include "catch_all.hpp"

#include "base/diag/diagnostic.hpp"
#include "domain/yaml/node.hpp"

using namespace gallipot;
using yaml::Kind;
using yaml::Node;

namespace {

diag::SourcePtr file(const std::string& text) {
    return std::make_shared<const diag::Source>(diag::Source{"job.yaml", text});
}

Node read_well(const std::string& text) {
    diag::Diagnostics out;
    Node node = yaml::read(file(text), out);
    INFO(diag::print(out));
    REQUIRE(out.errors() == 0);
    return node;
}

/// A node as "kind@line:column+length", for comparing whole trees.
std::string shape(const Node& node) {
    std::string at = "@" + std::to_string(node.place.line) + ":" +
                     std::to_string(node.place.column) + "+" + std::to_string(node.place.length);
    switch (node.kind) {
        case Kind::null:
            return "null" + at;
        case Kind::scalar:
            return (node.quoted ? "\"" : "") + node.text + (node.quoted ? "\"" : "") + at;
        case Kind::sequence: {
            std::string all = "[";
            for (const Node& item : node.items) all += " " + shape(item);
            return all + " ]" + at;
        }
        case Kind::mapping: {
            std::string all = "{";
            for (const auto& [key, value] : node.entries)
                all += " " + shape(key) + ": " + shape(value);
            return all + " }" + at;
        }
    }
    return {};
}

/// "line:column code: message (hint)" for everything found.
std::vector<std::string> complaints(const std::string& text) {
    diag::Diagnostics out;
    yaml::read(file(text), out);
    std::vector<std::string> all;
    for (const diag::Diagnostic& d : out.in_order()) {
        all.push_back(std::to_string(d.place.line) + ":" + std::to_string(d.place.column) + " " +
                      d.code + ": " + d.message.english() + " (" + d.hint.english() + ")");
    }
    return all;
}

}  // namespace

TEST_CASE("a tree with its places, lines and columns in characters") {
    CHECK(shape(read_well("a: 1\n")) == "{ a@1:1+1: 1@1:4+1 }@1:1+1");
    CHECK(shape(read_well("t\xC3\xADtulo: \xC3\xA9t\xC3\xA9   # c\nb: [x, {y: 'z z'}]\n")) ==
          "{ t\xC3\xADtulo@1:1+6: \xC3\xA9t\xC3\xA9@1:9+3 b@2:1+1: [ x@2:5+1 { y@2:9+1: \"z "
          "z\"@2:12+5 "
          "}@2:8+1 ]@2:4+1 }@1:1+1");
    CHECK(shape(read_well("- - 1\n  - 2\n- k:\n    - 3\n")) ==
          "[ [ 1@1:5+1 2@2:5+1 ]@1:3+1 { k@3:3+1: [ 3@4:7+1 ]@4:5+1 }@3:3+1 ]@1:1+1");
}

TEST_CASE("a value left out is null, and its place is that of its key") {
    CHECK(shape(read_well("a:\nb: ~\nc: null\n")) ==
          "{ a@1:1+1: null@1:1+1 b@2:1+1: null@2:4+1 c@3:1+1: null@3:4+1 }@1:1+1");
    CHECK(shape(read_well("a:\nn: [~, null]\nm: {x: , y}\nl:\n-\n- 1\n")) ==
          "{ a@1:1+1: null@1:1+1 n@2:1+1: [ null@2:5+1 null@2:8+1 ]@2:4+1 m@3:1+1: { x@3:5+1: "
          "null@3:5+1 y@3:10+1: null@3:10+1 }@3:4+1 l@4:1+1: [ null@5:1+1 1@6:3+1 ]@5:1+1 }@1:1+1");
}

TEST_CASE("a scalar keeps its own text, and quotes make it a text") {
    const Node node = read_well(
        "a: 010\nb: \"010\"\nc: yes\nd: 0x1F\ne: |\n  two\n  lines\nf: it''s\ng: 'it''s'\n");
    CHECK(node.find("a")->text == "010");
    CHECK_FALSE(node.find("a")->quoted);
    CHECK(node.find("b")->text == "010");
    CHECK(node.find("b")->quoted);
    CHECK(node.find("c")->text == "yes");
    CHECK(node.find("d")->text == "0x1F");
    CHECK(node.find("e")->text == "two\nlines\n");
    CHECK(node.find("e")->quoted);
    CHECK(node.find("f")->text == "it''s");
    CHECK(node.find("g")->text == "it's");
    CHECK(node.find("h") == nullptr);
    CHECK(node.find_key("g")->place.line == 9);
    CHECK(node.find_key("h") == nullptr);
}

TEST_CASE("a byte-order mark is skipped, CR LF ends lines, nothing gives nothing") {
    CHECK(shape(read_well("\xEF\xBB\xBF"
                          "a: 1\r\nb: 2\r\n")) == "{ a@1:1+1: 1@1:4+1 b@2:1+1: 2@2:4+1 }@1:1+1");
    CHECK(read_well("").kind == Kind::null);
    CHECK(read_well("# only a comment\n").kind == Kind::null);
    CHECK(shape(read_well("%YAML 1.2\n---\na: 1\n...\n")) == "{ a@3:1+1: 1@3:4+1 }@3:1+1");
}

TEST_CASE("the caret stands right in a file with a byte-order mark") {
    diag::Diagnostics out;
    yaml::read(file("\xEF\xBB\xBF"
                    "a: 1\n"),
               out);
    out.error("c",
              {file("\xEF\xBB\xBF"
                    "a: 1\n"),
               1, 4, 1},
              "m", "h");
    CHECK(diag::print(out) ==
          "job.yaml:1:4: error: m [c]\n    1 | a: 1\n      |    ^\n  fix: h\n1 error\n");
}

TEST_CASE("aliases are expanded") {
    CHECK(shape(read_well("a: &x [1, 2]\nb: *x\nc: &y word\nd: [*y, *x]\n")) ==
          "{ a@1:1+1: [ 1@1:8+1 2@1:11+1 ]@1:4+1 b@2:1+1: [ 1@1:8+1 2@1:11+1 ]@1:4+1 c@3:1+1: "
          "word@3:7+4 d@4:1+1: [ word@3:7+4 [ 1@1:8+1 2@1:11+1 ]@1:4+1 ]@4:4+1 }@1:1+1");
}

TEST_CASE("what a strict file may not have, where it is and what to do") {
    struct Case {
        std::string text;
        std::vector<std::string> expected;
    };
    const auto c = GENERATE(values<Case>({
        {"a: 1\nb: 2\na: 3\n",
         {"3:1 duplicate-key: 'a' is there twice; first on line 1 (keep one of the two)"}},
        {"a: !!int 3\n",
         {"1:4 tag: tags (with !) are not taken here (take the tag out; put quotes around a text "
          "that "
          "begins with !)"}},
        {"a: !x [1]\nb: ! y\n",
         {"1:4 tag: tags (with !) are not taken here (take the tag out; put quotes around a text "
          "that "
          "begins with !)",
          "2:4 tag: tags (with !) are not taken here (take the tag out; put quotes around a text "
          "that "
          "begins with !)"}},
        {"a: &x {b: 1}\nc:\n  <<: *x\n",
         {"3:3 merge-key: merge keys are not taken here (write the entries out)"}},
        {"? [a]\n: 1\n", {"1:3 bad-key: a key must be plain text (write a word, then a colon)"}},
        {"a: {x: 1,, y: 2}\n",
         {"1:10 bad-key: a key is missing here (write the key, or take out the extra comma or "
          "colon)"}},
        {"a: 1\n---\nb: 2\n",
         {"2:1 second-document: a second document begins here (keep one document in the file: take "
          "out what follows --- or ...)"}},
        {"a: 1\n...\nb: 2\n",
         {"3:1 second-document: a second document begins here (keep one document in the file: take "
          "out what follows --- or ...)"}},
        {"- b\na: 1\n",
         {"2:1 yaml-syntax: this does not belong to what stands above it (line it up with the keys "
          "or "
          "entries it belongs to)"}},
        {"a:\n\tb: 1\n  c: 2\n \td: 3\n",
         {"2:1 tab: a tab indents this line; YAML takes only spaces (indent with spaces)",
          "4:2 tab: a tab indents this line; YAML takes only spaces (indent with spaces)"}},
        {"a: x\x07y\n", {"1:5 control-character: control character U+0007 (take it out)"}},
        {"a: 1\rb: 2\r",
         {"1:5 control-character: control character U+000D (end each line with a line feed)"}},
        {"a: \"x\\u0007\"\n", {"1:4 control-character: U+0007 in a text (take it out)"}},
        {"a: \"x\\u202Ey\"\n", {"1:4 control-character: U+202E in a text (take it out)"}},
        {"a: \xE2\x80\xAEx\nb: \xE2\x81\xA6\n",
         {"1:4 control-character: U+202E makes text read differently from what it says (take it "
          "out)",
          "1:4 control-character: U+202E in a text (take it out)",
          "2:4 control-character: U+2066 makes text read differently from what it says (take it "
          "out)",
          "2:4 control-character: U+2066 in a text (take it out)"}},
        {"%TAG ! x\n---\na: 1\n",
         {"1:1 directive: a line that begins with % is a YAML directive (take the line out, or put "
          "quotes around a text that begins with %)"}},
        {"a: &x [*x]\n",
         {"1:8 alias: * refers to a value that holds it (write the value out instead)"}},
    }));
    INFO(c.text);
    CHECK(complaints(c.text) == c.expected);
}

TEST_CASE("the parser's errors in plain words") {
    struct Case {
        std::string text, expected;
    };
    const auto c = GENERATE(values<Case>({
        {"title: Foo: bar\n",
         "1:11 yaml-syntax: a colon and a space are not expected here (put quotes around a text "
         "that "
         "holds ': ', or check the line above and the indentation)"},
        {"a: { b: 1\nc: 2\n",
         "1:4 yaml-syntax: the { opened on line 1 is not closed; line 2 cannot be read inside it "
         "(close it with }, part its "
         "entries with commas, and put quotes around a text with brackets)"},
        {"a: { b: 1, c: { d: 2 }\ne: 3\nf: 4\n",
         "1:4 yaml-syntax: the { opened on line 1 is not closed; line 2 cannot be read inside it "
         "(close it with }, part its "
         "entries with commas, and put quotes around a text with brackets)"},
        {"a: { b: 1,\n  c: [ 2, { d: 3 }\n  e: 4 }\n",
         "2:6 yaml-syntax: the [ opened on line 2 is not closed; line 3 cannot be read inside it "
         "(close it with ], part its "
         "entries with commas, and put quotes around a text with brackets)"},
        {"a: { b: 'x' c: 2 }\n",
         "1:4 yaml-syntax: the { opened here is not closed (close it with }, part its entries with "
         "commas, "
         "and put quotes around a text with brackets)"},
        {"a: [ b, 1\nc: 2\n",
         "1:4 yaml-syntax: the [ opened on line 1 is not closed; line 2 cannot be read inside it "
         "(close it with ], part its "
         "entries with commas, and put quotes around a text with brackets)"},
        {"a: 'x\nb: 2\n",
         "1:4 yaml-syntax: the quote that opens here is never closed (put the closing quote)"},
        {"a: \"x\nb: 2\n",
         "1:4 yaml-syntax: the quote that opens here is never closed (put the closing quote)"},
        {"z: \"it's\"\nt: [ 'a', \"b\nc: 2 ]\n",
         "2:11 yaml-syntax: the quote that opens here is never closed (put the closing quote)"},
        {"a:\n    b: 1\n  c: 2\n",
         "3:3 yaml-syntax: this does not fit among the keys above it (line it up with the keys it "
         "belongs to, or put quotes around the whole text)"},
        {"a: @x\n",
         "1:4 yaml-syntax: a text cannot begin with this character (put quotes around the text)"},
        {"a: *x\n",
         "1:4 yaml-syntax: * refers to an anchor that is not there (put quotes around a text that "
         "begins with *)"},
        {"a: &\n",
         "1:5 yaml-syntax: an & without a name (put quotes around a text that begins with &)"},
        {"a: * x\n",
         "1:5 yaml-syntax: a * without the name of an anchor (put quotes around a text that begins "
         "with *)"},
        {"a: 'b' c\n",
         "1:8 yaml-syntax: this does not fit among the keys above it (line it up with the keys it "
         "belongs to, or put quotes around the whole text)"},
        {"a: [b]]\n",
         "1:7 yaml-syntax: a closing bracket without its opening one (take it out, or open the "
         "bracket; "
         "{ goes with } and [ with ])"},
        {"a: [1, 2}\n",
         "1:9 yaml-syntax: a closing bracket without its opening one (take it out, or open the "
         "bracket; "
         "{ goes with } and [ with ])"},
        {"a: \"\\q\"\n",
         "1:7 yaml-syntax: an unknown escape after \\ (use single quotes, in which \\ is an "
         "ordinary "
         "character)"},
        {"a: \"\\xZZ\"\n",
         "1:9 yaml-syntax: an escape with characters that are no hex digits (use single quotes, in "
         "which \\ is an ordinary character)"},
        {"a: \"\\uD800\"\n",
         "1:11 yaml-syntax: an escape that names no character (write the character itself)"},
        {"a: |x\n  b\n",
         "1:5 yaml-syntax: text on the same line as | or > (begin the text on the next line, "
         "indented)"},
        {"s: - x\n",
         "1:4 yaml-syntax: a list entry is not expected here (put '- ' at the start of a line of "
         "its own)"},
        {"a: 1\n? b\n  c: 1\n",
         "3:4 yaml-syntax: a colon and a space are not expected here (put quotes around a text "
         "that "
         "holds ': ', or check the line above and the indentation)"},
        {"a: \"x\n--- y\"\n",
         "2:1 yaml-syntax: --- or ... inside a quoted text (close the quotes before this line)"},
        {"a: &x &y z\n", "1:7 yaml-syntax: two anchors for one value (leave one of them out)"},
    }));
    INFO(c.text);
    const auto got = complaints(c.text);
    REQUIRE(got.size() == 1);
    CHECK(got[0] == c.expected);
}

TEST_CASE("the file is read to its end where that makes sense") {
    diag::Diagnostics out;
    const Node node = yaml::read(file("a: 1\na: 2\nb: !!str 3\nc: 4\n"), out);
    CHECK(out.errors() == 2);
    CHECK(node.find("a")->text == "1");
    CHECK(node.find("c")->text == "4");
    CHECK(node.entries.size() == 3);
    CHECK(yaml::read(file("a: [1\n"), out).kind == Kind::null);
}

// Unicode Standard Annex 15: what is equal in normal form C is the same text.
TEST_CASE("accents written apart are put together, and places stay those of the file") {
    diag::Diagnostics out;
    const Node node =
        yaml::read(file("Ku\u0308che: cafe\u0301, \u1100\u1161\nb: \u00FC\nc: x\u0301\n"), out);
    CHECK_FALSE(out.has_errors());
    REQUIRE(node.find("K\u00FCche") != nullptr);
    CHECK(node.find("K\u00FCche")->text == "caf\u00E9, \uAC00");
    CHECK(node.find("K\u00FCche")->place.column == 9);  // of the letters as they are written
    CHECK(node.find("b")->text == "\u00FC");
    CHECK(node.find("c")->text == "x\u0301");  // there is no such letter in one
    // Two keys that differ only in how they are written are one.
    diag::Diagnostics twice;
    static_cast<void>(yaml::read(file("\u00FC: 1\nu\u0308: 2\n"), twice));
    REQUIRE(twice.errors() == 1);
    CHECK(twice.in_order()[0].code == "duplicate-key");
}
