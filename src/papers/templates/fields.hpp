#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/units/quantity.hpp"
#include "domain/yaml/mapping.hpp"

namespace gallipot::templates {

/// One mapping of a template, read strictly: every key must be known, every value of its kind and
/// within its bounds. Each function reports what is wrong and returns a value that is harmless.
class Fields {
  public:
    /// See yaml::Mapping.
    Fields(const yaml::Node& node, diag::Text who, const std::vector<std::string>& known,
           diag::Diagnostics& out);

    [[nodiscard]] bool has(std::string_view key) const { return find(key) != nullptr; }
    /// The value's place, or the mapping's when the key is not there.
    [[nodiscard]] diag::Place place(std::string_view key) const;
    [[nodiscard]] const yaml::Node* find(std::string_view key) const { return mapping_.find(key); }

    // A key that is missing is an error, unless a default is given.
    std::string text(std::string_view key, const std::optional<std::string>& absent = {});
    bool flag(std::string_view key, bool absent);
    int whole(std::string_view key, int minimum, int maximum, std::optional<int> absent = {});
    double number(std::string_view key, double minimum, double maximum,
                  std::optional<double> absent = {});
    units::Length length(std::string_view key, units::Length minimum, units::Length maximum,
                         std::optional<units::Length> absent = {});
    units::Share share(std::string_view key, units::Share minimum, units::Share maximum,
                       std::optional<units::Share> absent = {});
    /// Type sizes are given in points (1/72 in): "8 pt".
    double points(std::string_view key, double minimum, double maximum,
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

    void error(std::string_view key, std::string code, diag::Text message, diag::Text hint);

  private:
    const yaml::Node* scalar(std::string_view key, bool required);
    std::size_t word(const yaml::Node& node, std::string_view key,
                     const std::vector<std::string>& words);

    /// A value that `parse` reads and whose figure in the unit of messages, `in_unit`, is within
    /// bounds; the default or the minimum where it is not.
    template <class Q, class Parse, class InUnit>
    Q bounded(std::string_view key, Q minimum, Q maximum, const std::optional<Q>& absent,
              Parse parse, InUnit in_unit, const char* what, std::string_view unit);

    yaml::Mapping mapping_;
    diag::Diagnostics& out_;
};

}  // namespace gallipot::templates
