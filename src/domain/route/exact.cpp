#include <algorithm>
#include <limits>

#include "domain/route/tours.hpp"

namespace gallipot::route {

Order exact(const std::vector<Point>& points) {
    // best[set][last]: the shortest way from point 0 through all of `set` (points 1 and on, as
    // bits) that ends at `last`, which is one of them.
    const std::size_t others = points.size() - 1;
    const std::size_t sets = std::size_t{1} << others;
    std::vector<double> best(sets * others, std::numeric_limits<double>::infinity());
    std::vector<std::size_t> before(sets * others, 0);
    for (std::size_t i = 0; i < others; ++i)
        best[(std::size_t{1} << i) * others + i] = apart(points[0], points[i + 1]);
    for (std::size_t set = 1; set < sets; ++set) {
        for (std::size_t last = 0; last < others; ++last) {
            if ((set >> last & 1) == 0) continue;
            const double so_far = best[set * others + last];
            for (std::size_t next = 0; next < others; ++next) {
                if ((set >> next & 1) != 0) continue;
                const std::size_t at = (set | std::size_t{1} << next) * others + next;
                const double way = so_far + apart(points[last + 1], points[next + 1]);
                if (way < best[at]) {
                    best[at] = way;
                    before[at] = last;
                }
            }
        }
    }
    std::size_t last = 0;
    const std::size_t all = sets - 1;
    const auto whole = [&](std::size_t i) {
        return best[all * others + i] + apart(points[i + 1], points[0]);
    };
    for (std::size_t i = 1; i < others; ++i)
        if (whole(i) < whole(last)) last = i;

    Order order;
    for (std::size_t set = all; set != 0;) {
        order.push_back(last + 1);
        const std::size_t previous = before[set * others + last];
        set &= ~(std::size_t{1} << last);
        last = previous;
    }
    order.push_back(0);
    std::reverse(order.begin(), order.end());
    return order;
}

}  // namespace gallipot::route
