#pragma once

#include <optional>

#include "base/diag/diagnostic.hpp"
#include "domain/job/keys.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::job {

/// The rows of a table as the nodes that would stand in a job file, at their places in the table: a
/// list of mappings for `stations`, for `supplies` a mapping by the column `name`.
///
/// The first row names the columns as the keys; `inspected.by`, `density.from` or `place.es` stand
/// for the key `by` below `inspected` and so on. A cell holds what would stand behind the key, an
/// empty one is a key left out; lists and points as value_of() in table_cells.hpp reads them.
///
/// What is wrong goes to `out`. Nothing is returned where the rows cannot be told apart: they would
/// all seem wrong.
std::optional<yaml::Node> read_table(const diag::SourcePtr& csv, const Key& section,
                                     const yaml::Limits& limits, diag::Diagnostics& out);

}  // namespace gallipot::job
