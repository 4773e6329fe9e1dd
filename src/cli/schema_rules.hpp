#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

/// What the schema says beyond the type of a key.
namespace gallipot::cli {

/// A text without blanks at its edges, on one line.
inline constexpr const char* text_pattern = "^[^ \\u00A0\\n\\t](?:[^\\n\\t]*[^ \\u00A0\\n\\t])?$";
/// A short name that fits a link.
inline constexpr const char* id_pattern = "^[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*$";

/// Days that exist in the years that make sense, and times on them.
std::string date_pattern();
std::string time_pattern();

/// "5 % w/w": a number with its basis.
std::string share_pattern();

/// "tables/stations.csv": a name that leads nowhere above the job's folder.
std::string csv_file_pattern();

/// "4 side holes of 6 mm", "open top", "closed".
std::string openings_pattern();

/// The form of a text that is more than a text, by the key's path; empty for all others.
std::string pattern_of(std::string_view path);

/// Which keys go together below `path`: added to the schema of that mapping.
void add_rules_between_keys(std::string_view path, nlohmann::ordered_json& schema);

}  // namespace gallipot::cli
