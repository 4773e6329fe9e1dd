#include "layout/decoders.hpp"

#define ZX_USE_UTF8 1
#include <ZXing/ReadBarcode.h>

namespace gallipot::tests {

std::string read_by_zxing(const Image& image) {
    const ZXing::DecodeHints hints =
        ZXing::DecodeHints().setFormats(ZXing::BarcodeFormat::QRCode).setTryHarder(true);
    return ZXing::ReadBarcode(
               {image.grey.data(), image.width, image.height, ZXing::ImageFormat::Lum}, hints)
        .text();
}

}  // namespace gallipot::tests
