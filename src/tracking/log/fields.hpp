#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "domain/plan/plan.hpp"
#include "tracking/visit/visit.hpp"

/// The words in which a visit is written down: in the CSV, on the command line and in the form.
namespace gallipot::log {

// What one field may hold; more is a mistake or an attack.
inline constexpr int maximum_counted = 1'000'000;
inline constexpr std::size_t longest_name = 80;    ///< characters
inline constexpr std::size_t longest_note = 1000;  ///< characters

/// A station, and which of its containers when only one is meant.
struct Target {
    std::string station;
    int container = 0;     ///< from 1; 0: the station as a whole
    std::string called{};  ///< the older name that it was called by; empty: by its name
    bool operator==(const Target&) const = default;
};

/// What "K1" or "K1-2" names in this plan, of what was taken up too, and by an older name; letter
/// case does not count. A container may be one of those that were taken away. None: no such
/// station.
std::optional<Target> find_target(const plan::Plan& plan, std::string_view written);

/// "K1", or "K1-2" for one container of it.
std::string print_target(const visit::Visit& visit);

/// 0 to `most_counted`, digits only.
std::optional<int> parse_count(std::string_view text);

/// "full", "3/4", "1/2" or "half", "1/4", "empty", or percent ("75", "75 %", "75%").
std::optional<int> parse_level(std::string_view text);

/// Words apart by spaces, commas, semicolons or "+". The first word that is none of them goes
/// to `stranger`.
std::optional<visit::Marks<visit::State>> parse_states(std::string_view text,
                                                       std::string& stranger);
std::optional<visit::Marks<visit::Did>> parse_dids(std::string_view text, std::string& stranger);
/// Apart by one space, in their usual order: "clogged wet".
std::string print_states(visit::Marks<visit::State> states);
std::string print_dids(visit::Marks<visit::Did> dids);
/// All there are, for messages: "clogged, wet, ...".
std::string state_words();
std::string did_words();

/// "yes" or "no"; letter case does not count.
std::optional<bool> parse_yes_no(std::string_view text);
std::string print_yes_no(bool yes);

/// Names and notes as they are kept: space at the ends cut off, line ends as "\n", tabs as spaces.
std::string tidy(std::string_view text);

enum class TextFault { none, not_utf8, control_character, too_long };
/// What keeps a tidied text from being recorded. A note may have several lines, a name one.
TextFault find_fault(std::string_view text, std::size_t longest, bool lines);

/// Whether anything was found or done: a visit of nothing is a slip of the thumb.
bool says_something(const visit::Visit& visit);

}  // namespace gallipot::log
