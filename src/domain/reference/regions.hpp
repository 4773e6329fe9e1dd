#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gallipot::reference {

/// Where rules are shared: the European Union (with what lies under its law overseas), the other
/// states of the European Economic Area, the United Kingdom, the United States with its
/// territories.
enum class Bloc { none, eu, eea, uk, us };

/// A region a job may name.
struct Region {
    std::string_view code;  ///< ISO 3166-1 alpha-2
    std::string_view alpha_3;
    std::string_view name;  ///< English, for messages
    Bloc bloc = Bloc::none;
};

/// All of ISO 3166-1, by code.
std::span<const Region> regions();

/// By alpha-2 code, upper case; null when there is none.
const Region* find_region(std::string_view code);

/// What somebody who wrote `word` may have meant: a three-letter code, a name, a code used out of
/// habit ("UK"), else a near name. Empty when nothing is near.
std::vector<const Region*> near_regions(std::string_view word);

}  // namespace gallipot::reference
