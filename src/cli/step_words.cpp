#include "cli/step_words.hpp"

#include <array>

namespace gallipot::cli {

std::string_view word(analysis::Action action) {
    constexpr std::array<std::string_view, 14> words{"call a licensed professional",
                                                     "find",
                                                     "wipe up",
                                                     "put back",
                                                     "set out",
                                                     "visit",
                                                     "replace",
                                                     "clear the holes",
                                                     "top up",
                                                     "move it",
                                                     "change the bait",
                                                     "take up",
                                                     "keep going until",
                                                     "next visit"};
    return words.at(static_cast<std::size_t>(action));
}

std::string_view word(analysis::Why why) {
    constexpr std::array<std::string_view, 19> words{"none",
                                                     "past its time",
                                                     "spoilt",
                                                     "dry",
                                                     "runs empty",
                                                     "came back",
                                                     "worse",
                                                     "no fall",
                                                     "too long",
                                                     "in wood",
                                                     "place at fault",
                                                     "none came",
                                                     "gone",
                                                     "take up then",
                                                     "take up then if traps are empty",
                                                     "result by then",
                                                     "call a licensed professional then",
                                                     "none fed",
                                                     "few left"};
    return words.at(static_cast<std::size_t>(why));
}

}  // namespace gallipot::cli
