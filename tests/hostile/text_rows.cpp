#include "job_rows.hpp"

namespace gallipot::tests {
namespace {

/// The flat with one line in it, or part of one, replaced.
Hostile change(const std::string& was, const std::string& now, const std::string& place,
               const std::string& code) {
    return {now.substr(0, 40), place, code, [was, now] { return flat(was, now); }};
}

Hostile titled(const std::string& name, const std::string& place, const std::string& code,
               const std::string& now) {
    return {"title: " + name, place, code, [now] { return flat("Apartment 4B", now); }};
}

}  // namespace

std::vector<Hostile> texts_that_deceive() {
    std::vector<Hostile> rows;
    const std::vector<std::pair<std::string, std::string>> raw = {
        {"U+0001", "A\x01"},      {"an escape sequence", "A\x1B[31m"},
        {"backspaces", "A\b\b"},  {"U+007F", "A\x7F"},
        {"U+009B", "A\u009B31m"}, {"U+0085", "A\u0085"},
        {"U+000B", "A\v"},        {"U+2028", "A\u2028"},
        {"U+202E", "A\u202E"},    {"U+2066", "A\u2066"},
        {"U+200F", "A\u200F"},    {"U+061C", "A\u061C"}};
    for (const auto& [name, text] : raw)
        rows.push_back(titled(name, "2:9", "control-character", text));
    for (const char* escape : {"\\x1B[31m", "\\0", "\\a", "\\e[2J", "\\u202E", "\\N", "\\L", "\\P"})
        rows.push_back(
            titled(escape, "2:8", "control-character", "\"A" + std::string(escape) + "\""));
    rows.push_back(titled("an escape beyond Unicode", "2:20", "yaml-syntax", "\"A\\UFFFFFFFF\""));
    rows.push_back(titled("an escaped surrogate", "2:16", "yaml-syntax", "\"A\\uD800\""));
    rows.push_back(titled("an unknown escape", "2:12", "yaml-syntax", "\"A\\q\""));
    // What no font covers is told by its number, where it stands first.
    for (const char* text :
         {"A \U0001F41C", "A \U00013080", "A \u1401", "A \uE000", "A \uFFFE", "A \U000E0041"})
        rows.push_back(titled(text, "2:10", "no-letter", text));
    rows.push_back(titled("5,000 letters", "2:8", "text-too-long", repeated("x", 5000)));
    rows.push_back(titled("121 letters", "2:8", "too-long", repeated("x", 121)));
    rows.push_back(titled("blanks", "2:8", "empty-value", "\"   \""));
    rows.push_back(titled("a line break", "2:8", "line-break", "\"a\\nb\""));
    rows.push_back(titled("a list", "2:8", "wrong-type", "[a]"));
    rows.push_back(titled("an open quote", "2:8", "yaml-syntax", "'abc"));
    return rows;
}

std::vector<Hostile> names_that_look_like_paths() {
    std::vector<Hostile> rows;
    for (const char* id : {"../x", "/etc/passwd", "..", ".", "K1/..", "-rf", "\"K1;rm\"", "K1'",
                           "\"K1\\\"x\"", "\"K1\\\\x\"", "\u00C41", "\"{station}\"", "\"%2e%2e\"",
                           "\"K1 x\"", "com1.txt", "file:x", "$(id)", "\"~\""})
        rows.push_back(change("id: K1,", "id: " + std::string(id) + ",", "43:11", "bad-id"));
    rows.push_back(change("id: K1,", "id: \"\",", "43:11", "empty-value"));
    rows.push_back(change("id: K1,", "id: " + repeated("K", 13) + ",", "43:11", "too-long"));
    rows.push_back(change("id: K1,", "id: " + repeated("K", 50'000) + ",", "43:11", "too-long"));
    rows.push_back(change("id: K2,", "id: k1,", "44:11", "duplicate-id"));
    for (const char* mix : {"../x", "\"a/b\"", "\".\""})
        rows.push_back(change("  syrup:", "  " + std::string(mix) + ":", "27:3", "bad-id"));
    for (const char* stock : {"../x", "/etc/passwd", "../stocks/a4-2x4", "..%2f", "CON"})
        rows.push_back(change("letter-2x5", stock, "7:9", "unknown-stock"));
    for (const char* language : {"../en", "en-../US", "/etc/passwd", "english"})
        rows.push_back(
            change("[en, es]", "[" + std::string(language) + "]", "5:13", "bad-language"));
    rows.push_back(change("[en, es]", "[xx]", "5:13", "unknown-language"));
    for (const char* region : {"../x", "US/..", "ZZ", "u s"})
        rows.push_back(
            change("region: US", "region: " + std::string(region), "10:11", "bad-region"));
    for (const char* zone : {"../../etc/passwd", "/etc/localtime", "Australia/../Sydney"})
        rows.push_back(
            change("currency: USD", "time_zone: " + std::string(zone), "21:12", "bad-time-zone"));
    for (const char* zone : {"Mars/Olympus", "GMT+25", "Australia/Sidney"})
        rows.push_back(change("currency: USD", "time_zone: " + std::string(zone), "21:12",
                              "unknown-time-zone"));
    for (const char* address :
         {"file:///etc/passwd", "javascript:alert(1)", "http://a b", "http://user:pw@host",
          "http://[::1", "http://x:99999", "http://x?a", "http://x\\u00E9"})
        rows.push_back(change("currency: USD", "log: { address: \"" + std::string(address) + "\" }",
                              "21:17", "bad-address"));
    return rows;
}

}  // namespace gallipot::tests
