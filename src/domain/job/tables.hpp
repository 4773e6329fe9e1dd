#pragma once

#include "domain/job/reader.hpp"
#include "domain/job/values.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::job {

/// Puts what stands in a table where `stations: { from: FILE }` or `supplies: { from: FILE }` names
/// it, as if it had been written there. A section whose table cannot be read goes to
/// `context.unread`, and what is wrong to `context.out`. The job and its tables share `limits`.
void put_tables_in(yaml::Node& root, const OpenTable& open_table, const yaml::Limits& limits,
                   ReadContext& context);

}  // namespace gallipot::job
