#include "domain/route/local_search.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gallipot::route {

double apart(Point a, Point b) {
    const double x = a.x - b.x;
    const double y = a.y - b.y;
    return std::sqrt(x * x + y * y);
}

namespace {

/// Less than this is rounding, not a shorter way: without it moves could go in circles.
constexpr double minimum_gain = 1e-9;

/// A round that is made shorter move by move.
class Tour {
  public:
    /// `reach`: only places so near in the order are tried with each other.
    Tour(const std::vector<Point>& points, Order order, std::size_t reach)
        : points_(points), order_(std::move(order)), reach_(reach) {}

    void improve() {
        // Each pass makes it shorter, so this ends; the bound is for the patience of whoever waits.
        constexpr int maximum_passes = 60;
        for (int pass = 0; pass < maximum_passes; ++pass) {
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
                if (gain <= minimum_gain) continue;
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
        if (std::max(straight, turned) <= minimum_gain) return false;
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

}  // namespace

Order shortened(const std::vector<Point>& points, Order order, std::size_t reach) {
    Tour tour(points, std::move(order), reach);
    tour.improve();
    return tour.order();
}

}  // namespace gallipot::route
