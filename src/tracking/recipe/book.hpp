#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "tracking/recipe/recipe.hpp"
#include "tracking/visit/visit.hpp"

namespace gallipot::recipe {

using visit::LocalTime;
using SharedRecipe = std::shared_ptr<const Recipe>;

/// A recipe as the log noted it.
struct Noted {
    std::string mix;
    Recipe recipe;
    /// When the entry was made that it was noted with; none: it held from the start.
    std::optional<LocalTime> since;
    std::int64_t after_entry = 0;  ///< number of the last entry before it
};

/// Which recipe each mix had when. What the log knows goes before what the job says now, which is
/// taken where the log knows nothing.
class Book {
  public:
    /// `noted` in the order of noting: one that held from the start takes the place of all before.
    Book(const std::vector<Noted>& noted, std::map<std::string, Recipe> now);

    /// What a container held that was filled with the mix at that time, as entry number `entry` has
    /// it (0: as the job has it). What was filled before a recipe was noted never holds that one.
    /// Null for a mix that nobody knows.
    [[nodiscard]] SharedRecipe at(const std::string& mix, LocalTime time, std::int64_t entry) const;
    /// What the job makes now. Null for a mix that it does not have.
    [[nodiscard]] SharedRecipe now(const std::string& mix) const;
    /// How many recipes of it the log knows, with the job's present one where that differs.
    [[nodiscard]] std::size_t number(const std::string& mix) const;

  private:
    struct Dated {
        std::optional<LocalTime> since;
        std::int64_t after_entry = 0;
        SharedRecipe recipe;
    };
    std::map<std::string, std::vector<Dated>> noted_;  ///< by mix, oldest first
    std::map<std::string, SharedRecipe> now_;
};

}  // namespace gallipot::recipe
