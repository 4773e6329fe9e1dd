#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "domain/job/keys.hpp"

namespace gallipot::job {

/// The choice of a key that another word for it means: "children" of `near: [kids]`. Empty where
/// none is known. It is offered, never taken: a heater may stand for heat, or be what is in the
/// way.
std::string_view choice_meant(const Key& key, std::string_view word);

/// The name that begins with the word: "boric acid" of "boric", which is nearer to "borax" by its
/// letters. Empty where there is none.
std::string name_begun(std::string_view word, const std::vector<std::string>& names);

}  // namespace gallipot::job
