#include "tracking/keys/secret.hpp"

#include <sodium.h>
#include <stdexcept>

#include "base/strings/ascii.hpp"
#include "tracking/keys/base32.hpp"
#include "tracking/keys/hash.hpp"

namespace gallipot::keys {

namespace {

constexpr std::size_t key_characters = 10;
constexpr std::size_t mark_characters = 25;

/// `kind` keeps the keys of different pages apart whatever a station is called.
std::string key(const Secret& secret, std::string_view kind, std::string_view id,
                std::size_t characters = key_characters) {
    std::vector<std::uint8_t> message(kind.begin(), kind.end());
    message.push_back(0);
    for (const char c : id) message.push_back(static_cast<std::uint8_t>(strings::to_upper(c)));
    return base32(blake2b(16, secret.bytes(), message), characters);
}

}  // namespace

Secret::~Secret() {
    sodium_memzero(bytes_.data(), bytes_.size());
}

Secret make_secret() {
    if (sodium_init() < 0) throw std::logic_error("libsodium does not start");
    std::array<std::uint8_t, 32> bytes{};
    randombytes_buf(bytes.data(), bytes.size());
    return Secret(bytes);
}

std::string print(const Secret& secret) {
    std::string text =
        "# gallipot: the keys of this job's labels come from this number. Keep it with the job and "
        "show it to nobody; without it the printed codes no longer open their pages.\n";
    for (const auto byte : secret.bytes()) {
        text += "0123456789abcdef"[byte >> 4];
        text += "0123456789abcdef"[byte & 15];
    }
    return text + "\n";
}

Secret parse(const diag::SourcePtr& file, diag::Diagnostics& out) {
    std::array<std::uint8_t, 32> bytes{};
    const std::string_view text = file->text;
    bool found = false;
    bool good = true;
    int line = 0;
    int bad_line = 0;
    for (std::size_t start = 0; start < text.size();) {
        const auto end = std::min(text.find('\n', start), text.size());
        auto row = text.substr(start, end - start);
        start = end + 1;
        ++line;
        while (!row.empty() && (row.back() == '\r' || row.back() == ' ')) row.remove_suffix(1);
        if (row.empty() || row.front() == '#') continue;
        bool hex = !found && row.size() == 2 * bytes.size();
        for (std::size_t i = 0; hex && i < bytes.size(); ++i) {
            const auto high = strings::hex_digit(row[2 * i]);
            const auto low = strings::hex_digit(row[2 * i + 1]);
            hex = high && low;
            if (hex) bytes[i] = static_cast<std::uint8_t>(*high << 4 | *low);
        }
        found = true;
        if (!hex) {
            good = false;
            bad_line = line;
        }
    }
    if (found && good) return Secret(bytes);
    // The line itself is not shown: what is left of a secret should not reach a terminal.
    out.error(
        "bad-secret", diag::Place{file, 0, 0, 1},
        found
            ? diag::say("line {} is not the secret: one line of 64 hexadecimal digits was expected",
                        bad_line)
            : "no secret in it: one line of 64 hexadecimal digits was expected",
        "put back a copy of the file; or delete it to make a new secret, and print all labels "
        "again: codes printed before will no longer open their pages");
    return Secret({});
}

std::string station_key(const Secret& secret, std::string_view station_id) {
    return key(secret, "station", station_id);
}

std::string overview_key(const Secret& secret) {
    return key(secret, "overview", "");
}

std::string household_key(const Secret& secret) {
    return key(secret, "household", "");
}

std::string visitor_mark(const Secret& secret, std::string_view place) {
    return key(secret, "visitor", place, mark_characters);
}

std::string phone_mark(const Secret& secret, std::string_view id) {
    return key(secret, "phone", id, mark_characters);
}

std::string random_id() {
    if (sodium_init() < 0) throw std::logic_error("libsodium does not start");
    std::array<std::uint8_t, 10> bytes{};
    randombytes_buf(bytes.data(), bytes.size());
    return base32(bytes, 16);
}

std::string job_mark(const Secret& secret) {
    constexpr std::size_t characters = 6;
    return key(secret, "job", "", characters);
}

bool same_key(std::string_view expected, std::string_view typed) {
    const auto given = normal(typed);
    return given.size() == expected.size() &&
           sodium_memcmp(given.data(), expected.data(), expected.size()) == 0;
}

}  // namespace gallipot::keys
