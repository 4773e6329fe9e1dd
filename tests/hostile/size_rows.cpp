#include <fmt/format.h>

#include "job_rows.hpp"

namespace gallipot::tests {
namespace {

/// Ten aliases to the one above, on each of twelve lines: a million million values.
std::string alias_bomb() {
    std::string text = "a0: &a0 [x]\n";
    for (int i = 1; i <= 12; ++i)
        text += fmt::format("a{0}: &a{0} [{1}]\n", i, repeated(fmt::format("*a{},", i - 1), 10));
    return text;
}

/// The flat with these lines in place of its stations and all that follows.
std::string stations(const std::string& lines) {
    const std::string whole = flat("", "");
    return whole.substr(0, whole.find("  - { id: K1")) + lines;
}

std::string many_stations(int count) {
    std::string lines;
    for (int i = 0; i < count; ++i)
        lines += fmt::format("  - {{ id: A{}, place: P, control: true }}\n", i);
    return stations(lines);
}

/// Each with an unknown key, an unknown mix, something unknown near it and nothing to set out.
std::string wrong_stations(int count) {
    std::string lines;
    for (int i = 0; i < count; ++i)
        lines +=
            fmt::format("  - {{ id: A{0}, place: P, mix: m{0}, contaner: c, near: [fod] }}\n", i);
    return stations(lines);
}

}  // namespace

std::vector<Hostile> too_much_of_everything() {
    return {
        {"an alias bomb", "?", "too-many-values", alias_bomb},
        {"an alias bomb of long text", "?", "too-many-values",
         [] {
             return "a: &a '" + repeated("x", 3999) + "'\nb: [\n" + repeated("*a,\n", 900'000) +
                    "]\n";
         }},
        {"a station a million times over", "?", "too-many-values",
         [] {
             return stations("  - &s { id: A, place: P, control: true }\n" +
                             repeated("  - *s\n", 1'000'000));
         }},
        row("an anchor in itself", "1:12", "alias", "title: &a [*a]\n"),
        {"an alias to nothing", "2:8", "yaml-syntax", [] { return flat("Apartment 4B", "*none"); }},
        {"a merge key", "10:3", "merge-key", [] { return flat("  region", "  <<: x\n  region"); }},
        {"a tag", "2:8", "tag", [] { return flat("Apartment", "!!python/object Apartment"); }},
        {"a directive", "1:1", "directive", [] { return "%TAG ! x\n---\n" + flat("", ""); }},
        {"a second document", "56:1", "second-document",
         [] { return flat("", "") + "---\na: b\n"; }},
        {"100,000 brackets", "1:1001", "too-deep", [] { return repeated("[", 100'000); }},
        {"100,000 brackets, closed", "1:1001", "too-deep",
         [] { return repeated("[", 50'000) + repeated("]", 50'000); }},
        {"100,000 brackets on lines", "1001:1", "too-deep",
         [] { return repeated("[\n", 100'000); }},
        {"braces", "1:4001", "too-deep", [] { return repeated("{a: ", 25'000); }},
        {"dashes", "1:81", "too-deep", [] { return repeated("- ", 50'000); }},
        {"question marks", "1:81", "too-deep", [] { return repeated("? ", 50'000); }},
        {"ever deeper", "41:41", "too-deep",
         [] {
             std::string text;
             for (std::size_t i = 0; i < 1000; ++i) text += repeated(" ", i) + "a:\n";
             return text;
         }},
        {"a line of 5 MB", "1:1", "line-too-long",
         [] { return "title: " + repeated("x", 5'000'000) + "\n"; }},
        {"a comment of 5 MB", "1:1", "line-too-long",
         [] { return "# " + repeated("x", 5'000'000) + "\n" + flat("", ""); }},
        {"a list of 5 MB on one line", "1:1", "line-too-long",
         [] { return "languages: [" + repeated("en, ", 1'250'000) + "]\n"; }},
        {"a quote never closed, 4 MB", "1:8", "yaml-syntax",
         [] { return "title: \"" + repeated("x\n", 2'000'000); }},
        {"a text of 4 MB", "1:8", "text-too-long",
         [] { return "title: '" + repeated("x\n", 2'000'000) + "'\n"; }},
        {"a block of 4 MB", "1:8", "text-too-long",
         [] { return "title: |\n" + repeated(" x\n", 1'300'000); }},
        {"40 MB", "", "file-too-large", [] { return repeated("a: b\n", 8'000'000); }},
        {"a million stations", "", "file-too-large", [] { return many_stations(1'000'000); }},
        {"400,000 stations", "?", "too-many-values", [] { return many_stations(400'000); }},
        {"150,000 stations", "43:3", "too-many", [] { return many_stations(150'000); }},
        {"50,000 stations with four faults each", "43:34", "unknown-key",
         [] { return wrong_stations(50'000); }},
        {"a million entries", "43:3", "too-many",
         [] { return stations(repeated("  - x\n", 1'000'000)); }},
        {"two million commas", "?", "too-many-values",
         [] { return "stations: [\n" + repeated(",\n", 2'000'000) + "]\n"; }},
        {"lists in lists", "1:1", "unknown-key",
         [] { return "a:\n" + repeated(" - - - x\n", 300'000); }},
        {"200,000 unknown keys", "1:1", "unknown-key",
         [] {
             std::string text;
             for (int i = 0; i < 200'000; ++i) text += fmt::format("k{}: v\n", i);
             return text;
         }},
        {"one key 200,000 times", "2:1", "duplicate-key",
         [] { return repeated("a: b\n", 200'000); }},
    };
}

}  // namespace gallipot::tests
