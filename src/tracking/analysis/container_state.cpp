#include "tracking/analysis/container_state.hpp"

#include <algorithm>

namespace gallipot::analysis {

namespace {

using visit::Did;
using visit::State;

/// Whether what was done puts it right. `fresh`: it holds nothing but fresh bait since.
bool put_right(State state, visit::Marks<Did> did, bool fresh) {
    if (fresh || did.has(Did::removed)) return true;
    const bool cleared = did.has(Did::cleared);
    const bool refilled = did.has(Did::refilled);
    const bool moved = did.has(Did::moved);
    const bool placed = did.has(Did::placed);
    switch (state) {
        case State::clogged:
            return cleared;
        case State::dry:
            return refilled;
        case State::spilt:
            return refilled || cleared;
        case State::moved:
            return moved || placed;
        case State::missing:  // whoever did anything to it has found it
            return cleared || refilled || moved || placed;
        case State::wet:
        case State::mouldy:  // fresh bait on mould is mouldy bait
            return false;
    }
    return false;
}

/// The recipe of what was put in then.
recipe::SharedRecipe filled_with(const Site& site, const Filling& filling) {
    if (!site.recipes) return nullptr;
    return site.recipes->at(site.mix_at(filling.at), filling.at, filling.entry);
}

Holding holding(const Site& site, const ContainerState& container) {
    Holding holds;
    if (!container.fresh) return holds;
    holds.recipe = filled_with(site, *container.fresh);
    for (const Filling& filling : container.topped_up) {
        const recipe::SharedRecipe top = filled_with(site, filling);
        if (!holds.recipe || !top || *holds.recipe == *top) continue;
        holds.mixed = true;
        if (&recipe::stronger(*holds.recipe, *top) == top.get()) holds.recipe = top;
    }
    holds.other_mix = site.mix_at(*container.filled()) != site.mix;
    if (!holds.recipe) return holds;
    const recipe::SharedRecipe now = site.recipes->now(site.mix);
    holds.older = now && !(*now == *holds.recipe);
    return holds;
}

std::optional<Day> replace_by(const Site& site, const ContainerState& container) {
    if (!container.fresh) return std::nullopt;
    std::optional<std::chrono::days> lasts = site.lasts;
    if (const auto held = filled_with(site, *container.fresh)) lasts = held->lasts;
    // The plan knows the day of the first filling.
    if (container.fresh->at == site.placed && lasts == site.lasts && site.mixes.empty())
        return site.replace_by;
    return lasts ? std::optional(day_of(container.fresh->at) + *lasts) : std::nullopt;
}

}  // namespace

ContainerFold::ContainerFold(const Site& site, int number)
    : only_(site.containers < 2), powder_(site.powder) {
    state_.number = number;
    if (!site.placed) return;
    state_.set_out = true;
    state_.fresh = Filling{*site.placed, 0};
    if (!site.control && !site.sprayed) state_.level_percent = 100;
}

bool ContainerFold::see(const Observation& o) {
    const bool by_number = o.container == state_.number || only_;
    if (!by_number && o.container != 0) return false;
    if (!by_number && own_) return false;
    find(o);
    act(o);
    const bool away = state_.missing() || state_.taken_up;
    own_ = away && (own_ || (by_number && !only_));
    return true;
}

void ContainerFold::find(const Observation& o) {
    if (o.level_read()) {
        state_.set_out = true;
        state_.level_percent = o.level_percent;
        state_.open.remove(State::missing);
        if (o.level_percent == 0)
            state_.open.add(State::dry);
        else
            state_.open.remove(State::dry);
    }
    for (const State state : visit::all_states()) {
        // A dry bait that was found dry is as it should be; that nothing is left its level says.
        if (!o.state.has(state) || (powder_ && state == State::dry)) continue;
        state_.open.add(state);
        state_.set_out = true;
    }
    if (o.state.has(State::missing)) state_.level_percent.reset();
}

void ContainerFold::act(const Observation& o) {
    const bool away = !state_.set_out || state_.taken_up;
    const bool empty = state_.open.has(State::dry);
    const bool refilled = o.did.has(Did::refilled);
    const bool fresh = o.did.has(Did::replaced) || (away && o.did.has(Did::placed)) ||
                       (refilled && (away || empty));
    // What a cup that was empty held before is gone; what else was wrong with it is not.
    const bool all_new = o.did.has(Did::replaced) || (fresh && away);
    for (const State state : visit::all_states())
        if (state_.open.has(state) && put_right(state, o.did, all_new)) state_.open.remove(state);
    if (fresh) {
        state_.fresh = Filling{o.time, o.entry};
        state_.topped_up.clear();
    } else if (refilled) {
        state_.topped_up.push_back({o.time, o.entry});
    }
    if (fresh || refilled) state_.level_percent = 100;
    if (fresh || refilled || o.did.has(Did::placed)) {
        state_.set_out = true;
        state_.taken_up = false;
    }
    if (o.did.has(Did::removed)) {
        state_.taken_up = true;
        state_.level_percent.reset();
    }
}

std::vector<ContainerState> containers_of(const Site& site, std::span<const Observation> history) {
    std::vector<ContainerState> all;
    for (int number = 1; number <= std::max(site.containers, 1); ++number) {
        ContainerFold fold(site, number);
        for (const Observation& o : history) fold.see(o);
        ContainerState container = fold.state();
        if (container.standing()) container.replace_by = replace_by(site, container);
        if (site.baited()) container.holds = holding(site, container);
        all.push_back(std::move(container));
    }
    return all;
}

}  // namespace gallipot::analysis
