#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "papers/text/messages.hpp"

/// A catalog of messages as the build compiles it, since reading five languages as YAML takes a
/// quarter of a render and half of a check (tests/bench). The YAML files stay the source: a
/// compiled catalog counts only as long as the file it was made from is the same.
namespace gallipot::text {

/// Where the compiled catalog of a language lies, of the templates `folder`.
std::string compiled_path(const std::string& folder, const std::string& language);

/// The messages of a file whose text is `yaml`, which have been checked.
std::string compiled_catalog(const Messages& messages, std::string_view yaml);

/// Back again, with places in `source`; nothing when `compiled` was made from another text or by
/// another version of this program.
std::optional<Messages> read_compiled(std::string_view compiled, const diag::SourcePtr& source);

}  // namespace gallipot::text
