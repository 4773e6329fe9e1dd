#include "tracking/keys/secret.hpp"

#include <algorithm>
#include <set>

#include "catch_all.hpp"

#include "tracking/keys/hash.hpp"

using namespace gallipot;
using namespace gallipot::keys;

namespace {
diag::SourcePtr file(const std::string& text) {
    return std::make_shared<diag::Source>(diag::Source{"hall.secret", text});
}
Secret counted() {
    std::array<std::uint8_t, 32> bytes{};
    for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i);
    return Secret(bytes);
}
}  // namespace

TEST_CASE("a secret survives its file and two are never alike") {
    const auto secret = make_secret();
    diag::Diagnostics out;
    CHECK(parse(file(print(secret)), out).bytes() == secret.bytes());
    CHECK_FALSE(out.has_errors());
    CHECK(make_secret().bytes() != secret.bytes());
    const auto text = print(secret);
    CHECK(text.front() == '#');
    CHECK(std::count(text.begin(), text.end(), '\n') == 2);
}

TEST_CASE("a secret written on another system is read") {
    auto text = print(counted());
    std::string with_returns;
    for (char c : text) with_returns += c == '\n' ? "\r\n" : std::string(1, c);
    diag::Diagnostics out;
    CHECK(parse(file(with_returns), out).bytes() == counted().bytes());
    CHECK_FALSE(out.has_errors());
}

TEST_CASE("a damaged secret is an error that tells what is lost, and does not show the rest") {
    const auto good = print(counted());
    const auto digits = good.substr(good.find('\n') + 1, 64);
    for (const auto& bad : {std::string(), std::string("# only a comment\n"), digits.substr(1),
                            digits + "0", digits + "\n" + digits, "g" + digits.substr(1)}) {
        diag::Diagnostics out;
        parse(file(bad), out);
        REQUIRE(out.errors() == 1);
        const auto error = out.in_order().front();
        CHECK(error.code == "bad-secret");
        CHECK(error.hint.english().find("print all labels again") != std::string::npos);
        CHECK(error.message.english().find(digits.substr(4, 8)) == std::string::npos);
        CHECK(error.place.line == 0);
    }
}

// Computed apart from this code, with Python's hashlib: blake2b(b"station\0K1", digest_size=16,
// key=bytes(range(32))), first 50 bits in Crockford's alphabet.
TEST_CASE("a station's key is what another program computes") {
    CHECK(station_key(counted(), "K1") == "SKX0GDT2EA");
    CHECK(overview_key(counted()) == "KB459GXK48");
}

TEST_CASE("keys differ by station and by secret, not by letter case") {
    std::set<std::string> seen;
    const auto secret = counted();
    for (int i = 0; i < 10000; ++i) seen.insert(station_key(secret, "S" + std::to_string(i)));
    seen.insert(overview_key(secret));
    CHECK(seen.size() == 10001);
    for (const auto& key : seen) REQUIRE(key.size() == 10);
    CHECK(station_key(secret, "k1") == station_key(secret, "K1"));
    CHECK(station_key(make_secret(), "K1") != station_key(secret, "K1"));
}

TEST_CASE("a key is recognised as typed, and no other") {
    const auto key = station_key(counted(), "K1");
    CHECK(same_key(key, key));
    auto small = key;
    std::transform(small.begin(), small.end(), small.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    CHECK(same_key(key, small));
    CHECK(same_key(key, key.substr(0, 5) + "-" + key.substr(5)));
    CHECK_FALSE(same_key(key, key.substr(1)));
    CHECK_FALSE(same_key(key, key + "0"));
    CHECK_FALSE(same_key(key, ""));
    for (std::size_t i = 0; i < key.size(); ++i) {
        auto wrong = key;
        wrong[i] = wrong[i] == '7' ? '8' : '7';
        CHECK_FALSE(same_key(key, wrong));
    }
}
