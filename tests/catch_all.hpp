#pragma once

// Catch2 3 has many headers, Catch2 2 one; the tests need not care.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#include <catch2/catch.hpp>
namespace Catch::Matchers {
inline auto ContainsSubstring(const std::string& part) {
    return Contains(part);
}
}  // namespace Catch::Matchers
#endif
