#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "papers/text/messages.hpp"

/// The texts of a language made ready when the program is built, since reading five languages as
/// YAML takes longer than setting all papers in them. The YAML files stay the source: what was made
/// ready counts only as long as the file beside it is the very one it was made from.
namespace gallipot::text {

/// Where the texts of a language of the templates `folder` lie when made ready.
std::string ready_path(const std::string& folder, const std::string& language);

/// The messages of a file whose text is `yaml`, which have been checked.
std::string made_ready(const Messages& messages, std::string_view yaml);

/// Back again, with places in `source`; nothing when `ready` was made from another text or by
/// another version of this program.
std::optional<Messages> from_ready(std::string_view ready, const diag::SourcePtr& source);

}  // namespace gallipot::text
