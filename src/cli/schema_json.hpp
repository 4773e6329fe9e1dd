#pragma once

#include <nlohmann/json_fwd.hpp>

namespace gallipot::cli {

/// The JSON Schema (draft-07, which editors' YAML servers take best) of a job file, made from the
/// table of keys: what each is, what it may be, its default and an example. It never refuses what
/// `check` accepts. What it cannot see is left to `check`: bounds of quantities, which stand in
/// texts, names that must be there elsewhere in the file, and how a scalar was written ("2.0" or
/// "02" is 2 to an editor).
nlohmann::ordered_json job_schema();

}  // namespace gallipot::cli
