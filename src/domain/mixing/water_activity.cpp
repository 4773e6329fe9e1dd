#include <cmath>

#include "domain/mixing/solution.hpp"
#include "domain/reference/atoms.hpp"

namespace gallipot::mixing {

double Solution::water_activity() const {
    if (water_ <= 0) return 0;
    const double water = water_ / reference::atoms::water * 1000;  // mol
    double all = water, held = 0;
    const auto add = [&](double amount, double norrish) {
        all += amount;
        held += std::sqrt(norrish) * amount;
    };
    for (const Solute& solute : solutes_) {
        const reference::Substance& it = *solute.substance;
        const double amount =
            solute.mass * dissolved_part(solute) / it.molar_mass_g_per_mol->value * 1000;
        add(amount, it.holds_water ? it.holds_water->value.norrish : 0);
    }
    for (const Humectant& it : humectants_) add(it.amount, it.norrish);
    return water / all * std::exp(-(held / all) * (held / all));
}

}  // namespace gallipot::mixing
