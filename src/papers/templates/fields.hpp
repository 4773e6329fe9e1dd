#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/units/quantity.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::templates {

/// One mapping of a template, read strictly: every key must be known, every value of its kind and
/// within its bounds. Each function reports what is wrong and returns a value that is harmless.
class Fields {
  public:
    /// Reports keys that are not among `known`. `node` and `out` must outlive this. `what` names
    /// the mapping in messages: "label".
    Fields(const yaml::Node& node, std::string what, std::vector<std::string> known,
           diag::Diagnostics& out);

    [[nodiscard]] bool has(std::string_view key) const;
    /// The value's place, or the mapping's when the key is not there.
    [[nodiscard]] diag::Place place(std::string_view key) const;
    [[nodiscard]] const yaml::Node* find(std::string_view key) const;

    // A key that is missing is an error, unless a default is given.
    std::string text(std::string_view key, const std::optional<std::string>& absent = {});
    bool flag(std::string_view key, bool absent);
    int whole(std::string_view key, int least, int most, std::optional<int> absent = {});
    double number(std::string_view key, double least, double most,
                  std::optional<double> absent = {});
    units::Length length(std::string_view key, units::Length least, units::Length most,
                         std::optional<units::Length> absent = {});
    units::Share share(std::string_view key, units::Share least, units::Share most,
                       std::optional<units::Share> absent = {});
    /// Type sizes are given in points (1/72 in): "8 pt".
    double points(std::string_view key, double least, double most,
                  std::optional<double> absent = {});
    /// One of some words; the index of the one found.
    std::size_t choice(std::string_view key, const std::vector<std::string>& words,
                       std::optional<std::size_t> absent = {});
    /// A sequence of such words, none twice unless `repeats`.
    std::vector<diag::At<std::size_t>> choices(std::string_view key,
                                               const std::vector<std::string>& words, bool repeats,
                                               bool optional);
    /// The same for a list that stands inside the value of `key`.
    std::vector<diag::At<std::size_t>> choices_of(const yaml::Node& list, std::string_view key,
                                                  const std::vector<std::string>& words,
                                                  bool repeats);

    void error(std::string_view key, std::string code, std::string message, std::string hint);

  private:
    const yaml::Node* scalar(std::string_view key, bool required);
    std::size_t word(const yaml::Node& node, std::string_view key,
                     const std::vector<std::string>& words);

    const yaml::Node& node_;
    std::string what_;
    diag::Diagnostics& out_;
};

}  // namespace gallipot::templates
