#include "papers/layout/label_fit.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "papers/qr/checks.hpp"

namespace gallipot::layout {

namespace {

/// Type sizes are tried in tenths of a point, modules and pictograms in hundredths of a millimetre.
constexpr double type_grain = 0.1;
constexpr double length_grain = 0.01;
/// The signal word over the running words where these are smallest.
constexpr double least_signal = 1.5;

double down_to(double grain, double value) {
    return std::floor(value / grain + 1e-6) * grain;
}
double up_to(double grain, double value) {
    return std::ceil(value / grain - 1e-6) * grain;
}

class Search {
  public:
    Search(const Arrangement& arrangement, const Bounds& bounds)
        : arrangement_(arrangement), bounds_(bounds) {}

    [[nodiscard]] std::variant<Fit, Lack> operator()() const {
        const double readable = sizes_at(readable_points);
        const double statement = std::min(readable, sizes_at(statement_points));
        for (const double sizes : {1.0, readable})
            for (const auto run_on : {RunOn::parts, RunOn::groups, RunOn::rest})
                if (const auto fit = longest({run_on, sizes}, bounds_.whole)) return *fit;
        for (const int steps : bounds_.before_loss)
            if (const auto fit = largest(steps, statement, readable)) return *fit;
        if (const auto fit = longest({RunOn::rest, statement}, bounds_.steps)) return *fit;
        if (const auto fit = largest(bounds_.steps, 0, statement)) return *fit;
        Lack least{1e9, 1e9};
        for (int place = 0; place < bounds_.places; ++place) {
            const auto lack =
                arrangement_.lack(between({RunOn::rest, 0}, place, bounds_.steps - 1));
            if (std::max(lack.width, lack.height) < std::max(least.width, least.height))
                least = lack;
        }
        return least;
    }

  private:
    struct Way {
        RunOn run_on = RunOn::parts;
        double sizes = 1;  ///< from least (0) to easy (1)
    };

    /// Where type is so many points.
    [[nodiscard]] double sizes_at(double points) const {
        const double span = bounds_.easy.size - bounds_.least.size;
        return span > 0 ? std::clamp((points - bounds_.least.size) / span, 0.0, 1.0) : 1;
    }

    /// The longest text of the first `steps` that fits at those sizes.
    [[nodiscard]] std::optional<Fit> longest(Way way, int steps) const {
        for (int place = 0; place < bounds_.places; ++place)
            if (const auto fit = longest(way, steps, place)) return fit;
        return {};
    }
    [[nodiscard]] std::optional<Fit> longest(Way way, int steps, int place) const {
        for (int step = 0; step < steps; ++step) {
            const auto trial = between(way, place, step);
            if (!arrangement_.lack(trial).fits()) continue;
            const auto made = grown(trial);
            const auto& easy = bounds_.easy;
            return Fit{made, made.size >= easy.size && made.module >= easy.module &&
                                 made.pictogram >= easy.pictogram};
        }
        return {};
    }

    /// The shortest text of the first `steps`, run on, at the greatest sizes between two; then the
    /// longest at those sizes.
    [[nodiscard]] std::optional<Fit> largest(int steps, double low, double high) const {
        for (int place = 0; place < bounds_.places; ++place) {
            const auto fits = [&](double sizes) {
                return arrangement_.lack(between({RunOn::rest, sizes}, place, steps - 1)).fits();
            };
            if (!fits(low)) continue;
            double fitting = low, beyond = high;
            for (int i = 0; i < 8; ++i) {
                const double middle = (fitting + beyond) / 2;
                (fits(middle) ? fitting : beyond) = middle;
            }
            return longest({RunOn::rest, fitting}, steps, place);
        }
        return {};
    }

    /// Sizes on the way from the least (0) to the easy ones (1), on their grain.
    [[nodiscard]] Trial between(Way way, int place, int step) const {
        const auto mix = [&](double a, double b) { return a + way.sizes * (b - a); };
        Trial trial;
        trial.run_on = way.run_on;
        trial.place = place;
        trial.step = step;
        trial.size = std::max(down_to(type_grain, mix(bounds_.least.size, bounds_.easy.size)),
                              bounds_.least.size);
        proportion(trial);
        // Where room is so short that parts are run on, words come before a large code.
        const bool ample = way.run_on == RunOn::parts && way.sizes >= 1;
        const Trial& other = ample ? bounds_.easy : bounds_.least;
        trial.module = other.module;
        trial.pictogram = other.pictogram;
        return trial;
    }

    /// What is large stands out less where all is small: contrast is a matter of room.
    void proportion(Trial& trial) const {
        const double span = bounds_.easy.size - bounds_.least.size;
        const double way =
            span > 0 ? std::clamp((trial.size - bounds_.least.size) / span, 0.0, 1.0) : 1;
        const auto mix = [&](double a, double b) { return a + way * (b - a); };
        trial.lead = mix(bounds_.least.lead, bounds_.easy.lead);
        trial.leading = mix(bounds_.least.leading, bounds_.easy.leading);
        trial.signal = mix(bounds_.least.signal, bounds_.easy.signal);
    }

    /// The largest value of one size, on its grain, at which the trial still fits.
    void grow(Trial& trial, double Trial::*size, double largest, double grain) const {
        const auto fits = [&](double value) {
            Trial other = trial;
            other.*size = value;
            proportion(other);
            return arrangement_.lack(other).fits();
        };
        const double start = trial.*size;
        int low = 0;
        int high = static_cast<int>(std::floor((largest - start) / grain + 1e-6)) + 1;
        while (high - low > 1) {
            const int middle = (low + high) / 2;
            (fits(start + middle * grain) ? low : high) = middle;
        }
        if (low > 0) trial.*size = start + low * grain;
        proportion(trial);
    }

    [[nodiscard]] Trial grown(Trial trial) const {
        const double module_grain =
            bounds_.dots_per_mm > 0 ? 1 / bounds_.dots_per_mm : length_grain;
        // All of it to easy sizes first: larger type is not worth a code that is hard to read.
        for (const Trial* most : {&bounds_.easy, &bounds_.largest}) {
            grow(trial, &Trial::size, most->size, type_grain);
            grow(trial, &Trial::module, most->module, module_grain);
            grow(trial, &Trial::pictogram, most->pictogram, length_grain);
        }
        return trial;
    }

    const Arrangement& arrangement_;
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
    made.before_loss.clear();
    for (int i = 1; i < made.whole; ++i) {
        const auto at = steps.begin() + i;
        if (at->shortest.size() > (at - 1)->shortest.size()) made.before_loss.push_back(i);
    }
    made.before_loss.push_back(made.whole);
    made.places = std::max(1, static_cast<int>(design.code_places.size()));
    made.dots_per_mm = canvas.stock.dots_per_inch.value_or(0) / 25.4;

    double least = design.type_least;
    for (const auto& step : steps)
        for (const auto& block : step.blocks)
            if (!block.lead) least = std::max(least, block.least);
    made.least.size = least;
    made.easy.size = std::max(least, design.type_easy);
    made.largest.size = std::max(made.easy.size, design.type_largest);
    made.least.lead = 1;
    made.easy.lead = design.lead;
    made.least.leading = std::min(contents.least_leading, design.leading);
    made.easy.leading = design.leading;
    made.least.signal = std::min(least_signal, design.signal);
    made.easy.signal = design.signal;

    const auto module = [&](units::Length length, bool up) {
        const double mm = std::max(units::in_mm(length), qr::module_least_mm);
        if (made.dots_per_mm <= 0) return mm;
        return up ? up_to(1 / made.dots_per_mm, mm) : down_to(1 / made.dots_per_mm, mm);
    };
    made.least.module = module(design.module_least, true);
    made.easy.module = std::max(made.least.module, module(design.module_easy, false));
    made.largest.module = std::max(made.easy.module, module(design.module_largest, false));

    made.least.pictogram = std::max(units::in_mm(design.pictogram_least), contents.pictogram_least);
    made.easy.pictogram = std::max(made.least.pictogram, contents.pictogram_easy);
    made.largest.pictogram = std::max(made.easy.pictogram, units::in_mm(design.pictogram_largest));
    return made;
}

std::variant<Fit, Lack> fit(const Arrangement& arrangement, const Bounds& bounds) {
    return Search(arrangement, bounds)();
}

}  // namespace gallipot::layout
