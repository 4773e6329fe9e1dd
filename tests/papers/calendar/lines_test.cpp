#include "papers/calendar/lines.hpp"

#include "catch_all.hpp"

using namespace gallipot::calendar;
using namespace std::chrono_literals;

TEST_CASE("a long line is folded at 75 octets and no character is cut", "[calendar]") {
    // RFC 5545, 3.1: lines SHOULD NOT be longer than 75 octets, the line break not counted.
    CHECK(line("SUMMARY:short") == "SUMMARY:short\r\n");
    CHECK(line(std::string(75, 'x')) == std::string(75, 'x') + "\r\n");
    CHECK(line(std::string(76, 'x')) == std::string(75, 'x') + "\r\n x\r\n");
    for (const std::string letter : {"\u044f", "\u00e9", "x", "\u20ac"}) {
        std::string text;
        for (int i = 0; i < 100; ++i) text += letter;
        const std::string folded = line("D:" + text);
        std::string unfolded;
        std::size_t start = 0;
        for (std::size_t end; (end = folded.find("\r\n", start)) != std::string::npos;
             start = end + 2) {
            CHECK(end - start <= 75);
            unfolded +=
                folded.substr(start + (start > 0 ? 1 : 0), end - start - (start > 0 ? 1 : 0));
            // A continued line never begins with the rest of a character.
            if (start > 0) CHECK((static_cast<unsigned char>(folded[start + 1]) & 0xC0) != 0x80);
        }
        CHECK(start == folded.size());
        CHECK(unfolded == "D:" + text);
    }
}

TEST_CASE("text keeps what has a meaning in a calendar", "[calendar]") {
    // RFC 5545, 3.3.11.
    CHECK(escaped("Hall; stage, left\\right\nnext") == "Hall\\; stage\\, left\\\\right\\nnext");
    CHECK(escaped("a\rb\tc") == "a b c");
}

TEST_CASE("times and offsets as RFC 5545 writes them", "[calendar]") {
    const auto day = std::chrono::local_days(std::chrono::year{2027} / 3 / 2);
    CHECK(date_time(day + 19h + 30min) == "20270302T193000");
    CHECK(utc_offset(11h) == "+1100");
    CHECK(utc_offset(-(3h + 30min)) == "-0330");
    CHECK(utc_offset(0s) == "+0000");
    CHECK(utc_offset(10h + 4min + 52s) == "+100452");
}
