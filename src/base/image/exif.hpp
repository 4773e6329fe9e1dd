#pragma once

#include <string_view>

namespace gallipot::image {

/// How a JPEG's Exif says that the camera was held: 1 (upright) to 8; 1 too where it says nothing
/// that can be read. Exif 2.32 (CIPA DC-008), 4.5.4 and 4.6.4 A, tag 274; the numbers and the
/// layout from memory. Nothing else of the metadata is looked at.
int orientation(std::string_view jpeg);

}  // namespace gallipot::image
