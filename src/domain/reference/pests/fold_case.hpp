#pragma once

#include <string>
#include <string_view>

namespace gallipot::reference {

/// Lower case of UTF-8 text in the Latin and Cyrillic scripts (the letters of Unicode's Basic
/// Latin, Latin-1 Supplement, Latin Extended-A and Cyrillic blocks, and capital sharp s); other
/// characters as they stand. The languages of the papers need no more; ICU belongs to a higher
/// layer.
std::string fold_case(std::string_view text);

}  // namespace gallipot::reference
