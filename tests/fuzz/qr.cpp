#include <algorithm>
#include <qrcodegen/qrcodegen.hpp>

#include "fuzz.hpp"
#include "papers/qr/symbol.hpp"

/// A text as a QR symbol: module for module what the library makes of it when it is left to choose
/// the mask by itself (ISO/IEC 18004, data masking). The first byte chooses the level.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    using qrcodegen::QrCode;
    using qrcodegen::QrSegment;
    if (size < 2) return 0;
    const int level = data[0] % 4;
    const std::string text = text_of(data + 1, size - 1);

    const bool c_string = text.find('\0') == std::string::npos;
    std::vector<QrSegment> segments;
    if (c_string && QrSegment::isNumeric(text.c_str())) {
        segments.push_back(QrSegment::makeNumeric(text.c_str()));
    } else if (c_string && QrSegment::isAlphanumeric(text.c_str())) {
        segments.push_back(QrSegment::makeAlphanumeric(text.c_str()));
    } else {
        const auto plain = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
        if (!std::all_of(text.begin(), text.end(), plain))
            segments.push_back(QrSegment::makeEci(26));  // UTF-8
        segments.push_back(QrSegment::makeBytes({text.begin(), text.end()}));
    }
    constexpr QrCode::Ecc levels[] = {QrCode::Ecc::LOW, QrCode::Ecc::MEDIUM, QrCode::Ecc::QUARTILE,
                                      QrCode::Ecc::HIGH};
    try {
        const auto theirs = QrCode::encodeSegments(segments, levels[level]);
        const auto ours = qr::encode(text, static_cast<qr::Level>(level));
        require(ours.version == theirs.getVersion() && ours.mask == theirs.getMask() &&
                    ours.modules == theirs.getSize(),
                "version, mask and size are the library's", text);
        for (int y = 0; y < ours.modules; ++y)
            for (int x = 0; x < ours.modules; ++x)
                require(ours.dark.at(static_cast<std::size_t>(y * ours.modules + x)) ==
                            theirs.getModule(x, y),
                        "every module is the library's", text);
    } catch (const qrcodegen::data_too_long&) {
        try {
            qr::encode(text, static_cast<qr::Level>(level));
            require(false, "what is too long is refused", text);
        } catch (const qr::TooLong& refused) {
            require(!refused.message.empty(), "what is refused is told");
        }
    }
    return 0;
}
