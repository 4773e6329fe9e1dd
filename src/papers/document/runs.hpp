#pragma once

#include <string>
#include <string_view>
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

/// Whether a text ends with a mark that has its space in it, as wide as a Chinese letter.
inline bool ends_wide(std::string_view text) {
    for (const std::string_view mark : {"。", "！", "？", "：", "；", "，"})
        if (text.ends_with(mark)) return true;
    return false;
}

/// Adds runs after a space, if there is anything before it.
inline void add_sentence(text::StyledText& runs, text::StyledText sentence) {
    if (!runs.empty() && !sentence.empty() && !ends_wide(runs.back().text))
        runs.push_back({" ", false});
    for (auto& run : sentence) runs.push_back(std::move(run));
}

}  // namespace gallipot::document
