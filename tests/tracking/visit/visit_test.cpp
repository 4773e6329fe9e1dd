#include "tracking/visit/visit.hpp"

#include <set>

#include "catch_all.hpp"

using namespace gallipot::visit;

TEST_CASE("every state and deed has a word of its own that finds it again", "[visit]") {
    std::set<std::string_view> words;
    for (const State state : all_states()) {
        words.insert(word(state));
        CHECK(find_state(word(state)) == state);
    }
    CHECK(words.size() == 7);
    words.clear();
    for (const Did did : all_dids()) {
        words.insert(word(did));
        CHECK(find_did(word(did)) == did);
    }
    CHECK(words.size() == 6);
    CHECK(find_state("Clogged") == std::nullopt);
    CHECK(find_state("") == std::nullopt);
    CHECK(find_did("eaten") == std::nullopt);
}

TEST_CASE("marks hold any of their values", "[visit]") {
    Marks<State> marks;
    CHECK(marks.empty());
    marks.add(State::mouldy);
    marks.add(State::clogged);
    CHECK(marks.has(State::mouldy));
    CHECK(marks.has(State::clogged));
    CHECK_FALSE(marks.has(State::wet));
    CHECK(marks == Marks<State>{State::clogged, State::mouldy});
}

TEST_CASE("a form offers no tick for a powder that is dry", "[visit]") {
    CHECK(states_of(false).size() == all_states().size());
    const auto offered = states_of(true);
    CHECK(offered.size() == all_states().size() - 1);
    for (const State state : offered) CHECK(state != State::dry);
}
