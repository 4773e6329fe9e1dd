#include "papers/qr/symbol.hpp"

#include <algorithm>
#include <cstdint>
#include <fmt/format.h>
#include <qrcodegen/qrcodegen.hpp>

#include "papers/qr/mask.hpp"

namespace gallipot::qr {

namespace {

using qrcodegen::QrCode;
using qrcodegen::QrSegment;

QrCode::Ecc to_library(Level level) {
    switch (level) {
        case Level::low:
            return QrCode::Ecc::LOW;
        case Level::medium:
            return QrCode::Ecc::MEDIUM;
        case Level::quartile:
            return QrCode::Ecc::QUARTILE;
        case Level::high:
            break;
    }
    return QrCode::Ecc::HIGH;
}

Level from_library(QrCode::Ecc level) {
    switch (level) {
        case QrCode::Ecc::LOW:
            return Level::low;
        case QrCode::Ecc::MEDIUM:
            return Level::medium;
        case QrCode::Ecc::QUARTILE:
            return Level::quartile;
        case QrCode::Ecc::HIGH:
            break;
    }
    return Level::high;
}

/// Extended channel interpretation 26 is UTF-8 (AIM ECI part 3). Without it a reader has to guess.
constexpr long eci_utf8 = 26;

std::vector<QrSegment> segments(const std::string& text) {
    switch (mode(text)) {
        case Mode::digits:
            return {QrSegment::makeNumeric(text.c_str())};
        case Mode::alphanumeric:
            return {QrSegment::makeAlphanumeric(text.c_str())};
        case Mode::ascii:
        case Mode::utf8:
            break;
    }
    std::vector<QrSegment> parts;
    if (mode(text) == Mode::utf8) parts.push_back(QrSegment::makeEci(eci_utf8));
    parts.push_back(QrSegment::makeBytes(std::vector<std::uint8_t>(text.begin(), text.end())));
    return parts;
}

QrCode made(const std::vector<QrSegment>& parts, Level minimum, int mask) {
    return QrCode::encodeSegments(parts, to_library(minimum), QrCode::MIN_VERSION,
                                  QrCode::MAX_VERSION, mask);
}

}  // namespace

Mode mode(std::string_view text) {
    constexpr std::string_view digits = "0123456789";
    constexpr std::string_view dense = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
    if (text.find_first_not_of(digits) == std::string_view::npos) return Mode::digits;
    if (text.find_first_not_of(dense) == std::string_view::npos) return Mode::alphanumeric;
    const bool ascii = std::all_of(text.begin(), text.end(),
                                   [](char c) { return static_cast<unsigned char>(c) < 0x80; });
    return ascii ? Mode::ascii : Mode::utf8;
}

char letter(Level level) {
    return "LMQH"[static_cast<int>(level)];
}

Symbol encode(std::string_view text, Level minimum) {
    Symbol symbol;
    symbol.content = text;
    symbol.alphanumeric = mode(text) <= Mode::alphanumeric;
    const auto fill = [&](const QrCode& code) {
        symbol.version = code.getVersion();
        symbol.level = from_library(code.getErrorCorrectionLevel());
        symbol.modules = code.getSize();
    };
    try {
        const auto parts = segments(symbol.content);
        const auto first = made(parts, minimum, 0);
        fill(first);
        if (first.getVersion() <= largest_version_scored) {
            auto [mask, dark] = best_masked(first);
            symbol.mask = mask;
            symbol.dark = std::move(dark);
            return symbol;
        }
        const auto code = made(parts, minimum, -1);
        symbol.mask = code.getMask();
        const auto side = static_cast<std::size_t>(symbol.modules);
        symbol.dark.reserve(side * side);
        for (int y = 0; y < symbol.modules; ++y)
            for (int x = 0; x < symbol.modules; ++x) symbol.dark.push_back(code.getModule(x, y));
    } catch (const qrcodegen::data_too_long&) {
        throw TooLong{fmt::format("a text of {} bytes does not fit into any QR code at level {}",
                                  text.size(), letter(minimum))};
    }
    return symbol;
}

}  // namespace gallipot::qr
