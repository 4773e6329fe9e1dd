#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string>

#include "base/diag/diagnostic.hpp"
#include "base/diag/utf8.hpp"

/// What a fuzzer calls, one a target: any bytes in, nothing must break. The fuzzer's own main calls
/// it in a build of type Fuzz, replay.cpp in every other.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace gallipot::fuzz {

/// Set by replay.cpp: where a target tries one of several ways by the input, it tries them all.
inline bool thorough = false;

inline void require(bool holds, const char* what, const std::string& detail = {}) {
    if (holds) return;
    std::fprintf(stderr, "does not hold: %s\n%s\n", what, detail.c_str());
    std::abort();
}

inline std::string text_of(const std::uint8_t* data, std::size_t size) {
    return {data, data + size};
}

inline diag::SourcePtr source_of(const std::string& name, std::string text) {
    return std::make_shared<const diag::Source>(diag::Source{name, std::move(text)});
}

/// Which of `count` ways an input takes: always the same one (FNV-1a, 32 bits).
inline std::size_t way(const std::string& input, std::size_t count) {
    std::uint32_t hash = 2166136261u;
    for (const char c : input) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
    return hash % count;
}

/// What is told must point into the file, and may not drive a terminal.
inline void check_told(const diag::Diagnostics& found) {
    for (const auto& one : found.in_order()) {
        require(one.place.source != nullptr, "a diagnostic names its file", diag::print(one));
        // What is missed in a file as a whole is a warning and has no line.
        require(
            (one.place.line > 0 && one.place.column > 0) || one.severity == diag::Severity::warning,
            "an error has a place", diag::print(one));
    }
    const std::string shown = diag::print(found);
    require(shown.empty() == (found.errors() + found.warnings() == 0), "what was found is told");
    for (std::size_t at = 0; at < shown.size();) {
        const auto character = diag::character_at(shown, at);
        require(character.valid, "what is told is UTF-8", shown);
        require(character.code == U'\n' || (!diag::is_control(character.code) &&
                                            !diag::is_direction_control(character.code)),
                "what is told holds no control character", shown);
        at += character.bytes;
    }
}

}  // namespace gallipot::fuzz
