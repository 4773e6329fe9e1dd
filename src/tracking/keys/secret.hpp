#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/diag/diagnostic.hpp"

/// Who may write to a station's log: whoever stands before its label. A secret kept beside the job
/// file gives every station a key that nobody can guess and that stays the same on every run.
namespace gallipot::keys {

/// 32 random bytes. Wiped from memory when it goes.
class Secret {
  public:
    explicit Secret(const std::array<std::uint8_t, 32>& bytes) : bytes_(bytes) {}
    Secret(const Secret&) = default;
    Secret& operator=(const Secret&) = default;
    ~Secret();
    [[nodiscard]] const std::array<std::uint8_t, 32>& bytes() const { return bytes_; }

  private:
    std::array<std::uint8_t, 32> bytes_;
};

/// A new one from the system's random source.
Secret make_secret();

/// The text of its file: a comment that says what it is, then 64 hexadecimal digits.
std::string print(const Secret& secret);

/// Reads such a file. On an error (in `out`) the secret returned is all zeros: do not use it.
Secret parse(const diag::SourcePtr& file, diag::Diagnostics& out);

/// Ten characters of base 32 (50 bits): BLAKE2b keyed with the secret. `station_id` counts letter
/// by letter, but not its case: links are printed in capitals.
std::string station_key(const Secret& secret, std::string_view station_id);

/// The key of the page that shows every station. Never equal to a station's but by chance.
std::string overview_key(const Secret& secret);

/// The key of the household sheet's page. No station's and not the overview's but by chance.
std::string household_key(const Secret& secret);

/// What a phone is given that has shown the key of `place` ("ALL", "S/K1"), to be told apart from
/// one that guesses: 25 characters (125 bits).
std::string visitor_mark(const Secret& secret, std::string_view place);

/// What proves that a phone is the caretaker's that was given the id: 25 characters (125 bits).
std::string phone_mark(const Secret& secret, std::string_view id);

/// Sixteen characters of base 32 (80 bits) from the system's random source.
std::string random_id();

/// A short name for the job of this secret, to tell its cookies from those of another job that is
/// served by the same machine. It says nothing of the secret.
std::string job_mark(const Secret& secret);

/// Whether `typed` is `key`, in a time that does not tell how much of it was right.
bool same_key(std::string_view key, std::string_view typed);

}  // namespace gallipot::keys
