#include <random>

#include "job_rows.hpp"

namespace gallipot::tests {
namespace {

/// The flat with its title replaced by bytes.
Hostile title(const std::string& name, const std::string& place, const std::string& code,
              const std::string& bytes) {
    return {name, place, code, [bytes] { return flat("Apartment 4B", bytes); }};
}

std::string in_two_bytes(const std::string& text, bool low_first) {
    std::string all = low_first ? "\xFF\xFE" : "";
    for (const char c : text) {
        all += low_first ? c : '\0';
        all += low_first ? '\0' : c;
    }
    return all;
}

std::string noise() {
    std::mt19937 random(20270302);  // fixed: the same file each time
    std::string bytes;
    for (int i = 0; i < 100'000; ++i) bytes += static_cast<char>(random());
    return "\x7F" + bytes;
}

}  // namespace

std::vector<Hostile> bytes_that_are_no_text() {
    using namespace std::string_literals;
    return {
        row("nothing", "1:1", "empty-file", ""),
        row("a comment", "1:1", "empty-file", "# nothing else\n"),
        row("blank lines", "1:1", "empty-file", "\n\n   \n"),
        row("a byte-order mark", "1:1", "empty-file", "\xEF\xBB\xBF"),
        row("a document of nothing", "1:1", "empty-file", "---\n"),
        row("a text", "1:1", "wrong-type", "Dear Sir or Madam\n"),
        row("a list", "1:1", "wrong-type", "- a\n- b\n"),
        row("a picture", "", "not-text", "\x89PNG\r\n\x1A\n\0\0\0\rIHDR"s),
        row("a program", "1:1", "control-character", "\x7F"s + "ELF\2\1\1\0"s),
        {"100 kB of noise", "1:1", "control-character", noise},
        row("NUL first", "1:1", "control-character", "\0title: x\n"s),
        title("NUL in a text", "2:9", "control-character", "A\0B"s),
        {"UTF-16, little end first", "1:1", "not-utf8",
         [] { return in_two_bytes(flat("", ""), true); }},
        {"UTF-16, big end first", "1:1", "control-character",
         [] { return in_two_bytes(flat("", ""), false); }},
        title("Latin-1", "2:11", "not-utf8", "Caf\xE9"),
        title("an overlong slash", "2:8", "not-utf8", "\xC0\xAF"),
        title("half a surrogate pair", "2:8", "not-utf8", "\xED\xA0\x80"),
        title("beyond Unicode", "2:8", "not-utf8", "\xF4\x90\x80\x80"),
        title("a byte that continues nothing", "2:8", "not-utf8", "\x80"),
        {"a character cut off by the end", "56:3", "not-utf8",
         [] { return flat("", "") + "# \xE2\x82"; }},
        {"two byte-order marks", "1:1", "control-character",
         [] { return "\xEF\xBB\xBF\xEF\xBB\xBF" + flat("", ""); }},
        title("a byte-order mark in a text", "2:9", "control-character", "A\xEF\xBB\xBF"),
        {"a tab that indents", "10:1", "tab", [] { return flat("  region", "\tregion"); }},
        {"a tab after blanks", "10:2", "tab", [] { return flat("  region", " \tregion"); }},
        title("a tab in a text", "2:8", "line-break", "A\tB"),
        title("a carriage return", "2:9", "control-character", "A\rB"),
    };
}

}  // namespace gallipot::tests
