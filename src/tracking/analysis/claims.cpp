#include "tracking/analysis/claims.hpp"

#include <algorithm>
#include <cmath>

#include "tracking/analysis/false_discovery.hpp"
#include "tracking/analysis/gone.hpp"
#include "tracking/analysis/rules.hpp"
#include "tracking/analysis/turns.hpp"

namespace gallipot::analysis {

namespace {

/// For each place whether the claim holds that `chance_of` gives the chance of.
template <class ChanceOf>
std::vector<bool> holding(const std::vector<Place>& places, ChanceOf chance_of) {
    std::vector<std::optional<double>> chances;
    for (const Place& place : places) chances.push_back(chance_of(place));
    return claims_that_hold(chances, rules::false_claims);
}

std::vector<Total> settled_totals_of(const Place& place) {
    return settled_totals(place.counts(), place.treated->placed);
}

/// How wide counts scatter about the fall and the rise on either side of each turn.
double scatter_about_turns(const std::vector<Place>& places) {
    std::vector<Decline> pieces;
    for (const Place& place : places)
        for (const auto& piece : stretches(settled_totals_of(place)))
            pieces.push_back(fit_decline(piece));
    return moderated_dispersion(pieces);
}

/// That it stays so level by chance; none where it is not yet past the usual time.
std::optional<double> stay_chance(const Place& place, const Dispersion& dispersion) {
    const Trend& t = place.trend;
    if (!place.treated->result_by || t.counts < 2 || t.decline.fitted != Fitted::yes ||
        day_of(t.last.time) < *place.treated->result_by)
        return std::nullopt;
    return half_fall_chance(t.decline.slope,
                            t.decline.plain_slope_error * std::sqrt(dispersion.value),
                            dispersion.degrees, span_days(place.line));
}

bool is_gone(const TreatedPlace& place, double dispersion) {
    const NoneSeen& none = place.counts->none_seen;
    if (!none.since || !place.counts->any_seen) return false;
    constexpr int fewest_rounds = 2;
    const bool long_enough =
        none.rounds >= std::max(place.empty_counts, fewest_rounds) &&
        day_of(none.last) - day_of(*none.since) >= std::chrono::days(place.gone_days);
    return long_enough ||
           chance_of(none_last(place.counts->totals), dispersion) <= rules::false_claims;
}

/// All that was counted yet was counted while the bait draws them.
bool too_early(const Place& place) {
    return place.treated->placed &&
           days_between(*place.treated->placed, place.trend.last.time) <= rules::drawn_days;
}

}  // namespace

void claim_trends(std::vector<Place>& places, const Dispersion& dispersion) {
    const double scatter = scatter_about_turns(places);
    const auto change = holding(places, [&](const Place& place) {
        return change_chance(place.trend.decline, place.line, dispersion);
    });
    const auto back = holding(places, [&](const Place& place) {
        return rebound_chance(settled_totals_of(place), scatter);
    });
    const auto level =
        holding(places, [&](const Place& place) { return stay_chance(place, dispersion); });
    for (std::size_t i = 0; i < places.size(); ++i) {
        Place& place = places[i];
        Trend& t = place.trend;
        const bool falls = falls_along(t.decline, place.line);
        t.falls = change[i] && falls;
        t.rises = change[i] && !falls && !too_early(place);
        t.rebounds = back[i];
        t.stays = level[i] && !t.falls && !place.effect.held_down();
        t.gone = is_gone(*place.treated, dispersion.value);
    }
}

void claim_effects(std::vector<Place>& places) {
    const auto hold = holding(places, [](const Place& place) { return place.effect.chance; });
    for (std::size_t i = 0; i < places.size(); ++i)
        places[i].effect.beyond_control = hold[i] && *places[i].effect.percent > 0;
}

}  // namespace gallipot::analysis
