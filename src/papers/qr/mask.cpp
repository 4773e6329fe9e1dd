#include "papers/qr/mask.hpp"

#include <array>
#include <bit>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <mutex>
#include <vector>

namespace gallipot::qr {

namespace {

using qrcodegen::QrCode;

constexpr int masks = 8;
constexpr int maximum_modules = 17 + 4 * largest_version_scored;
static_assert(maximum_modules < 64);

/// What the four features of the evaluation cost (ISO/IEC 18004: N1 to N4).
constexpr long run_of_five = 3, block_of_four = 3, like_a_finder = 40, off_balance = 10;

using Line = std::uint64_t;  ///< bit i: the module at i is dark
using Lines = std::array<Line, maximum_modules>;

/// A symbol, or what two symbols differ in.
struct Modules {
    int size = 0;
    Lines rows{}, columns{};

    explicit Modules(const QrCode& code) : size(code.getSize()) {
        for (int y = 0; y < size; ++y) {
            for (int x = 0; x < size; ++x) {
                const Line dark = code.getModule(x, y) ? 1 : 0;
                rows[static_cast<std::size_t>(y)] |= dark << x;
                columns[static_cast<std::size_t>(x)] |= dark << y;
            }
        }
    }
    [[nodiscard]] std::vector<bool> row_by_row() const {
        std::vector<bool> dark;
        dark.reserve(static_cast<std::size_t>(size) * static_cast<std::size_t>(size));
        for (std::size_t y = 0; y < static_cast<std::size_t>(size); ++y)
            for (int x = 0; x < size; ++x) dark.push_back((rows[y] >> x & 1) != 0);
        return dark;
    }
    void flip(const Modules& other) {
        for (std::size_t i = 0; i < static_cast<std::size_t>(size); ++i) {
            rows[i] ^= other.rows[i];
            columns[i] ^= other.columns[i];
        }
    }
};

/// Bits from which on `length` bits in a row are set.
Line all_of(Line bits, int length) {
    Line found = bits;
    for (int i = 1; i < length; ++i) found &= bits >> i;
    return found;
}

/// Bits from which on at least one of `length` is set; what lies beyond the line is not.
Line any_of(Line bits, int length) {
    Line found = bits;
    for (int i = 1; i < length; ++i) found |= bits >> i;
    return found;
}

/// Bits before which at least one of `length` is set.
Line any_before(Line bits, int length) {
    Line found = bits << 1;
    for (int i = 2; i <= length; ++i) found |= bits << i;
    return found;
}

/// A run of five costs three, each module more costs one.
long runs(Line bits) {
    const Line five = all_of(bits, 5);
    return std::popcount(five) + (run_of_five - 1) * std::popcount(five & ~(five << 1));
}

/// How often dark, light, dark, light, dark stand as 1:1:3:1:1 of `unit` with light at least one
/// unit wide on both sides and four on one; with four on both it counts twice. Around a symbol all
/// is light.
int finder_patterns(Line dark, int unit) {
    const Line one = all_of(dark, unit);
    const Line three = one & (one >> unit) & (one >> 2 * unit);
    Line core = one & (three >> 2 * unit) & (one >> 6 * unit);
    if (core == 0) return 0;
    const Line any = any_of(dark, unit);
    core &= ~(any >> unit) & ~(any >> 5 * unit) & ~any_before(dark, unit) & ~(any >> 7 * unit);
    if (core == 0) return 0;
    return std::popcount(core & ~any_before(dark, 4 * unit)) +
           std::popcount(core & ~(any_of(dark, 4 * unit) >> 7 * unit));
}

long line_penalty(Line dark, Line whole, int size) {
    long sum = runs(dark) + runs(~dark & whole);
    int patterns = finder_patterns(dark, 1);
    // Wider ones need a run of six, which few lines have.
    if (all_of(dark, 6) != 0)
        for (int unit = 2; 7 * unit <= size; ++unit) patterns += finder_patterns(dark, unit);
    return sum + like_a_finder * patterns;
}

long penalty(const Modules& modules) {
    const int size = modules.size;
    const Line whole = (Line{1} << size) - 1;
    long sum = 0;
    long dark = 0;
    for (std::size_t i = 0; i < static_cast<std::size_t>(size); ++i) {
        sum += line_penalty(modules.rows[i], whole, size);
        sum += line_penalty(modules.columns[i], whole, size);
        dark += std::popcount(modules.rows[i]);
        if (i == 0) continue;
        const Line here = modules.rows[i], above = modules.rows[i - 1];
        const Line alike = ~(here ^ above), beside = ~(here ^ (here >> 1));
        sum += block_of_four * std::popcount(alike & (alike >> 1) & beside & (whole >> 1));
    }
    const long total = static_cast<long>(size) * size;
    const long steps = (std::labs(dark * 20 - total * 10) + total - 1) / total - 1;
    return sum + off_balance * steps;
}

/// What the symbols of a version and level with masks 0 and i differ in: it is the same whatever
/// they hold, so the library is asked once.
struct Differences {
    std::vector<Modules> to_mask;

    Differences(int version, QrCode::Ecc level) {
        const auto symbol = [&](int mask) {
            return Modules(QrCode::encodeSegments({}, level, version, version, mask, false));
        };
        const Modules first = symbol(0);
        for (int mask = 0; mask < masks; ++mask) {
            to_mask.push_back(symbol(mask));
            to_mask.back().flip(first);
        }
    }
};

const Differences& differences(int version, QrCode::Ecc level) {
    constexpr std::size_t levels = 4, count = largest_version_scored * levels;
    static std::array<std::once_flag, count> made;
    static std::array<std::unique_ptr<Differences>, count> all;
    const std::size_t at =
        static_cast<std::size_t>(version - 1) * levels + static_cast<std::size_t>(level);
    std::call_once(made.at(at),
                   [&] { all.at(at) = std::make_unique<Differences>(version, level); });
    return *all.at(at);
}

}  // namespace

Masked best_masked(const QrCode& first) {
    const auto& to_mask = differences(first.getVersion(), first.getErrorCorrectionLevel()).to_mask;
    const Modules unmasked(first);
    Masked best;
    Modules best_modules = unmasked;
    long minimum = penalty(unmasked);
    for (int mask = 1; mask < masks; ++mask) {
        Modules other = unmasked;
        other.flip(to_mask[static_cast<std::size_t>(mask)]);
        if (const long cost = penalty(other); cost < minimum) {
            minimum = cost;
            best.mask = mask;
            best_modules = other;
        }
    }
    best.dark = best_modules.row_by_row();
    return best;
}

}  // namespace gallipot::qr
