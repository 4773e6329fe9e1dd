#pragma once

#include <string>
#include <utility>

#include "papers/text/catalog.hpp"

/// Putting runs of text together.
namespace gallipot::document {

inline text::StyledText regular(std::string text) {
    if (text.empty()) return {};
    return {{std::move(text), false}};
}

inline text::StyledText bold(std::string text) {
    if (text.empty()) return {};
    return {{std::move(text), true}};
}

/// Adds runs after a space, if there is anything before it.
inline void add_sentence(text::StyledText& runs, text::StyledText sentence) {
    if (!runs.empty() && !sentence.empty()) runs.push_back({" ", false});
    for (auto& run : sentence) runs.push_back(std::move(run));
}

}  // namespace gallipot::document
