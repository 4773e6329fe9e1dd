#include "base/strings/ascii.hpp"

#include <cctype>
#include <clocale>

#include "catch_all.hpp"

#include "base/strings/fnv1a.hpp"

using namespace gallipot;

TEST_CASE("characters are told as the C locale tells them", "[strings]") {
    REQUIRE(std::string(std::setlocale(LC_CTYPE, nullptr)) == "C");
    for (int i = 0; i < 256; ++i) {
        const char c = static_cast<char>(i);
        INFO("byte " << i);
        CHECK(strings::is_digit(c) == (std::isdigit(i) != 0));
        CHECK(strings::is_lower(c) == (std::islower(i) != 0));
        CHECK(strings::is_upper(c) == (std::isupper(i) != 0));
        CHECK(strings::is_letter(c) == (std::isalpha(i) != 0));
        CHECK(strings::is_letter_or_digit(c) == (std::isalnum(i) != 0));
        CHECK(strings::hex_digit(c).has_value() == (std::isxdigit(i) != 0));
        CHECK(strings::to_lower(c) == static_cast<char>(std::tolower(i)));
        CHECK(strings::to_upper(c) == static_cast<char>(std::toupper(i)));
    }
    for (int i = 0; i < 16; ++i) {
        CHECK(strings::hex_digit("0123456789abcdef"[i]) == i);
        CHECK(strings::hex_digit("0123456789ABCDEF"[i]) == i);
    }
}

TEST_CASE("only letters of ASCII change their case", "[strings]") {
    CHECK(strings::to_lower("Zürich ÄPFEL 7") == "zürich Äpfel 7");
    CHECK(strings::to_upper("Zürich äpfel 7") == "ZüRICH äPFEL 7");
    CHECK(strings::same_letters("Borax", "bORAX"));
    CHECK_FALSE(strings::same_letters("Borax", "Boraxo"));
    CHECK_FALSE(strings::same_letters("Ä", "ä"));
    CHECK(strings::same_letters("", ""));
}

TEST_CASE("blanks are cut off at both ends and nowhere else", "[strings]") {
    CHECK(strings::trimmed("  a b ") == "a b");
    CHECK(strings::trimmed("a") == "a");
    CHECK(strings::trimmed("   ").empty());
    CHECK(strings::trimmed("").empty());
    CHECK(strings::trimmed("\ta\n") == "\ta\n");
    CHECK(strings::trimmed(" \ta\n", " \t\n") == "a");
}

TEST_CASE("FNV-1a gives its published values", "[strings]") {
    // Fowler, Noll, Vo, Eastlake: The FNV Non-Cryptographic Hash Algorithm, test vectors for 64
    // bits (from memory; the offset basis is the hash of no bytes).
    CHECK(strings::fnv1a(std::string_view("")) == 0xcbf29ce484222325u);
    CHECK(strings::fnv1a(std::string_view("a")) == 0xaf63dc4c8601ec8cu);
    CHECK(strings::fnv1a(std::string_view("foobar")) == 0x85944171f73967e8u);
    CHECK(strings::fnv1a(std::string_view("\xff")) == strings::fnv1a(std::u32string_view(U"\xff")));
}
