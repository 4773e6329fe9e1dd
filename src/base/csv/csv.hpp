#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"

/// Comma-separated values as RFC 4180 has them.
namespace gallipot::csv {

struct Field {
    std::string text;
    diag::Place place;  ///< of all its characters, the quotes included; of several lines, its first
    bool quoted = false;
};
using Row = std::vector<Field>;

struct Format {
    char separator = ',';
    /// A bound on memory: what a row holds beyond so many is read and left out.
    std::size_t maximum_fields = 10'000'000;
};

/// What separates the fields: the first of `,`, `;` and tab outside quotes in the first row that is
/// not empty. Spreadsheets write a semicolon where the decimal sign is a comma. For tables whose
/// headings hold none of the three; `,` where there is only one column.
char separator_of(std::string_view text);

/// Hands every row to `use`, empty lines left out. Line ends may be LF alone, and a byte-order
/// mark at the start is taken off, for spreadsheets write both. A quote out of place and bytes
/// that are not UTF-8 are errors in `out`.
void read(const diag::SourcePtr& source, diag::Diagnostics& out,
          const std::function<void(const Row&)>& use, const Format& format = {});

/// One row with its CRLF. A field is quoted when it must be.
std::string print(const std::vector<std::string>& fields, char separator = ',');

}  // namespace gallipot::csv
