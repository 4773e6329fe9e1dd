#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "papers/templates/design.hpp"
#include "papers/templates/stock.hpp"

namespace gallipot::templates {

/// Stocks and designs by name, from several templates folders: the first that holds a file of that
/// name wins, so that a user's own folder comes before ours.
class Library {
  public:
    explicit Library(std::vector<std::filesystem::path> folders) : folders_(std::move(folders)) {}

    /// Empty, with errors in `out`, when there is none of that name or it is not right. `wanted_by`
    /// is where the name was written. Throws system::SystemError when a file cannot be read.
    [[nodiscard]] std::optional<Stock> stock(const diag::At<std::string>& wanted,
                                             diag::Diagnostics& out) const;
    /// The design that `stock` names; it must be made for the stock's shape.
    [[nodiscard]] std::optional<Design> design(const Stock& stock, diag::Diagnostics& out) const;

    [[nodiscard]] std::vector<std::string> stock_names() const;  ///< sorted
    /// Every stock that can be read without errors, by name: to look for one that would do.
    [[nodiscard]] std::vector<Stock> stocks() const;

  private:
    [[nodiscard]] std::vector<std::string> names(const std::string& kind) const;
    [[nodiscard]] diag::SourcePtr read(const std::string& kind, const std::string& name) const;

    std::vector<std::filesystem::path> folders_;
};

}  // namespace gallipot::templates
