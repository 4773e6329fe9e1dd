#pragma once

#include <compare>

/// Typed quantities. A value is held in SI base units (m, kg, s) as a double at full precision and
/// is read or made only through a named unit, so grams cannot be taken for millilitres and no
/// factor stands anywhere but in units/.
namespace gallipot::units {

/// A quantity of dimension length^L mass^M time^T.
template <int L, int M, int T>
class Quantity {
  public:
    constexpr Quantity() = default;
    static constexpr Quantity si(double value) { return Quantity(value); }
    [[nodiscard]] constexpr double si() const { return value_; }

    constexpr auto operator<=>(const Quantity&) const = default;
    constexpr Quantity operator-() const { return Quantity(-value_); }
    constexpr Quantity& operator+=(Quantity other) {
        value_ += other.value_;
        return *this;
    }
    constexpr Quantity& operator-=(Quantity other) {
        value_ -= other.value_;
        return *this;
    }
    constexpr Quantity& operator*=(double factor) {
        value_ *= factor;
        return *this;
    }
    constexpr Quantity& operator/=(double factor) {
        value_ /= factor;
        return *this;
    }

    friend constexpr Quantity operator+(Quantity a, Quantity b) { return a += b; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return a -= b; }
    friend constexpr Quantity operator*(Quantity a, double factor) { return a *= factor; }
    friend constexpr Quantity operator*(double factor, Quantity a) { return a *= factor; }
    friend constexpr Quantity operator/(Quantity a, double factor) { return a /= factor; }

  private:
    explicit constexpr Quantity(double value) : value_(value) {}
    double value_ = 0;
};

namespace detail {
template <int L, int M, int T>
struct Made {
    using type = Quantity<L, M, T>;
    static constexpr type of(double value) { return type::si(value); }
};
template <>
struct Made<0, 0, 0> {
    using type = double;
    static constexpr double of(double value) { return value; }
};
}  // namespace detail

/// The ratio of two like quantities is a plain number.
template <int L, int M, int T, int L2, int M2, int T2>
constexpr typename detail::Made<L - L2, M - M2, T - T2>::type operator/(Quantity<L, M, T> a,
                                                                        Quantity<L2, M2, T2> b) {
    return detail::Made<L - L2, M - M2, T - T2>::of(a.si() / b.si());
}
template <int L, int M, int T, int L2, int M2, int T2>
constexpr typename detail::Made<L + L2, M + M2, T + T2>::type operator*(Quantity<L, M, T> a,
                                                                        Quantity<L2, M2, T2> b) {
    return detail::Made<L + L2, M + M2, T + T2>::of(a.si() * b.si());
}

using Length = Quantity<1, 0, 0>;
using Area = Quantity<2, 0, 0>;
using Volume = Quantity<3, 0, 0>;
using Mass = Quantity<0, 1, 0>;
using Duration = Quantity<0, 0, 1>;
using Density = Quantity<-3, 1, 0>;
using SpecificVolume = Quantity<3, -1, 0>;
/// Volume spread over an area: how thick a coat is.
using Coverage = Length;

constexpr Length mm(double v) {
    return Length::si(v * 1e-3);
}
constexpr Length m(double v) {
    return Length::si(v);
}
constexpr Length inches(double v) {
    return Length::si(v * 0.0254);
}
/// Desktop publishing points, 72 to the inch, as PDF has them.
constexpr Length points(double v) {
    return inches(v / 72);
}
constexpr Area cm2(double v) {
    return Area::si(v * 1e-4);
}
constexpr Area m2(double v) {
    return Area::si(v);
}
constexpr Area square_inches(double v) {
    return inches(1) * inches(v);
}
constexpr Volume mL(double v) {
    return Volume::si(v * 1e-6);
}
constexpr Volume L(double v) {
    return Volume::si(v * 1e-3);
}
constexpr Mass g(double v) {
    return Mass::si(v * 1e-3);
}
constexpr Duration seconds(double v) {
    return Duration::si(v);
}
constexpr Duration hours(double v) {
    return Duration::si(v * 3600);
}
constexpr Duration days(double v) {
    return Duration::si(v * 86400);
}
constexpr Density g_per_mL(double v) {
    return Density::si(v * 1e3);
}
constexpr SpecificVolume mL_per_g(double v) {
    return SpecificVolume::si(v * 1e-3);
}

constexpr double in_mm(Length v) {
    return v.si() * 1e3;
}
constexpr double in_m(Length v) {
    return v.si();
}
constexpr double in_points(Length v) {
    return v / points(1);
}
constexpr double in_cm2(Area v) {
    return v.si() * 1e4;
}
constexpr double in_m2(Area v) {
    return v.si();
}
constexpr double in_mL(Volume v) {
    return v.si() * 1e6;
}
constexpr double in_L(Volume v) {
    return v.si() * 1e3;
}
constexpr double in_g(Mass v) {
    return v.si() * 1e3;
}
constexpr double in_kg(Mass v) {
    return v.si();
}
constexpr double in_hours(Duration v) {
    return v.si() / 3600;
}
constexpr double in_days(Duration v) {
    return v.si() / 86400;
}
constexpr double in_g_per_mL(Density v) {
    return v.si() * 1e-3;
}
constexpr double in_mL_per_g(SpecificVolume v) {
    return v.si() * 1e3;
}

/// A point on the Celsius scale, not a difference.
struct Celsius {
    double degrees = 0;
    constexpr auto operator<=>(const Celsius&) const = default;
};

/// A part of a whole: 0.01 is one percent. Mass of mass, or volume of volume, as the context says.
struct Share {
    double fraction = 0;
    static constexpr Share percent(double p) { return Share{p / 100}; }
    [[nodiscard]] constexpr double in_percent() const { return fraction * 100; }
    constexpr auto operator<=>(const Share&) const = default;
};

/// A value known only within bounds: low <= usual <= high.
template <class Q>
struct Range {
    Q low, usual, high;
    static constexpr Range exactly(Q q) { return {q, q, q}; }
    [[nodiscard]] constexpr bool exact() const { return low == high; }
};

}  // namespace gallipot::units
