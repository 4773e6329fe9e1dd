#include "cli/terminal_code.hpp"

namespace gallipot::cli {

std::string terminal_code(const qr::Symbol& symbol, bool colours) {
    const int side = symbol.modules + 2 * qr::quiet_zone;
    const auto light = [&](int x, int y) {
        const int column = x - qr::quiet_zone;
        const int row = y - qr::quiet_zone;
        if (column < 0 || row < 0 || column >= symbol.modules || row >= symbol.modules) return true;
        const auto width = static_cast<std::size_t>(symbol.modules);
        return !symbol.dark.at(static_cast<std::size_t>(row) * width +
                               static_cast<std::size_t>(column));
    };
    std::string out;
    for (int y = 0; y < side; y += 2) {
        if (colours) out += "\x1b[97;40m";  // light blocks on black
        for (int x = 0; x < side; ++x) {
            const bool upper = light(x, y);
            const bool lower = y + 1 < side && light(x, y + 1);
            out += upper ? (lower ? "█" : "▀") : (lower ? "▄" : " ");
        }
        if (colours) out += "\x1b[0m";
        out += '\n';
    }
    return out;
}

}  // namespace gallipot::cli
