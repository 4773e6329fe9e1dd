#pragma once

#include <string>
#include <vector>

namespace gallipot::command {

/// A table for the terminal: columns as wide as their widest cell, two blanks between them.
class Table {
  public:
    struct Column {
        std::string heading;
        bool right = false;  ///< figures are set to the right
    };
    explicit Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

    void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
    [[nodiscard]] bool empty() const { return rows_.empty(); }
    /// Every line indented by two blanks, no blanks at line ends.
    [[nodiscard]] std::string text() const;

  private:
    std::vector<Column> columns_;
    std::vector<std::vector<std::string>> rows_;
};

}  // namespace gallipot::command
