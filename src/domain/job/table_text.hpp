#pragma once

#include "base/diag/diagnostic.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::job {

/// Whether the text of a table may be read at all. Checked: size, UTF-8, NUL and other control
/// characters, characters that change direction, the length of lines, and how many cells there may
/// be. All that is wrong goes to `out`. Line feeds, a carriage return before one, and tabs are
/// allowed.
bool check_table_text(const diag::SourcePtr& csv, char separator, const yaml::Limits& limits,
                      diag::Diagnostics& out);

}  // namespace gallipot::job
