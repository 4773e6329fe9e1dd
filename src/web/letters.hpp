#pragma once

#include <string>
#include <string_view>

namespace gallipot::web {

/// With A to Z as small letters; everything else as it is.
inline std::string small(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

}  // namespace gallipot::web
