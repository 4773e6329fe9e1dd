#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

/// What the values of options are called in --help and on the manual page, and what a shell offers
/// for them.
namespace gallipot::cli {

/// Where the words for a value come from.
enum class Offer {
    nothing,
    words,      ///< those listed
    jobs,       ///< files that end in .yaml
    csv_files,  ///< files that end in .csv
    files,
    folders,
    stations,   ///< ids in the job that stands before it
    stocks,     ///< what `gallipot stocks` lists
    languages,  ///< what `gallipot languages` lists
};

struct Value {
    std::string_view name;  ///< "PAPER"
    Offer offer = Offer::nothing;
    std::vector<std::string> words = {};
};

/// The value of an option or of a positional argument of this command; null for a flag. An option
/// that is in no table throws std::logic_error: each needs a line in values.cpp.
const Value* value_of(const CLI::App& command, const CLI::Option& option);

}  // namespace gallipot::cli
