#pragma once

#include <chrono>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What was found and done at one station on one visit, however it was written down. The log
/// stores it, the analysis reads it; neither knows the other.
namespace gallipot::visit {

/// The wall clock where the job is.
using LocalTime = std::chrono::local_time<std::chrono::minutes>;

/// What was found. The words are those of the CSV, the JSON and the form.
enum class State : std::uint8_t { clogged, wet, dry, spilt, moved, missing, mouldy };

/// What was done about it.
enum class Did : std::uint8_t {
    cleared,
    refilled,
    replaced,
    moved,
    removed,
    placed  ///< set out, or found again
};

std::span<const State> all_states();  ///< in the order they are shown
/// Those that a form offers: of a powder, all but that it is dry, which it should be.
std::vector<State> states_of(bool powder);
std::span<const Did> all_dids();
std::string_view word(State state);  ///< "clogged"
std::string_view word(Did did);      ///< "cleared"
/// None for a word that is not one of them. Exact: lower case, no spaces.
std::optional<State> find_state(std::string_view word);
std::optional<Did> find_did(std::string_view word);

/// Any of an enumeration's values, in one byte.
template <class Mark>
class Marks {
  public:
    constexpr Marks() = default;
    constexpr Marks(std::initializer_list<Mark> marks) {
        for (Mark mark : marks) add(mark);
    }
    constexpr void add(Mark mark) { bits_ = static_cast<std::uint8_t>(bits_ | bit(mark)); }
    constexpr void remove(Mark mark) { bits_ = static_cast<std::uint8_t>(bits_ & ~bit(mark)); }
    [[nodiscard]] constexpr bool has(Mark mark) const { return (bits_ & bit(mark)) != 0; }
    [[nodiscard]] constexpr bool empty() const { return bits_ == 0; }
    constexpr bool operator==(const Marks&) const = default;

  private:
    static constexpr std::uint8_t bit(Mark mark) {
        return static_cast<std::uint8_t>(1u << static_cast<unsigned>(mark));
    }
    std::uint8_t bits_ = 0;
};

/// What was not looked at is absent, never zero.
struct Visit {
    std::string station;  ///< the job's id for it
    LocalTime time{};
    std::string by;
    std::optional<int> seen;           ///< live pests counted, 0 or more
    std::optional<int> dead;           ///< dead ones counted, 0 or more
    std::optional<int> level_percent;  ///< bait left before anything was done, 0 to 100
    Marks<State> state;
    Marks<Did> did;
    std::string note;
    int container = 0;  ///< of a station with several: which one, from 1; 0: the station as a whole
    std::optional<int> minutes;      ///< how long the pests were counted, 1 or more
    std::optional<int> young;        ///< how many of those seen were young, 0 or more
    std::optional<int> trap_nights;  ///< traps times the nights they were out, 1 or more
    std::optional<bool> feeding;     ///< whether any fed on the bait

    bool operator==(const Visit&) const = default;
};

}  // namespace gallipot::visit
