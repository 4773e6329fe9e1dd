#include "base/diag/utf8.hpp"

#include <string>

#include "catch_all.hpp"

using namespace gallipot::diag;

TEST_CASE("UTF-8 as the Unicode Standard defines it, table 3-7") {
    struct Case {
        std::string text;
        char32_t code;
        std::size_t bytes;
        bool valid;
    };
    const auto c = GENERATE(values<Case>({
        {"a", 0x61, 1, true},
        {"\x7F", 0x7F, 1, true},
        {"\xC2\x80", 0x80, 2, true},
        {"\xDF\xBF", 0x7FF, 2, true},
        {"\xE0\xA0\x80", 0x800, 3, true},
        {"\xED\x9F\xBF", 0xD7FF, 3, true},
        {"\xEE\x80\x80", 0xE000, 3, true},
        {"\xF0\x90\x80\x80", 0x10000, 4, true},
        {"\xF4\x8F\xBF\xBF", 0x10FFFF, 4, true},
        {"\xC1\xBF", 0xC1, 1, false},          // overlong
        {"\xE0\x9F\xBF", 0xE0, 1, false},      // overlong
        {"\xF0\x8F\xBF\xBF", 0xF0, 1, false},  // overlong
        {"\xED\xA0\x80", 0xED, 1, false},      // surrogate
        {"\xF4\x90\x80\x80", 0xF4, 1, false},  // beyond U+10FFFF
        {"\x80", 0x80, 1, false},              // a continuation byte alone
        {"\xE2\x82", 0xE2, 1, false},          // cut short
        {"\xF5\x80\x80\x80", 0xF5, 1, false},
        {"\xC3(", 0xC3, 1, false},
    }));
    const Character got = character_at(c.text, 0);
    CHECK(got.code == c.code);
    CHECK(got.bytes == c.bytes);
    CHECK(got.valid == c.valid);
}

TEST_CASE("characters are counted, not bytes") {
    CHECK(count_characters("") == 0);
    CHECK(count_characters("a\xC3\xA9\xE2\x82\xAC\xF0\x9F\x90\x9C") == 4);
    CHECK(count_characters("\xFF\xFE"
                           "a") == 3);
}

TEST_CASE("characters that drive a terminal or turn the text around") {
    CHECK(is_control(0x1B));
    CHECK(is_control('\n'));
    CHECK(is_control(0x7F));
    CHECK(is_control(0x9B));
    CHECK_FALSE(is_control(' '));
    CHECK_FALSE(is_control(0xA0));
    // Bidi_Control in Unicode's PropList.
    for (const char32_t code : {0x061C, 0x200E, 0x200F, 0x202A, 0x202B, 0x202C, 0x202D, 0x202E,
                                0x2066, 0x2067, 0x2068, 0x2069}) {
        CHECK(is_direction_control(code));
    }
    CHECK_FALSE(is_direction_control(0x200D));
    CHECK(code_point_name(0x202E) == "U+202E");
    CHECK(code_point_name(0x9) == "U+0009");
}

TEST_CASE("what did not come from us is made printable, on one line") {
    CHECK(printable("a\x1b[2J\tb\n") == "a\xEF\xBF\xBD[2J b\xEF\xBF\xBD");
    CHECK(printable("x\xE2\x80\xAEy\xFF") == "x\xEF\xBF\xBDy\xEF\xBF\xBD");
    CHECK(printable("Küche, 廚房") == "Küche, 廚房");
    CHECK(printable("äöü", 2) == "äö...");
    CHECK(printable("äö", 2) == "äö");
    CHECK(printable_lines("a\nb\r") == "a\nb\xEF\xBF\xBD");
    CHECK(quoted("hall\n.yaml") == "'hall\xEF\xBF\xBD.yaml'");
}
