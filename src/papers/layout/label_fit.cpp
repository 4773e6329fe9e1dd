#include "papers/layout/label_fit.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "papers/qr/checks.hpp"

namespace gallipot::layout {

namespace {

using document::Part;

/// Type sizes are tried in tenths of a point, modules and pictograms in hundredths of a millimetre.
constexpr double type_grain = 0.1;
constexpr double length_grain = 0.01;
/// The signal word over the running words where these are smallest.
constexpr double minimum_signal = 1.5;
/// And the number to call.
constexpr double minimum_number = 1.4;

double down_to(double grain, double value) {
    return std::floor(value / grain + 1e-6) * grain;
}
double up_to(double grain, double value) {
    return std::ceil(value / grain - 1e-6) * grain;
}

class Search {
  public:
    Search(const Trial& trial, const Bounds& bounds) : trial_(trial), bounds_(bounds) {}

    [[nodiscard]] bool fits_at_least() const {
        for (int place = 0; place < bounds_.places; ++place)
            if (trial_(between({bounds_.densest, 0}, place, bounds_.steps - 1)).fits()) return true;
        return false;
    }

    [[nodiscard]] std::variant<FitResult, Shortfall> operator()() const {
        const double readable = sizes_at(readable_points);
        const double statement = std::min(readable, sizes_at(statement_points));
        for (const double sizes : {1.0, readable})
            for (const auto run_on : {RunOn::parts, RunOn::groups, RunOn::rest})
                if (const auto fit = longest({run_on, sizes}, bounds_.before_loss.front()))
                    return *fit;
        for (const int steps : bounds_.before_loss)
            for (const auto run_on : {RunOn::rest, RunOn::tight})
                if (const auto fit = maximum(run_on, steps, statement, readable)) return *fit;
        for (const int steps : {bounds_.before_home, bounds_.steps})
            for (const auto run_on : {RunOn::tight, bounds_.densest})
                if (const auto fit = longest({run_on, statement}, steps)) return *fit;
        for (const auto run_on : {RunOn::tight, bounds_.densest})
            if (const auto fit = maximum(run_on, bounds_.steps, 0, statement)) return *fit;
        Shortfall minimum{1e9, 1e9};
        for (int place = 0; place < bounds_.places; ++place) {
            const auto shortfall = trial_(between({bounds_.densest, 0}, place, bounds_.steps - 1));
            if (std::max(shortfall.width, shortfall.height) <
                std::max(minimum.width, minimum.height))
                minimum = shortfall;
        }
        return minimum;
    }

  private:
    struct Way {
        RunOn run_on = RunOn::parts;
        double sizes = 1;  ///< from least (0) to easy (1)
    };

    /// Where type is so many points.
    [[nodiscard]] double sizes_at(double points) const {
        const double span = bounds_.preferred.size - bounds_.minimum.size;
        return span > 0 ? std::clamp((points - bounds_.minimum.size) / span, 0.0, 1.0) : 1;
    }

    /// The longest text of the first `steps` that fits at those sizes.
    [[nodiscard]] std::optional<FitResult> longest(Way way, int steps) const {
        for (int step = 0; step < steps; ++step)
            for (int place = 0; place < bounds_.places; ++place)
                if (const auto fit = at(between(way, place, step))) return fit;
        return {};
    }
    [[nodiscard]] std::optional<FitResult> longest(Way way, int steps, int place) const {
        for (int step = 0; step < steps; ++step)
            if (const auto fit = at(between(way, place, step))) return fit;
        return {};
    }
    [[nodiscard]] std::optional<FitResult> at(const Sizing& sizing) const {
        if (!trial_(sizing).fits()) return {};
        const auto made = grown(sizing);
        const auto& preferred = bounds_.preferred;
        return FitResult{made, made.size >= preferred.size && made.module >= preferred.module &&
                                   made.pictogram >= preferred.pictogram};
    }

    /// The shortest text of the first `steps`, run on, at the greatest sizes between two; then the
    /// longest at those sizes.
    [[nodiscard]] std::optional<FitResult> maximum(RunOn run_on, int steps, double low,
                                                   double high) const {
        for (int place = 0; place < bounds_.places; ++place) {
            const auto fits = [&](double sizes) {
                return trial_(between({run_on, sizes}, place, steps - 1)).fits();
            };
            if (!fits(low)) continue;
            double fitting = low, beyond = high;
            for (int i = 0; i < 8; ++i) {
                const double middle = (fitting + beyond) / 2;
                (fits(middle) ? fitting : beyond) = middle;
            }
            return longest({run_on, fitting}, steps, place);
        }
        return {};
    }

    /// Sizes on the way from the least (0) to the easy ones (1), on their grain.
    [[nodiscard]] Sizing between(Way way, int place, int step) const {
        const auto mix = [&](double a, double b) { return a + way.sizes * (b - a); };
        Sizing sizing;
        sizing.run_on = way.run_on;
        sizing.place = place;
        sizing.step = step;
        sizing.size =
            std::max(down_to(type_grain, mix(bounds_.minimum.size, bounds_.preferred.size)),
                     bounds_.minimum.size);
        proportion(sizing);
        // Where room is so short that parts are run on, words come before a large code.
        const bool ample = way.run_on == RunOn::parts && way.sizes >= 1;
        const Sizing& other = ample ? bounds_.preferred : bounds_.minimum;
        sizing.module = other.module;
        sizing.pictogram = other.pictogram;
        return sizing;
    }

    /// What is large stands out less where all is small: contrast is a matter of room.
    void proportion(Sizing& sizing) const {
        const double span = bounds_.preferred.size - bounds_.minimum.size;
        const double way =
            span > 0 ? std::clamp((sizing.size - bounds_.minimum.size) / span, 0.0, 1.0) : 1;
        const auto mix = [&](double a, double b) { return a + way * (b - a); };
        sizing.lead = mix(bounds_.minimum.lead, bounds_.preferred.lead);
        sizing.leading = mix(bounds_.minimum.leading, bounds_.preferred.leading);
        sizing.number = mix(bounds_.minimum.number, bounds_.preferred.number);
        sizing.signal = mix(bounds_.minimum.signal, bounds_.preferred.signal);
    }

    /// The largest value of one size, on its grain, at which the trial still fits.
    void grow(Sizing& sizing, double Sizing::*size, double maximum, double grain) const {
        const auto fits = [&](double value) {
            Sizing other = sizing;
            other.*size = value;
            proportion(other);
            return trial_(other).fits();
        };
        const double start = sizing.*size;
        int low = 0;
        int high = static_cast<int>(std::floor((maximum - start) / grain + 1e-6)) + 1;
        while (high - low > 1) {
            const int middle = (low + high) / 2;
            (fits(start + middle * grain) ? low : high) = middle;
        }
        if (low > 0) sizing.*size = start + low * grain;
        proportion(sizing);
    }

    [[nodiscard]] Sizing grown(Sizing sizing) const {
        const double module_grain =
            bounds_.dots_per_mm > 0 ? 1 / bounds_.dots_per_mm : length_grain;
        // All of it to easy sizes first: larger type is not worth a code that is hard to read.
        for (const Sizing* maximum : {&bounds_.preferred, &bounds_.maximum}) {
            grow(sizing, &Sizing::size, maximum->size, type_grain);
            grow(sizing, &Sizing::module, maximum->module, module_grain);
            grow(sizing, &Sizing::pictogram, maximum->pictogram, length_grain);
        }
        return sizing;
    }

    const Trial& trial_;
    const Bounds& bounds_;
};

}  // namespace

Bounds bounds(const Canvas& canvas, const Contents& contents) {
    const auto& design = canvas.design;
    Bounds made;
    const auto& steps = contents.words.steps.front();
    made.steps = static_cast<int>(steps.size());
    made.whole = static_cast<int>(
        std::find_if(steps.begin(), steps.end(),
                     [](const auto& step) { return !step.statements_left_out.empty(); }) -
        steps.begin());
    made.before_home = static_cast<int>(
        std::ranges::find_if(steps,
                             [](const Step& step) {
                                 return std::ranges::any_of(step.left_out, [](Part part) {
                                     return part == Part::place || part == Part::caption;
                                 });
                             }) -
        steps.begin());
    made.before_loss.clear();
    for (int i = 1; i < made.whole; ++i) {
        const auto at = steps.begin() + i;
        if (at->shortest.size() > (at - 1)->shortest.size()) made.before_loss.push_back(i);
    }
    made.before_loss.push_back(made.whole);
    made.places = std::max(1, static_cast<int>(design.code_places.size()) * pictograms_beside);
    if (design.compact) made.densest = RunOn::tight;
    made.dots_per_mm = canvas.stock.dots_per_inch.value_or(0) / 25.4;

    double minimum = design.type_minimum;
    for (const auto& step : steps)
        for (const auto& block : step.blocks)
            if (!block.lead) minimum = std::max(minimum, block.minimum);
    made.minimum.size = minimum;
    made.preferred.size = std::max(minimum, design.type_preferred);
    made.maximum.size = std::max(made.preferred.size, design.type_largest);
    made.minimum.lead = 1;
    made.preferred.lead = design.lead;
    made.minimum.leading =
        std::max(std::min(contents.minimum_leading, design.leading), contents.least_leading);
    made.preferred.leading = std::max(design.leading, contents.least_leading);
    made.minimum.number = std::min(minimum_number, design.number);
    made.preferred.number = design.number;
    made.minimum.signal = std::min(minimum_signal, design.signal);
    made.preferred.signal = design.signal;

    const auto module = [&](units::Length length, bool up) {
        const double mm = std::max(units::in_mm(length), qr::module_least_mm);
        if (made.dots_per_mm <= 0) return mm;
        return up ? up_to(1 / made.dots_per_mm, mm) : down_to(1 / made.dots_per_mm, mm);
    };
    made.minimum.module = module(design.module_minimum, true);
    made.preferred.module = std::max(made.minimum.module, module(design.module_preferred, false));
    made.maximum.module = std::max(made.preferred.module, module(design.module_largest, false));

    made.minimum.pictogram =
        std::max(units::in_mm(design.pictogram_minimum), contents.pictogram_minimum);
    made.preferred.pictogram = std::max(made.minimum.pictogram, contents.pictogram_preferred);
    made.maximum.pictogram =
        std::max(made.preferred.pictogram, units::in_mm(design.pictogram_largest));
    return made;
}

Bounds together(const std::vector<Bounds>& each) {
    Bounds made = each.front();
    std::set<int> losses;
    for (const Bounds& one : each) {
        made.steps = std::max(made.steps, one.steps);
        made.whole = std::min(made.whole, one.whole);
        if (one.before_home < one.steps || made.before_home >= made.steps)
            made.before_home = std::min(made.before_home, one.before_home);
        losses.insert(one.before_loss.begin(), one.before_loss.end());
        for (const auto size :
             {&Sizing::size, &Sizing::module, &Sizing::pictogram, &Sizing::leading})
            made.minimum.*size = std::max(made.minimum.*size, one.minimum.*size);
        made.preferred.leading = std::max(made.preferred.leading, one.preferred.leading);
    }
    for (const auto size : {&Sizing::size, &Sizing::module, &Sizing::pictogram}) {
        for (const Bounds& one : each) {
            made.preferred.*size = std::min(made.preferred.*size, one.preferred.*size);
            made.maximum.*size = std::min(made.maximum.*size, one.maximum.*size);
        }
        made.preferred.*size = std::max(made.preferred.*size, made.minimum.*size);
        made.maximum.*size = std::max(made.maximum.*size, made.preferred.*size);
    }
    losses.insert(made.whole);
    made.before_loss.clear();
    for (const int steps : losses)
        if (steps <= made.whole) made.before_loss.push_back(steps);
    return made;
}

std::variant<FitResult, Shortfall> fit(const Trial& trial, const Bounds& bounds) {
    return Search(trial, bounds)();
}

bool fits_at_least(const Trial& trial, const Bounds& bounds) {
    return Search(trial, bounds).fits_at_least();
}

}  // namespace gallipot::layout
