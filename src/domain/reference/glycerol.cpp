#include "domain/reference/glycerol.hpp"

#include <algorithm>
#include <cmath>

namespace gallipot::reference {

double times_in_glycerol(double share, bool borax) {
    const auto& points = boric_acid_in_glycerol.value;
    std::size_t next = 1;
    while (next + 1 < points.size() && points[next].share < share) ++next;
    const GlycerolPoint& low = points[next - 1];
    const GlycerolPoint& high = points[next];
    const double part = std::clamp((share - low.share) / (high.share - low.share), 0.0, 1.0);
    const double acid = low.times * std::pow(high.times / low.times, part);
    if (!borax) return acid;
    const double maximum = points.back().times;
    return 1 + (borax_in_glycerol.value - 1) * (acid - 1) / (maximum - 1);
}

}  // namespace gallipot::reference
