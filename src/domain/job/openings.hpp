#pragma once

#include <optional>

#include "domain/job/values.hpp"

namespace gallipot::job {

/// "4 side holes of 6 mm", "3 holes in the lid of 8 mm", "open top" or "closed". An open top is as
/// wide as the body or its lid; where neither is known its area stays 0.
std::optional<Openings> read_openings(const yaml::Node& node, const Key& key, const Body& body,
                                      ReadContext& context);

}  // namespace gallipot::job
