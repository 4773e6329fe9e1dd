#pragma once

#include <chrono>
#include <string_view>
#include <variant>

#include "base/diag/text.hpp"

namespace gallipot::job {

/// Why a text is no time of day, and what to write instead.
struct NoTime {
    diag::Text message;
    diag::Text hint;
};

/// The time of day that can be meant alone: "18:30", "18.30", "18h30", "6:30 pm", "6 p.m.", "noon".
/// "6:30" may be either half of the day, and 12:00 with am or pm is not agreed on (NIST, "Times of
/// day FAQ", from memory): both are told.
std::variant<std::chrono::minutes, NoTime> read_time_of_day(std::string_view text);

}  // namespace gallipot::job
