#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "folder.hpp"

/// The real program on files that mean it no good, under limits that the system itself keeps.
namespace gallipot::tests {

/// What a hostile file may cost at most. Seconds are the processor's, so that a busy machine does
/// not matter; a sanitizer's or an unoptimised program is not held to either.
inline constexpr int maximum_seconds = 5;
inline constexpr double maximum_megabytes = 300;

struct Ended {
    int exit = 0;    ///< -1: ended by `signal`
    int signal = 0;  ///< SIGXCPU when it took too long
    std::string out, err;
    double seconds = 0;
    double megabytes = 0;
    std::vector<std::string> left;  ///< files in the folder that were not there before, by path

    /// Whether one of the errors is "FILE:PLACE: error: ... [CODE]", the place as a Hostile has it.
    [[nodiscard]] bool tells(const std::string& file, const std::string& place,
                             const std::string& code) const;
    /// No control character, valid UTF-8, and not a book.
    [[nodiscard]] bool is_fit_to_be_read() const;
    /// What is wrong with it as an answer to a hostile file; empty when nothing is.
    [[nodiscard]] std::string fault() const;
};

/// Runs `gallipot ARGUMENTS` in `folder`.
Ended run_limited(const std::filesystem::path& folder, const std::vector<std::string>& arguments);

/// A hostile file, made when it is needed, and what is to be said of it.
struct Hostile {
    std::string name;
    std::string place;  ///< "2:9"; "?": any line and column; empty: the file as a whole
    std::string code;
    std::function<std::string()> make;
};

/// One row that stays as it is.
inline Hostile row(std::string name, std::string place, std::string code, std::string text) {
    return {std::move(name), std::move(place), std::move(code),
            [text = std::move(text)] { return text; }};
}

std::string repeated(const std::string& text, std::size_t times);

/// The job beside it, flat.yaml, with the first `from` in it replaced. Throws when it is not there.
std::string flat(const std::string& from, const std::string& to);

void write(const std::filesystem::path& path, const std::string& bytes);

}  // namespace gallipot::tests
