#pragma once

#include <string>
#include <vector>

namespace gallipot::fonts {

/// What the list of faces says of them besides.
struct About {
    std::vector<std::string> scripts;  ///< that they are set for: "Latin"
    std::string licence;
    std::string package;  ///< that holds the files on Debian
};

/// Reads it from fonts/fonts.yaml. Throws FontError.
About about(const std::string& list_path);

}  // namespace gallipot::fonts
