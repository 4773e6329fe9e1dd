#pragma once

#include <string_view>
#include <vector>

namespace gallipot::cli {

/// How a command is used: shown by --help and on the manual page, and run by the tests in this
/// order, from an empty folder.
struct Example {
    std::string_view line, what;
};

/// Of a command by its name; of the whole program by "". Empty for a command that has none, which
/// the tests do not allow.
const std::vector<Example>& examples_of(std::string_view command);

}  // namespace gallipot::cli
