#pragma once

#include <vector>

#include "limited.hpp"

/// Job files that mean it no good, by kind.
namespace gallipot::tests {

std::vector<Hostile> bytes_that_are_no_text();
std::vector<Hostile> too_much_of_everything();
std::vector<Hostile> numbers_of_every_wrong_kind();
std::vector<Hostile> dates_and_places_out_of_this_world();
std::vector<Hostile> texts_that_deceive();
std::vector<Hostile> names_that_look_like_paths();

}  // namespace gallipot::tests
