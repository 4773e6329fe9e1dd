#pragma once

#include <string>
#include <vector>

#include "cli/terminal.hpp"

namespace gallipot::cli {

/// A table for the terminal: columns as wide as their widest cell, two blanks between them. Where
/// the terminal is narrower, cells are wrapped; where even their longest words leave no room, each
/// row is a block of lines, a heading and its cell on each. Nothing is ever cut.
class Table {
  public:
    struct Column {
        std::string heading;
        bool right = false;  ///< figures are set to the right
        bool whole = false;  ///< never wrapped: names that are typed as they stand
    };
    explicit Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

    /// What would drive a terminal is shown as U+FFFD.
    void row(std::vector<std::string> cells);
    /// Leaves out those of these columns, in rising order, in which every cell is empty.
    void drop_empty(const std::vector<std::size_t>& columns);
    [[nodiscard]] bool empty() const { return rows_.empty(); }
    /// Every line indented by two blanks, no blanks at line ends. `language` says where words may
    /// be broken.
    [[nodiscard]] std::string text(const Terminal& terminal, const std::string& language) const;

  private:
    using Row = std::vector<std::string>;
    [[nodiscard]] std::vector<std::size_t> natural_widths() const;
    [[nodiscard]] std::vector<std::size_t> minimum_widths(const std::string& language) const;
    [[nodiscard]] std::string grid(const std::vector<std::size_t>& widths, const Terminal& terminal,
                                   const std::string& language) const;
    [[nodiscard]] std::string blocks(const Terminal& terminal, const std::string& language) const;

    std::vector<Column> columns_;
    std::vector<Row> rows_;
};

}  // namespace gallipot::cli
