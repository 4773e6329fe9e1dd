#include "layout/label_fit.hpp"

#include <algorithm>
#include <cmath>

#include "qr/checks.hpp"

namespace gallipot::layout {

namespace {

/// Type sizes are tried in tenths of a point, modules and pictograms in hundredths of a millimetre.
constexpr double type_grain = 0.1;
constexpr double length_grain = 0.01;

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
        // Easy sizes before long texts, but some text is worth more than the last step in size.
        for (const double way : {1.0, 0.5}) {
            for (int step = 0; step < bounds_.steps; ++step) {
                const auto trial = between(step, way);
                if (arrangement_.lack(trial).fits()) return Fit{grown(trial), way == 1.0};
            }
        }
        const int last = bounds_.steps - 1;
        const auto least = between(last, 0);
        if (const auto lack = arrangement_.lack(least); !lack.fits()) return lack;
        double low = 0, high = 0.5;
        for (int i = 0; i < 8; ++i) {
            const double middle = (low + high) / 2;
            (arrangement_.lack(between(last, middle)).fits() ? low : high) = middle;
        }
        // At those sizes there may be room for more text than the least.
        auto trial = between(last, low);
        for (int step = 0; step < last; ++step) {
            auto longer = trial;
            longer.step = step;
            if (!arrangement_.lack(longer).fits()) continue;
            trial = longer;
            break;
        }
        return Fit{grown(trial), false};
    }

  private:
    /// Sizes on the way from the least (0) to the easy ones (1), on their grain.
    [[nodiscard]] Trial between(int step, double way) const {
        const auto mix = [&](double a, double b) { return a + way * (b - a); };
        Trial trial;
        trial.step = step;
        trial.size = std::max(down_to(type_grain, mix(bounds_.least.size, bounds_.easy.size)),
                              bounds_.least.size);
        trial.module = snapped(mix(bounds_.least.module, bounds_.easy.module));
        trial.pictogram =
            std::max(down_to(length_grain, mix(bounds_.least.pictogram, bounds_.easy.pictogram)),
                     bounds_.least.pictogram);
        return trial;
    }

    [[nodiscard]] double snapped(double module) const {
        const double grain = bounds_.dots_per_mm > 0 ? 1 / bounds_.dots_per_mm : length_grain;
        return std::max(down_to(grain, module), bounds_.least.module);
    }

    /// The largest value of one size, on its grain, at which the trial still fits.
    void grow(Trial& trial, double Trial::*size, double largest, double grain) const {
        const auto fits = [&](double value) {
            Trial other = trial;
            other.*size = value;
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
    }

    [[nodiscard]] Trial grown(Trial trial) const {
        const double module_grain =
            bounds_.dots_per_mm > 0 ? 1 / bounds_.dots_per_mm : length_grain;
        grow(trial, &Trial::size, bounds_.largest.size, type_grain);
        grow(trial, &Trial::module, bounds_.largest.module, module_grain);
        grow(trial, &Trial::pictogram, bounds_.largest.pictogram, length_grain);
        return trial;
    }

    const Arrangement& arrangement_;
    const Bounds& bounds_;
};

}  // namespace

Bounds bounds(const Canvas& canvas, const Contents& contents) {
    const auto& design = canvas.design;
    Bounds made;
    made.steps = static_cast<int>(contents.words.steps.size());
    made.dots_per_mm = canvas.stock.dots_per_inch.value_or(0) / 25.4;

    double least = design.type_least;
    for (const auto& part : contents.words.words)
        if (!part.lead) least = std::max(least, part.least);
    made.least.size = least;
    made.easy.size = std::max(least, design.type_easy);
    made.largest.size = std::max(made.easy.size, design.type_largest);

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
