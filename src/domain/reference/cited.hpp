#pragma once

#include <string_view>

namespace gallipot::reference {

/// How far a value can be trusted: read in the source named, recalled without reading it, computed
/// from other values here, or a rule of our own that nobody has published.
enum class Provenance { found, memory, derived, ours };

/// A value beside its source.
template <class T>
struct Cited {
    T value{};
    Provenance provenance = Provenance::found;
    std::string_view source;
};

}  // namespace gallipot::reference
