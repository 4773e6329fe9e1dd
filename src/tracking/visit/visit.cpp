#include "tracking/visit/visit.hpp"

#include <array>

namespace gallipot::visit {

namespace {

constexpr std::array states{State::clogged, State::wet,     State::dry,   State::spilt,
                            State::moved,   State::missing, State::mouldy};
constexpr std::array dids{Did::cleared, Did::refilled, Did::replaced,
                          Did::moved,   Did::removed,  Did::placed};

constexpr std::array<std::string_view, 7> state_words{"clogged", "wet",     "dry",   "spilt",
                                                      "moved",   "missing", "mouldy"};
constexpr std::array<std::string_view, 6> did_words{"cleared", "refilled", "replaced",
                                                    "moved",   "removed",  "placed"};

template <class Mark, std::size_t size>
std::optional<Mark> find(const std::array<Mark, size>& marks,
                         const std::array<std::string_view, size>& words, std::string_view word) {
    for (std::size_t i = 0; i < size; ++i)
        if (words[i] == word) return marks[i];
    return std::nullopt;
}

}  // namespace

std::span<const State> all_states() {
    return states;
}

std::vector<State> states_of(bool powder) {
    std::vector<State> offered(states.begin(), states.end());
    if (powder) std::erase(offered, State::dry);
    return offered;
}

std::span<const Did> all_dids() {
    return dids;
}

std::string_view word(State state) {
    return state_words.at(static_cast<std::size_t>(state));
}

std::string_view word(Did did) {
    return did_words.at(static_cast<std::size_t>(did));
}

std::optional<State> find_state(std::string_view word) {
    return find(states, state_words, word);
}

std::optional<Did> find_did(std::string_view word) {
    return find(dids, did_words, word);
}

}  // namespace gallipot::visit
