#include "base/image/pixels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace gallipot::image {
namespace {

/// Which pixels of a longer line one of a shorter line stands for, and how much of each.
struct Cover {
    int first = 0;
    std::vector<float> shares;
};

std::vector<Cover> covers(int from, int to) {
    std::vector<Cover> all;
    const double step = static_cast<double>(from) / to;
    for (int i = 0; i < to; ++i) {
        const double begin = i * step;
        const double end = std::min(begin + step, static_cast<double>(from));
        Cover cover{static_cast<int>(begin), {}};
        for (int at = cover.first; at < end && at < from; ++at)
            cover.shares.push_back(static_cast<float>(
                (std::min(end, at + 1.0) - std::max(begin, static_cast<double>(at))) / step));
        all.push_back(std::move(cover));
    }
    return all;
}

}  // namespace

Pixels Pixels::of(int width, int height) {
    return {width, height,
            std::vector<std::uint8_t>(static_cast<std::size_t>(width) *
                                      static_cast<std::size_t>(height) * channels)};
}

Pixels turned(Pixels from, int orientation) {
    if (orientation < 2 || orientation > 8) return from;
    const bool lying = orientation >= 5;
    Pixels to = lying ? Pixels::of(from.height, from.width) : Pixels::of(from.width, from.height);
    const bool from_right =
        orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8;
    const bool from_below =
        orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7;
    for (int y = 0; y < to.height; ++y)
        for (int x = 0; x < to.width; ++x) {
            int column = lying ? y : x;
            int row = lying ? x : y;
            if (from_right) column = from.width - 1 - column;
            if (from_below) row = from.height - 1 - row;
            std::copy_n(from.rgb.begin() + static_cast<std::ptrdiff_t>(from.at(column, row)),
                        Pixels::channels,
                        to.rgb.begin() + static_cast<std::ptrdiff_t>(to.at(x, y)));
        }
    return to;
}

Pixels shrunk(Pixels from, int longest) {
    const int longer = std::max(from.width, from.height);
    if (longer <= longest) return from;
    const auto side = [&](int length) {
        return std::max(1, static_cast<int>(std::lround(1.0 * length * longest / longer)));
    };
    Pixels to = Pixels::of(side(from.width), side(from.height));
    const std::vector<Cover> columns = covers(from.width, to.width);
    const std::vector<Cover> rows = covers(from.height, to.height);
    for (int y = 0; y < to.height; ++y) {
        const Cover& down = rows[static_cast<std::size_t>(y)];
        for (int x = 0; x < to.width; ++x) {
            const Cover& across = columns[static_cast<std::size_t>(x)];
            std::array<float, Pixels::channels> sum{};
            for (std::size_t j = 0; j < down.shares.size(); ++j) {
                const std::uint8_t* pixel =
                    from.rgb.data() + from.at(across.first, down.first + static_cast<int>(j));
                for (const float share : across.shares)
                    for (float& one : sum) one += share * down.shares[j] * *pixel++;
            }
            std::uint8_t* out = to.rgb.data() + to.at(x, y);
            for (const float one : sum)
                *out++ = static_cast<std::uint8_t>(std::clamp(one + 0.5F, 0.0F, 255.0F));
        }
    }
    return to;
}

}  // namespace gallipot::image
