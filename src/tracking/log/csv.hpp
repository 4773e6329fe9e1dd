#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"

/// Comma-separated values as RFC 4180 has them.
namespace gallipot::log {

struct CsvField {
    std::string text;
    diag::Place place;  ///< of its first character, the quote included
};
using CsvRow = std::vector<CsvField>;

/// Hands every row to `use`, empty lines left out. Line ends may be LF alone, and a byte-order
/// mark at the start is taken off, for spreadsheets write both. A quote out of place and bytes
/// that are not UTF-8 are errors in `out`.
void read_csv(const diag::SourcePtr& source, diag::Diagnostics& out,
              const std::function<void(const CsvRow&)>& use);

/// One row with its CRLF. A field is quoted when it must be.
std::string print_csv(const std::vector<std::string>& fields);

}  // namespace gallipot::log
