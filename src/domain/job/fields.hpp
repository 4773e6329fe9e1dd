#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "domain/job/values.hpp"
#include "domain/yaml/mapping.hpp"

namespace gallipot::job {

/// What `visits` says, as a list of times or in full.
struct PlannedVisits {
    std::vector<At<units::Duration>> every;     ///< rising; after placing
    std::optional<At<units::Duration>> within;  ///< of the job's alone, where it is never left out
};

/// One mapping of the job file, with the keys that may stand in it. Making it reports what is not
/// known and what is missing; asking for a key as something it is not in the table is our bug and
/// throws std::logic_error.
class Fields {
  public:
    /// `who` names the mapping in messages: "the mix 'syrup'". `section` is a path of the table.
    Fields(const yaml::Node& node, std::string_view section, diag::Text who, ReadContext& context);

    /// The value of `key`, whatever it is; null when it is not there.
    [[nodiscard]] const yaml::Node* find(std::string_view key) const;
    [[nodiscard]] bool has(std::string_view key) const { return find(key) != nullptr; }
    /// Whether an unknown key, told already, is most likely a slip for this one.
    [[nodiscard]] bool misspelt(std::string_view key) const { return mapping_.misspelt(key); }
    /// Neither there nor misspelt.
    [[nodiscard]] bool lacks(std::string_view key) const { return !has(key) && !misspelt(key); }
    [[nodiscard]] const yaml::Node& node() const { return mapping_.node(); }

    // The default of the table is taken where a key is left out.
    std::optional<At<std::string>> text(std::string_view key) const;
    std::optional<At<LocalText>> local_text(std::string_view key) const;
    std::optional<At<std::string>> id(std::string_view key) const;
    std::optional<At<double>> number(std::string_view key) const;
    std::optional<At<int>> whole(std::string_view key) const;
    std::optional<At<bool>> flag(std::string_view key) const;
    std::optional<At<std::size_t>> choice(std::string_view key) const;
    std::optional<At<units::Volume>> volume(std::string_view key) const;
    std::optional<At<units::Mass>> mass(std::string_view key) const;
    /// What the quantity under `key` is written in; metric where there is none.
    [[nodiscard]] units::WrittenUnit unit(std::string_view key) const;
    std::optional<At<units::Length>> length(std::string_view key) const;
    std::optional<At<units::Area>> area(std::string_view key) const;
    std::optional<At<units::Duration>> duration(std::string_view key) const;
    std::optional<At<units::Density>> density(std::string_view key) const;
    std::optional<At<units::Celsius>> temperature(std::string_view key) const;
    std::optional<At<units::Share>> share(std::string_view key) const;
    std::optional<At<Date>> date(std::string_view key) const;
    std::optional<At<LocalTime>> time(std::string_view key) const;
    std::optional<At<Point>> point(std::string_view key) const;
    /// None where neither the file nor the table says when.
    std::optional<PlannedVisits> visits(std::string_view key) const;

    /// A list's default, as the table writes it.
    [[nodiscard]] std::vector<yaml::Node> fallback_items(const Key& known) const;

    /// The entries of a list or of a mapping of names, empty when there is none. Too few or too
    /// many are an error.
    const std::vector<yaml::Node>& list(std::string_view key) const;
    const std::vector<std::pair<yaml::Node, yaml::Node>>& named(std::string_view key) const;

    /// The table's entry for a key that stands right in this mapping.
    [[nodiscard]] const Key& rule(std::string_view key) const;

  private:
    [[nodiscard]] const Key& rule(std::string_view key, Type type) const;
    /// The entries of the list that `node` is; what is no list is an error.
    [[nodiscard]] const std::vector<yaml::Node>& list_at(const yaml::Node& node,
                                                         const Key& known) const;
    /// Times after placing; each must come later than the one before it.
    std::vector<At<units::Duration>> rising(const std::vector<yaml::Node>& items,
                                            const Key& entry) const;
    /// The node to read, with the table's default in its place; null when there is neither.
    template <class Read>
    auto value(std::string_view key, Type type, Read read) const;

    yaml::Mapping mapping_;
    const Section& section_;
    std::string path_;
    ReadContext& reading_;
};

}  // namespace gallipot::job
