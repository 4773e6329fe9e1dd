#include "qr/symbol.hpp"

#include <algorithm>
#include <cstdint>
#include <fmt/format.h>
#include <qrcodegen/qrcodegen.hpp>

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

/// The library takes C strings for these, which end at the first zero byte.
bool alphanumeric(const std::string& text) {
    return text.find('\0') == std::string::npos && QrSegment::isAlphanumeric(text.c_str());
}

std::vector<QrSegment> segments(const std::string& text) {
    if (alphanumeric(text)) {
        if (QrSegment::isNumeric(text.c_str())) return {QrSegment::makeNumeric(text.c_str())};
        return {QrSegment::makeAlphanumeric(text.c_str())};
    }
    std::vector<QrSegment> parts;
    const bool ascii = std::all_of(text.begin(), text.end(),
                                   [](char c) { return static_cast<unsigned char>(c) < 0x80; });
    if (!ascii) parts.push_back(QrSegment::makeEci(eci_utf8));
    parts.push_back(QrSegment::makeBytes(std::vector<std::uint8_t>(text.begin(), text.end())));
    return parts;
}

/// The library tries all eight masks and keeps the one with the least penalty (ISO/IEC 18004,
/// data masking). This is where nearly all of the time goes; a faster scorer would stand here.
QrCode make(const std::vector<QrSegment>& parts, Level least) {
    return QrCode::encodeSegments(parts, to_library(least));
}

}  // namespace

char letter(Level level) {
    return "LMQH"[static_cast<int>(level)];
}

Symbol encode(std::string_view text, Level least) {
    Symbol symbol;
    symbol.content = text;
    symbol.alphanumeric = alphanumeric(symbol.content);
    try {
        const auto code = make(segments(symbol.content), least);
        symbol.version = code.getVersion();
        symbol.level = from_library(code.getErrorCorrectionLevel());
        symbol.mask = code.getMask();
        symbol.modules = code.getSize();
        symbol.dark.reserve(static_cast<std::size_t>(symbol.modules) * symbol.modules);
        for (int y = 0; y < symbol.modules; ++y)
            for (int x = 0; x < symbol.modules; ++x) symbol.dark.push_back(code.getModule(x, y));
    } catch (const qrcodegen::data_too_long&) {
        throw TooLong{fmt::format("a text of {} bytes does not fit into any QR code at level {}",
                                  text.size(), letter(least))};
    }
    return symbol;
}

}  // namespace gallipot::qr
