#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "tracking/visit/visit.hpp"

namespace CLI {
class App;
}

/// What `gallipot visit` may be told of a visit.
namespace gallipot::cli {

struct VisitOptions {
    std::string job;
    std::string station;
    std::string seen, dead, level, note, by, at, minutes, young, trap_nights, feeding;
    std::vector<std::string> state, did, clear;
    std::int64_t corrects = 0;
    bool withdraw = false;
};

/// What one option says of a visit: of a new one, or of the entry that is corrected.
using Change = std::function<void(visit::Visit&)>;

void apply_all(const std::vector<Change>& changes, visit::Visit& visit);

void add_options(CLI::App& command, VisitOptions& options);

/// What the options say, before the job and its log are looked at. Throws CLI::ValidationError.
std::vector<Change> read_options(const VisitOptions& options);

/// What --clear takes, for messages: "container, by, seen, ...".
std::string clearable_fields();

}  // namespace gallipot::cli
