#pragma once

#include <string_view>

namespace gallipot::reference {

/// Whether what is called that may hold peanut, by the word for it in any language of the papers:
/// "peanut butter", "Erdnussmus". Peanut stands among the foods that have to be named because
/// people are allergic to them: Regulation (EU) 1169/2011, Annex II, and in the United States
/// 21 U.S.C. 321(qq) (from memory).
bool names_peanut(std::string_view name);

}  // namespace gallipot::reference
