#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "base/diag/diagnostic.hpp"
#include "base/units/number.hpp"
#include "base/units/quantity.hpp"
#include "domain/job/job.hpp"
#include "domain/job/keys.hpp"
#include "domain/yaml/node.hpp"

/// Single values of a job file, each by the rule of its key. What is wrong goes to
/// `reading.out`, and nothing is returned.
namespace gallipot::job {

/// What reading needs everywhere.
struct ReadContext {
    diag::Diagnostics& out;
    KitchenSystem kitchen = KitchenSystem::metric;
    std::string main_language = {};
    /// Sections whose table could not be read, so that nobody knows what stands in them.
    std::set<std::string_view> unread = {};
};

std::optional<At<std::string>> read_text(const yaml::Node& node, const Key& key,
                                         ReadContext& context);
/// A text for all languages, or a mapping of language tags to one each, all within the key's
/// bounds.
std::optional<At<LocalText>> read_local_text(const yaml::Node& node, const Key& key,
                                             ReadContext& context);
/// A text of letters, digits and single hyphens: fit for a link and a file's name.
std::optional<At<std::string>> read_id(const yaml::Node& node, const Key& key,
                                       ReadContext& context);
std::optional<At<double>> read_number(const yaml::Node& node, const Key& key, ReadContext& context);
std::optional<At<int>> read_whole(const yaml::Node& node, const Key& key, ReadContext& context);
std::optional<At<bool>> read_flag(const yaml::Node& node, const Key& key, ReadContext& context);
/// The index of the word among the key's choices.
std::optional<At<std::size_t>> read_choice(const yaml::Node& node, const Key& key,
                                           ReadContext& context);

std::optional<At<units::Volume>> read_volume(const yaml::Node& node, const Key& key,
                                             ReadContext& context);
std::optional<At<units::Mass>> read_mass(const yaml::Node& node, const Key& key,
                                         ReadContext& context);
std::optional<At<units::Length>> read_length(const yaml::Node& node, const Key& key,
                                             ReadContext& context);
std::optional<At<units::Area>> read_area(const yaml::Node& node, const Key& key,
                                         ReadContext& context);
std::optional<At<units::Duration>> read_duration(const yaml::Node& node, const Key& key,
                                                 ReadContext& context);
std::optional<At<units::Density>> read_density(const yaml::Node& node, const Key& key,
                                               ReadContext& context);
std::optional<At<units::Celsius>> read_temperature(const yaml::Node& node, const Key& key,
                                                   ReadContext& context);
std::optional<At<units::Share>> read_share(const yaml::Node& node, const Key& key,
                                           ReadContext& context);

/// "2027-03-02"
std::optional<At<Date>> read_date(const yaml::Node& node, const Key& key, ReadContext& context);
/// "2027-03-02 19:30", with a T between or the time as read_time_of_day takes it; of a date alone,
/// noon
std::optional<At<LocalTime>> read_time(const yaml::Node& node, const Key& key,
                                       ReadContext& context);
/// Whether what read_time() read is a date alone.
bool is_day_alone(std::string_view text);
/// [x, y] in metres
std::optional<At<Point>> read_point(const yaml::Node& node, const Key& key, ReadContext& context);

/// Whether the node is there and is one word or number, not a list or mapping; else an error.
bool is_scalar(const yaml::Node& node, const Key& key, ReadContext& context);

/// Says what `problem` a number or quantity had.
void report(const units::Problem& problem, const yaml::Node& node, units::Dimension wanted,
            ReadContext& context);

/// The names between quotes.
std::vector<std::string> quoted(std::vector<std::string> names);

/// "write fill: 45 mL". Of a date, which only the user knows, none is written.
diag::Text write_example(const Key& key);
/// "add fill: 45 mL", for a key that is missing.
diag::Text add_example(const Key& key);
/// An example with ".." for what only the user knows and much follows from: a date, the region.
std::string own_to_fill_in(std::string_view example);

/// "did you mean 'cup'?", or `otherwise` when nothing is near.
diag::Text did_you_mean(std::string_view word, const std::vector<std::string>& known,
                        diag::Text otherwise, const ReadContext& context);

/// The same for a substance: one slip of the finger only, since "borate" is another word than
/// "borax" and what is offered here makes the recipe.
diag::Text substance_meant(std::string_view word, const std::vector<std::string>& known,
                           diag::Text otherwise);

}  // namespace gallipot::job
