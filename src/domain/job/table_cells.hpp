#pragma once

#include <string_view>

#include "base/csv/csv.hpp"
#include "domain/job/keys.hpp"
#include "domain/yaml/node.hpp"

/// The cells of a table as values of a job file.
namespace gallipot::job {

/// The field without blanks at its ends, as YAML reads a bare text.
csv::Field trimmed(const csv::Field& field);

/// A bare text.
yaml::Node scalar(std::string_view text, const diag::Place& place);

/// What a cell says as a value of that type: a list of "food; rain" or "food, rain", the numbers of
/// "3.2 1.1" or "3.2, 1.1" for a point, and of anything else its text. A comma
/// between two digits is a decimal comma and separates nothing, unless all stands in brackets.
yaml::Node value_of(const csv::Field& cell, Type type);

}  // namespace gallipot::job
