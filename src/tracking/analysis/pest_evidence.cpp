#include "tracking/analysis/pest_evidence.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "tracking/analysis/claims.hpp"
#include "tracking/analysis/line_chances.hpp"
#include "tracking/analysis/quantile.hpp"
#include "tracking/analysis/rules.hpp"
#include "tracking/analysis/turns.hpp"

namespace gallipot::analysis {

namespace {

class Maker {
  public:
    Maker(const std::vector<TreatedPlace>& places, Controls& controls) : controls_(controls) {
        for (const TreatedPlace& treated : places) {
            Place place;
            place.treated = &treated;
            place.trend = trend_of(*treated.counts);
            if (!treated.counts->empty()) place.line = place.before_after = treated.counts->groups;
            places_.push_back(std::move(place));
        }
    }

    PestEvidence make() {
        set_drawn_apart();
        fit_places();
        span_all();
        find_dispersion();
        estimate_between();
        PestEvidence result;
        result.dispersion = dispersion_;
        result.between = between_;
        for (Place& place : places_) place.effect = effect_of(place);
        claim_trends(places_, dispersion_);
        claim_effects(places_);
        for (Place& place : places_) {
            result.trends.push_back(place.trend);
            result.effects.push_back(place.effect);
        }
        result.effect = effect_of_all();
        result.trend = trend_all(result.effect);
        return result;
    }

  private:
    void fit_places() {
        for (Place& place : places_) {
            fit(place.trend, place.line);
            place.slope = finite_slope(place.before_after);
            place.days = span_days(place.before_after);
        }
    }

    /// The days that the pest's controls are compared over.
    void span_all() {
        for (const Place& place : places_) {
            if (place.counts().totals.size() < 2) continue;
            const Span span = span_of(place.counts(), place.treated->placed);
            if (!all_) all_ = span;
            all_->first = std::min(all_->first, span.first);
            all_->last = std::max(all_->last, span.last);
            all_->baseline = all_->baseline || span.baseline;
            if (span.placed)
                all_->placed = std::min(all_->placed.value_or(*span.placed), *span.placed);
        }
    }

    /// From the places' own lines, treated and control; where those have no degrees of freedom,
    /// from one slope for all treated places.
    void find_dispersion() {
        std::vector<Decline> lines;
        for (const Place& place : places_) lines.push_back(place.trend.decline);
        if (all_)
            for (const Groups& series : controls_.matched(*all_).series)
                lines.push_back(fit_decline(series));
        const auto any_degrees = [](const Decline& line) { return line.degrees_of_freedom > 0; };
        if (std::ranges::none_of(lines, any_degrees)) {
            Groups together;
            for (const Place& place : places_)
                std::ranges::copy(place.line, std::back_inserter(together));
            lines.push_back(fit_decline(together));
        }
        dispersion_ = pooled_dispersion(lines);
        for (Place& place : places_) set_intervals(place.trend, dispersion_);
    }

    /// Where the bait drew the pests, the line runs from the most of them on, and what is held
    /// against the controls leaves those days out.
    void set_drawn_apart() {
        std::vector<Decline> later;
        for (const Place& place : places_)
            if (place.treated->placed)
                later.push_back(fit_decline(counts_from(
                    place.counts(), days_after(*place.treated->placed, rules::drawn_days))));
        const double scatter = moderated_dispersion(later);
        for (Place& place : places_) {
            place.trend.drawn = drawn_by_bait(place.counts(), place.treated->placed, scatter);
            if (!place.trend.drawn) continue;
            place.line = counts_from(place.counts(), place.trend.drawn->time);
            place.before_after = settled_counts(place.counts(), *place.treated->placed);
        }
    }

    [[nodiscard]] const Matched& controls_of(const Place& place) {
        return controls_.matched(span_of(place.counts(), place.treated->placed));
    }

    [[nodiscard]] Arm with_dispersion(Arm arm) const {
        for (Estimate& each : arm) each.variance *= dispersion_.value;
        return arm;
    }

    void estimate_between() {
        Arm treated, control;
        for (const Place& place : places_)
            if (place.compares()) treated.push_back(*place.slope);
        if (all_) control = controls_.matched(*all_).slopes;
        places_compared_ = treated.size() + control.size();
        treated_compared_ = treated.size();
        const std::vector<Arm> arms{with_dispersion(treated), with_dispersion(control)};
        between_ = variance_between(arms);
        between_degrees_ = static_cast<double>(places_compared_);
        for (const Arm& arm : arms) between_degrees_ -= arm.empty() ? 0 : 1;
    }

    /// The figures of `treated`, a mean slope over `days`, against those of `control`.
    void fill(Efficacy& effect, const Estimate& treated, const Estimate& control,
              double days) const {
        const double slope = treated.value - control.value;
        const double error = std::sqrt(treated.variance + control.variance);
        const double degrees = between_degrees_ > 0
                                   ? std::min(between_degrees_, dispersion_.degrees)
                                   : dispersion_.degrees;
        const double reach = t_quantile(1 - rules::false_claims, degrees) * error;
        const auto percent = [&](double at) { return (1 - std::exp(at * days)) * 100; };
        effect.percent = percent(slope);
        effect.interval = Interval{percent(slope + reach), percent(slope - reach)};
        effect.formula = Formula::henderson_tilton;
        effect.why_none = NoControl::none;
        effect.places = places_compared_;
        // Of two places alone nobody knows how much places differ.
        if (between_degrees_ > 0) effect.chance = t_chance(slope / error, degrees);
    }

    /// Why the controls matched give no figure.
    [[nodiscard]] NoControl missing(const Matched& matched) const {
        if (matched.before.number() == 0) return NoControl::not_counted;
        if (matched.empty_after(dispersion_.value)) return NoControl::empty_after;
        if (matched.slopes.empty()) return NoControl::empty_before;
        return NoControl::none;
    }

    static void set_controls(Efficacy& effect, const Matched& matched) {
        effect.controls = matched.before.number();
        effect.counted_from = matched.from;
        effect.counted_to = matched.to;
    }

    Efficacy effect_of(const Place& place) {
        Efficacy effect;
        if (!controls_.any()) return effect;
        effect.why_none = NoControl::not_counted;
        if (place.counts().empty()) return effect;
        if (!place.counts().any_seen) {
            effect.why_none = NoControl::treated_empty;
            return effect;
        }
        const Matched& matched = controls_of(place);
        if (place.counts().totals.size() < 2 || matched.before.number() == 0) {
            const bool only_before = place.counts().totals.size() == 1 && place.counts().baseline;
            return only_before ? effect : controls_.abbott(place.counts(), place.treated->placed);
        }
        set_controls(effect, matched);
        effect.why_none = missing(matched);
        if (effect.why_none != NoControl::none) return effect;
        if (!place.slope) {
            effect.why_none = NoControl::not_counted;
            return effect;
        }
        const Estimate treated{place.slope->value,
                               place.slope->variance * dispersion_.value + between_};
        fill(effect, treated, mean_of(with_dispersion(matched.slopes), between_), place.days);
        if (all_gone(place.before_after)) effect.percent = 100;
        return effect;
    }

    /// The fitted number at the last count is none.
    static bool all_gone(const Groups& groups) {
        const Decline line = fit_decline(groups);
        return line.fitted == Fitted::at_one_end && falls_along(line, groups);
    }

    /// Each place against its controls, then their mean: places set out at other times are compared
    /// with what the controls did then.
    Efficacy effect_of_all() {
        Efficacy effect;
        if (!controls_.any()) return effect;
        effect.why_none = NoControl::not_counted;
        bool any_seen = false;
        for (const Place& place : places_) any_seen = any_seen || place.counts().any_seen;
        if (!all_) {
            if (places_.size() == 1) return effect_of(places_.front());
            return effect;
        }
        if (!any_seen) {
            effect.why_none = NoControl::treated_empty;
            return effect;
        }
        Arm differences;
        double weights = 0, control_variance = 0, days = 0;
        bool gone = true;
        for (const Place& place : places_) {
            if (!place.compares()) continue;
            const Matched& matched = controls_of(place);
            effect.why_none = missing(matched);
            if (effect.why_none != NoControl::none) continue;
            const Estimate control = mean_of(with_dispersion(matched.slopes), between_);
            const double variance = place.slope->variance * dispersion_.value;
            differences.push_back({place.slope->value - control.value, variance});
            const double weight = 1 / (variance + between_);
            weights += weight;
            control_variance += weight * control.variance;
            days += weight * place.days;
            gone = gone && all_gone(place.before_after);
            if (matched.before.number() > effect.controls)
                effect.controls = matched.before.number();
            effect.counted_from =
                std::min(effect.counted_from.value_or(*matched.from), *matched.from);
            effect.counted_to = std::max(effect.counted_to.value_or(*matched.to), *matched.to);
        }
        if (differences.empty()) return effect;
        fill(effect, mean_of(differences, between_), {0, control_variance / weights},
             days / weights);
        if (gone) effect.percent = 100;
        effect.beyond_control =
            effect.chance && *effect.chance <= rules::false_claims && effect.plain();
        return effect;
    }

    // -- All places together -----------------------------------------------------------------

    Trend trend_all(const Efficacy& effect) {
        std::vector<const Counts*> all;
        Groups groups;
        const bool any_again = std::ranges::any_of(
            places_, [](const Place& p) { return p.counts().totals.size() > 1; });
        for (const Place& place : places_) {
            all.push_back(&place.counts());
            if (place.counts().totals.size() < (any_again ? 2 : 1)) continue;
            std::ranges::copy(place.line, std::back_inserter(groups));
        }
        Trend trend = trend_of_all(all);
        fit(trend, groups);
        double degrees = 0;
        std::optional<double> chance;
        double error = 0;
        if (treated_compared_ >= rules::places_that_differ) {
            degrees = std::min(between_degrees_, dispersion_.degrees);
            Arm slopes;
            for (const Place& place : places_)
                if (const auto slope = finite_slope(place.line); slope && place.compares())
                    slopes.push_back(*slope);
            const Estimate mean = mean_of(with_dispersion(slopes), between_);
            error = std::sqrt(mean.variance);
            const double reach = t_quantile(1 - rules::false_claims, degrees) * error;
            trend.dispersion = dispersion_;
            trend.of_mean_place = true;
            set_slope(trend, mean.value, {mean.value - reach, mean.value + reach});
            chance = t_chance(mean.value / error, degrees);
        } else {
            const Dispersion own = places_.size() > 1 && trend.decline.degrees_of_freedom > 0
                                       ? pooled_dispersion({&trend.decline, 1})
                                       : dispersion_;
            degrees = own.degrees;
            set_intervals(trend, own);
            error = trend.decline.plain_slope_error * std::sqrt(own.value);
            chance = change_chance(trend.decline, groups, own);
        }
        const bool claimed = chance && *chance <= rules::false_claims;
        const bool falls = trend.slope ? *trend.slope < 0 : falls_along(trend.decline, groups);
        trend.falls = claimed && falls;
        trend.rises = claimed && !falls;
        if (trend.slope && past_all() && !trend.falls && !effect.held_down())
            trend.stays = half_fall_chance(*trend.slope, error, degrees, span_days(groups)) <=
                          rules::false_claims;
        const auto compared = std::ranges::count_if(
            places_, [](const Place& p) { return p.counts().totals.size() > 1; });
        const auto back =
            std::ranges::count_if(places_, [](const Place& p) { return p.trend.rebounds; });
        trend.rebounds = back > 0 && 2 * back >= compared;
        trend.gone = trend.none_since && trend.any_seen;
        for (const Place& place : places_)
            trend.gone = trend.gone && (place.trend.gone || !place.counts().any_seen);
        return trend;
    }

    /// The last count was made after the time by which all of them usually show a result.
    [[nodiscard]] bool past_all() const {
        std::optional<Day> last, by;
        for (const Place& place : places_) {
            if (place.treated->result_by)
                by = std::max(by.value_or(*place.treated->result_by), *place.treated->result_by);
            if (place.counts().empty()) continue;
            const Day day = day_of(place.counts().totals.back().time);
            last = std::max(last.value_or(day), day);
        }
        return last && by && *last >= *by;
    }

    Controls& controls_;
    std::vector<Place> places_;
    std::optional<Span> all_;
    Dispersion dispersion_{rules::assumed_dispersion};
    double between_ = 0, between_degrees_ = 0;
    std::size_t places_compared_ = 0, treated_compared_ = 0;
};

}  // namespace

PestEvidence evidence_of(const std::vector<TreatedPlace>& places, Controls& controls) {
    return Maker(places, controls).make();
}

Trend control_trend(const Counts& counts) {
    Trend trend = trend_of(counts);
    fit(trend, counts.groups);
    set_intervals(trend, pooled_dispersion({&trend.decline, 1}));
    if (trend.slope_interval) {
        trend.falls = trend.slope_interval->high < 0;
        trend.rises = trend.slope_interval->low > 0;
    }
    return trend;
}

}  // namespace gallipot::analysis
