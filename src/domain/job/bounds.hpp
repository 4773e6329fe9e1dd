#pragma once

#include <string>

#include "domain/job/keys.hpp"

namespace gallipot::job {

/// What a value may be at least and at most, with its unit: "0.1 mL to 20000 mL", "1 to 60
/// characters", "1 h to 5 years". Empty for a key without bounds.
std::string bounds_in_words(const Key& key);

}  // namespace gallipot::job
