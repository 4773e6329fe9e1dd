#include "papers/qr/symbol.hpp"

#include <array>

#include "catch_all.hpp"

using namespace gallipot::qr;

namespace {
struct Row {
    int version;
    std::array<std::size_t, 4> characters;  // at L, M, Q, H
};
}  // namespace

// Capacity of versions 1 to 5 in alphanumeric mode, as published in several QR code tables (read:
// a wiki's table for versions 1 to 5). qrcode.com (Denso Wave) confirms 38 for version 2 at M.
TEST_CASE("a symbol holds exactly what the published capacity table says") {
    const std::array<Row, 5> table{{{1, {25, 20, 16, 10}},
                                    {2, {47, 38, 29, 20}},
                                    {3, {77, 61, 47, 35}},
                                    {4, {114, 90, 67, 50}},
                                    {5, {154, 122, 87, 64}}}};
    for (const auto& row : table) {
        for (int i = 0; i < 4; ++i) {
            const auto level = static_cast<Level>(i);
            INFO("version " << row.version << letter(level));
            const auto full = encode(std::string(row.characters[i], 'A'), level);
            CHECK(full.version == row.version);
            CHECK(full.level == level);
            CHECK(encode(std::string(row.characters[i] + 1, 'A'), level).version ==
                  row.version + 1);
        }
    }
}

// Largest symbol, version 40 at L: 7089 digits, 4296 alphanumerics, 2953 bytes (published by
// dlsoft.com among others; the same figures stand in ISO/IEC 18004, recalled).
TEST_CASE("the largest symbol holds the published maximum and one more is refused") {
    CHECK(encode(std::string(7089, '7'), Level::low).version == 40);
    CHECK(encode(std::string(4296, 'A'), Level::low).version == 40);
    CHECK(encode(std::string(2953, 'a'), Level::low).version == 40);
    CHECK_THROWS_AS(encode(std::string(7090, '7'), Level::low), TooLong);
    CHECK_THROWS_AS(encode(std::string(4297, 'A'), Level::low), TooLong);
    CHECK_THROWS_AS(encode(std::string(2954, 'a'), Level::low), TooLong);
}

TEST_CASE("a link in capitals leaves room that the same link in small letters does not") {
    const auto capitals = encode("HTTP://192.168.1.20:8017/S/K1/7Q2MX4KD9A");
    CHECK(capitals.alphanumeric);
    CHECK(capitals.version == 3);
    CHECK(capitals.modules == 29);
    CHECK(capitals.level == Level::quartile);
    const auto small = encode("http://192.168.1.20:8017/s/k1/7q2mx4kd9a");
    CHECK_FALSE(small.alphanumeric);
    CHECK(small.version == 3);
    CHECK(small.level == Level::medium);
}

TEST_CASE("the level is raised where it costs nothing and reported") {
    // 41 characters: version 3 holds 61 at M and 47 at Q.
    CHECK(encode(std::string(41, 'A'), Level::medium).level == Level::quartile);
    CHECK(encode(std::string(48, 'A'), Level::medium).level == Level::medium);
    CHECK(encode(std::string(10, 'A'), Level::low).level == Level::high);
}

// Finder patterns: 7 x 7 dark ring, light ring, 3 x 3 dark heart, in three corners; the module
// beside the lower left one is always dark (ISO/IEC 18004, recalled).
TEST_CASE("the fixed patterns stand where the standard puts them") {
    const auto symbol = encode("POISON BAIT NOT FOOD K1");
    const int n = symbol.modules;
    REQUIRE(symbol.dark.size() == static_cast<std::size_t>(n) * n);
    const auto dark = [&](int x, int y) { return bool(symbol.dark[y * n + x]); };
    for (auto [left, top] : {std::pair{0, 0}, {n - 7, 0}, {0, n - 7}}) {
        for (int y = 0; y < 7; ++y)
            for (int x = 0; x < 7; ++x) {
                const int ring = std::max(std::abs(x - 3), std::abs(y - 3));
                CHECK(dark(left + x, top + y) == (ring != 2));
            }
    }
    CHECK(dark(8, 4 * symbol.version + 9));
}

TEST_CASE("bytes beyond a terminating zero are not lost") {
    const std::string with_zero("A\0B", 3);
    const auto symbol = encode(with_zero);
    CHECK(symbol.content == with_zero);
    CHECK_FALSE(symbol.alphanumeric);
}
