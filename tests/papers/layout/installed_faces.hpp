#pragma once

#include "papers/fonts/fonts.hpp"

namespace gallipot::tests {

/// The faces the papers are set in, opened once a test program.
inline const fonts::Faces& installed_faces() {
    static const fonts::Faces faces = fonts::find(GALLIPOT_SOURCE_DIR "/fonts/fonts.yaml");
    return faces;
}

}  // namespace gallipot::tests
