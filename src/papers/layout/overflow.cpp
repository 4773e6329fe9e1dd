#include "papers/layout/overflow.hpp"

#include <utility>

namespace gallipot::layout {

namespace {

std::string in_words(const std::vector<Overflow>& overflows) {
    std::string text;
    for (const Overflow& overflow : overflows) {
        if (!text.empty()) text += '\n';
        text += overflow.what.english() + ": " + overflow.problem.english() + "; " +
                overflow.remedy.english();
    }
    return text;
}

}  // namespace

LayoutError::LayoutError(std::vector<Overflow> overflows)
    : std::runtime_error(in_words(overflows)), overflows_(std::move(overflows)) {}

}  // namespace gallipot::layout
