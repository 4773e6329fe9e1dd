#pragma once

#include "papers/text/catalog.hpp"

namespace gallipot::tests {

/// Every language that templates/text has a file for, overlays of a region ("en-US") left out: a
/// test that goes through them needs no change when a language is added.
inline std::vector<std::string> languages() {
    return text::languages(GALLIPOT_SOURCE_DIR "/templates");
}

}  // namespace gallipot::tests
