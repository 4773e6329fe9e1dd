#include <functional>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "catch_all.hpp"

#include "base/diag/diagnostic.hpp"
#include "domain/yaml/node.hpp"

using namespace gallipot;

namespace {

std::string repeated(const std::string& text, std::size_t times) {
    std::string all;
    all.reserve(text.size() * times);
    for (std::size_t i = 0; i < times; ++i) all += text;
    return all;
}

diag::Diagnostics read(const std::string& text, const yaml::Limits& limits = {}) {
    diag::Diagnostics out;
    yaml::read(std::make_shared<const diag::Source>(diag::Source{"x.yaml", text}), out, limits);
    return out;
}

std::vector<std::string> codes(const diag::Diagnostics& out) {
    std::vector<std::string> all;
    for (const auto& d : out.in_order()) all.push_back(d.code);
    return all;
}

/// Ten aliases to the one above, on each of `levels` lines.
std::string alias_bomb(int levels) {
    std::string text = "a0: &a0 [x]\n";
    for (int i = 1; i <= levels; ++i) {
        const std::string name = "a" + std::to_string(i);
        text +=
            name + ": &" + name + " [" + repeated("*a" + std::to_string(i - 1) + ",", 10) + "]\n";
    }
    return text;
}

}  // namespace

TEST_CASE("hostile files end in one clear error") {
    struct Case {
        std::string name, code;
        std::function<std::string()> text;
    };
    const auto c = GENERATE(values<Case>({
        {"100,000 brackets on a line", "too-deep", [] { return repeated("[", 100'000); }},
        {"100,000 brackets, closed", "too-deep",
         [] { return repeated("[", 50'000) + repeated("]", 50'000); }},
        {"500,000 brackets on lines", "too-deep", [] { return repeated("[\n", 500'000); }},
        {"500 brackets", "too-deep", [] { return repeated("[", 500) + repeated("]", 500); }},
        {"braces", "too-deep", [] { return repeated("{a: ", 25'000); }},
        {"brackets behind anchors", "too-deep", [] { return repeated("[&a\n", 500'000); }},
        {"dashes", "too-deep", [] { return repeated("- ", 50'000); }},
        {"question marks", "too-deep", [] { return repeated("? ", 50'000); }},
        {"ever deeper indentation", "too-deep",
         [] {
             std::string text;
             for (std::size_t i = 0; i < 1000; ++i) text += repeated(" ", i) + "a:\n";
             return text;
         }},
        {"a line of 4 MB", "line-too-long", [] { return "a: " + repeated("x", 4'000'000); }},
        {"a list of 4 MB on one line", "line-too-long",
         [] { return "[" + repeated("a, ", 1'300'000) + "]"; }},
        {"more than 4 MiB", "file-too-large", [] { return repeated("a\n", 2'200'000); }},
        {"a quote over 4 MB", "yaml-syntax", [] { return "a: '" + repeated("x\n", 2'000'000); }},
        {"a text over 4 MB", "text-too-long",
         [] { return "a: '" + repeated("x\n", 2'000'000) + "'\n"; }},
        {"a block over 4 MB", "text-too-long",
         [] { return "a: |\n" + repeated(" x\n", 1'300'000); }},
        {"4 million commas", "too-many-values", [] { return "[" + repeated(",\n", 2'000'000); }},
        {"more than a million values", "too-many-values",
         [] { return repeated("- - - - x\n", 300'000); }},
        {"an alias bomb", "too-many-values", [] { return alias_bomb(12); }},
        {"an alias bomb of long text", "too-many-values",
         [] {
             return "a: &a '" + repeated("x", 3999) + "'\nb: [\n" + repeated("*a,\n", 900'000) +
                    "]\n";
         }},
        {"aliases to make it deep", "too-deep",
         [] {
             std::string text = "a0: &a0 [x]\n";
             for (int i = 1; i <= 60; ++i) {
                 const std::string name = "a" + std::to_string(i);
                 text += name + ": &" + name + " [*a" + std::to_string(i - 1) + "]\n";
             }
             return text;
         }},
        {"an anchor in itself", "alias", [] { return std::string("&a [*a]"); }},
        {"NUL", "control-character", [] { return std::string("a: 1\0b", 6); }},
        {"a PNG", "not-text", [] { return std::string("\x89PNG\r\n\x1A\n\0\0\0\rIHDR", 16); }},
        {"UTF-16", "not-utf8",
         [] {
             return std::string(
                 "\xFF\xFE"
                 "a\0:\0",
                 6);
         }},
        {"Latin-1", "not-utf8", [] { return std::string("a: caf\xE9\n"); }},
        {"escape sequences", "control-character", [] { return std::string("a: \x1B[2J\n"); }},
    }));
    INFO(c.name);
    const auto out = read(c.text());
    INFO(diag::print(out));
    REQUIRE(out.errors() == 1);
    CHECK(codes(out)[0] == c.code);
}

TEST_CASE("many duplicate keys are each reported, in a time that does not grow with their square") {
    std::string text;
    for (int i = 0; i < 100'000; ++i) text += "k" + std::to_string(i / 2) + ": v\n";
    const auto out = read(text);
    CHECK(out.errors() == 50'000);
}

TEST_CASE("each limit is kept to the letter") {
    yaml::Limits limits;
    limits.depth = 3;
    CHECK(codes(read("[[[x]]]", limits)).empty());
    CHECK(codes(read("[[[[x]]]]", limits)) == std::vector<std::string>{"too-deep"});
    limits = {};
    limits.text_length = 5;
    CHECK(codes(read("a: \xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\n", limits)).empty());
    CHECK(codes(read("a: abcdef\n", limits)) == std::vector<std::string>{"text-too-long"});
    limits = {};
    limits.bytes = 5;
    CHECK(codes(read("a: b\n", limits)).empty());
    CHECK(codes(read("a: bc\n", limits)) == std::vector<std::string>{"file-too-large"});
    limits = {};
    limits.line = 4;
    CHECK(codes(read("a: b\n", limits)).empty());
    CHECK(codes(read("a: bc\n", limits)) == std::vector<std::string>{"line-too-long"});
    limits = {};
    limits.nodes = 3;
    CHECK(codes(read("a: b\n", limits)).empty());
    CHECK(codes(read("a: [b]\n", limits)) == std::vector<std::string>{"too-many-values"});
}

TEST_CASE("whatever the bytes, there is a tree or an error, never a crash") {
    const std::string seed =
        "title: \"Mill\\u00e9race\"\nlanguages: [en, es]\nmixes:\n  syrup: &s\n    ingredients: { "
        "borax: 1, "
        "water: rest }\n    note: |\n      two\n      lines\n  b: *s\nstations:\n  - id: K1\n    "
        "near: [children, "
        "'food']\n  # comment\n  - { id: S1, at: [3.2, 1.1] }\n";
    const std::string alphabet = "[]{}:,-?&*!|>'\"%@`# \n\t\\x\xC3\xA9\xFF~<0a";
    std::mt19937 random(20270302);  // fixed: the same files each time
    for (int i = 0; i < 4000; ++i) {
        std::string text = seed;
        for (int edits = 1 + static_cast<int>(random() % 6); edits > 0; --edits) {
            const std::size_t at = random() % text.size();
            const char with = alphabet[random() % alphabet.size()];
            switch (random() % 4) {
                case 0:
                    text[at] = with;
                    break;
                case 1:
                    text.insert(at, 1, with);
                    break;
                case 2:
                    text.erase(at, 1 + random() % 5);
                    break;
                default:
                    text.insert(at, text.substr(random() % text.size(), random() % 20));
            }
            if (text.empty()) text = seed;
        }
        diag::Diagnostics out;
        const auto node =
            yaml::read(std::make_shared<const diag::Source>(diag::Source{"x.yaml", text}), out);
        INFO(text);
        const bool something = node.kind != yaml::Kind::null || out.has_errors();
        CHECK(something);
        CHECK_FALSE(diag::print(out).find('\x1B') != std::string::npos);
    }
}
