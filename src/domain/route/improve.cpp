#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <random>

#include "domain/route/tours.hpp"

namespace gallipot::route {

namespace {

/// Less than this is rounding, not a shorter way: without it moves could go in circles.
constexpr double least_gain = 1e-9;

/// A round that is made shorter move by move.
class Tour {
  public:
    /// `reach`: only places so near in the order are tried with each other.
    Tour(const std::vector<Point>& points, Order order, std::size_t reach)
        : points_(points), order_(std::move(order)), reach_(reach) {}

    void improve() {
        // Each pass makes it shorter, so this ends; the bound is for the patience of whoever waits.
        constexpr int most_passes = 60;
        for (int pass = 0; pass < most_passes; ++pass) {
            const bool turned = turn_stretches();
            const bool moved = move_stretches();
            if (!turned && !moved) return;
        }
    }

    [[nodiscard]] const Order& order() const { return order_; }

  private:
    [[nodiscard]] std::size_t size() const { return order_.size(); }
    [[nodiscard]] double leg(std::size_t a, std::size_t b) const {
        return apart(points_[order_[a % size()]], points_[order_[b % size()]]);
    }

    /// 2-opt: the stretch between two legs is walked the other way.
    bool turn_stretches() {
        bool any = false;
        for (std::size_t i = 0; i + 2 < size(); ++i) {
            const std::size_t end = std::min(size(), i + 2 + reach_);
            for (std::size_t j = i + 2; j < end; ++j) {
                if (i == 0 && j + 1 == size()) continue;
                const double gain = leg(i, i + 1) + leg(j, j + 1) - leg(i, j) - leg(i + 1, j + 1);
                if (gain <= least_gain) continue;
                std::reverse(order_.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                             order_.begin() + static_cast<std::ptrdiff_t>(j) + 1);
                any = true;
            }
        }
        return any;
    }

    /// Or-opt: one to three places are walked to at another time, either way round.
    bool move_stretches() {
        bool any = false;
        for (std::size_t count = 1; count <= 3; ++count) {
            for (std::size_t i = 1; i + count < size(); ++i) {
                const std::size_t low = i > reach_ ? i - reach_ : 0;
                const std::size_t high = std::min(size() - 1, i + count + reach_);
                for (std::size_t k = low; k <= high; ++k)
                    if ((k + 1 < i || k >= i + count) && move(i, count, k)) {
                        any = true;
                        break;
                    }
            }
        }
        return any;
    }

    /// Takes `count` places from `i` on and puts them after the one at `k`, if that is shorter.
    bool move(std::size_t i, std::size_t count, std::size_t k) {
        const std::size_t last = i + count - 1;
        const double saved = leg(i - 1, i) + leg(last, last + 1) - leg(i - 1, last + 1);
        const double opened = saved + leg(k, k + 1);
        const double straight = opened - leg(k, i) - leg(last, k + 1);
        const double turned = opened - leg(k, last) - leg(i, k + 1);
        if (std::max(straight, turned) <= least_gain) return false;
        const auto begin = order_.begin();
        const auto at = [&](std::size_t n) { return begin + static_cast<std::ptrdiff_t>(n); };
        if (turned > straight) std::reverse(at(i), at(i + count));
        if (k < i)
            std::rotate(at(k + 1), at(i), at(i + count));
        else
            std::rotate(at(i), at(i + count), at(k + 1));
        return true;
    }

    const std::vector<Point>& points_;
    Order order_;
    std::size_t reach_;
};

/// From `start` always on to the nearest that is left.
Order nearest_first(const std::vector<Point>& points, std::size_t start) {
    Order order(points.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::swap(order[0], order[start]);
    for (std::size_t i = 1; i < order.size(); ++i) {
        auto nearest =
            std::min_element(order.begin() + static_cast<std::ptrdiff_t>(i), order.end(),
                             [&](std::size_t a, std::size_t b) {
                                 const double to_a = apart(points[order[i - 1]], points[a]);
                                 const double to_b = apart(points[order[i - 1]], points[b]);
                                 return to_a < to_b || (to_a == to_b && a < b);
                             });
        std::swap(order[i], *nearest);
    }
    return order;
}

/// How far along Hilbert's curve a cell of a grid of 2^16 by 2^16 lies.
std::uint64_t along_curve(std::uint32_t x, std::uint32_t y) {
    constexpr std::uint32_t side = 1u << 16;
    std::uint64_t along = 0;
    for (std::uint32_t s = side / 2; s > 0; s /= 2) {
        const std::uint32_t right = (x & s) != 0 ? 1 : 0;
        const std::uint32_t up = (y & s) != 0 ? 1 : 0;
        along += std::uint64_t{s} * s * ((3 * right) ^ up);
        if (up == 0) {
            if (right == 1) {
                x = side - 1 - x;
                y = side - 1 - y;
            }
            std::swap(x, y);
        }
    }
    return along;
}

/// In the order of Hilbert's curve over all of them.
Order by_curve(const std::vector<Point>& points) {
    double left = points[0].x, right = left, low = points[0].y, high = low;
    for (const Point& p : points) {
        left = std::min(left, p.x);
        right = std::max(right, p.x);
        low = std::min(low, p.y);
        high = std::max(high, p.y);
    }
    const double extent = std::max({right - left, high - low, 1e-9});
    const auto cell = [&](double from, double at) {
        return static_cast<std::uint32_t>((at - from) / extent * 65535.0);
    };
    std::vector<std::uint64_t> along;
    along.reserve(points.size());
    for (const Point& p : points) along.push_back(along_curve(cell(left, p.x), cell(low, p.y)));
    Order order(points.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return along[a] < along[b]; });
    return order;
}

/// Cuts the round at three places and swaps the two stretches between: what 2-opt and or-opt
/// cannot do, so that they find something new from there.
Order shaken(const Order& order, std::minstd_rand& random) {
    std::size_t cuts[3];
    for (auto& cut : cuts) cut = 1 + random() % (order.size() - 1);
    std::sort(std::begin(cuts), std::end(cuts));
    Order other = order;
    std::rotate(other.begin() + static_cast<std::ptrdiff_t>(cuts[0]),
                other.begin() + static_cast<std::ptrdiff_t>(cuts[1]),
                other.begin() + static_cast<std::ptrdiff_t>(cuts[2]));
    return other;
}

}  // namespace

Order improved(const std::vector<Point>& points) {
    constexpr std::size_t most_tried_whole = 500;
    constexpr std::size_t near_in_order = 60;
    if (points.size() > most_tried_whole) {
        Tour tour(points, by_curve(points), near_in_order);
        tour.improve();
        return tour.order();
    }
    Order best;
    double shortest = 0;
    const auto try_from = [&](Order order) {
        Tour tour(points, std::move(order), points.size());
        tour.improve();
        const double way = length(points, tour.order());
        if (!best.empty() && way >= shortest) return;
        best = tour.order();
        shortest = way;
    };
    constexpr std::size_t starts = 4;
    for (std::size_t i = 0; i < starts; ++i)
        try_from(nearest_first(points, i * points.size() / starts));
    // As much work whatever the number of points; always the same draws, so the same round.
    constexpr std::size_t work = 400'000;
    const std::size_t shakes =
        std::clamp<std::size_t>(work / (points.size() * points.size()), 2, 200);
    std::minstd_rand random(1);
    for (std::size_t i = 0; i < shakes; ++i) try_from(shaken(best, random));
    return best;
}

}  // namespace gallipot::route
