#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace gallipot::text {

/// Whether a line that ends at `offset` of `text` would part a date, as "2 | March 2027" and "March
/// 2, | 2027": the word before it and the one behind are a day, a month of the language or a year,
/// the particles between them counted in ("2 de marzo de 2027").
bool parts_date(std::string_view text, std::size_t offset, const std::string& language);

}  // namespace gallipot::text
