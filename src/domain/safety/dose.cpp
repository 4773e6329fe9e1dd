#include "domain/safety/dose.hpp"

namespace gallipot::safety {

double child_10kg_mg_per_kg(units::Mass boric_acid_equivalent) {
    return 1e6 * (boric_acid_equivalent / limits::child);
}

units::Range<units::Mass> left_at_level(units::Mass boric_acid_equivalent, double level,
                                        bool dries) {
    const units::Mass eaten = boric_acid_equivalent * level;
    const units::Mass maximum = dries ? boric_acid_equivalent : eaten;
    return {eaten, eaten, maximum};
}

}  // namespace gallipot::safety
