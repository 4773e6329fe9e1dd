#pragma once

#include <string_view>

namespace gallipot::reference {

/// How far a value can be trusted: read in the source named, recalled without reading it, or
/// computed from other values here.
enum class Standing { found, memory, derived };

/// A value beside its source.
template <class T>
struct Cited {
    T value{};
    Standing standing = Standing::found;
    std::string_view source;
};

}  // namespace gallipot::reference
