#include "papers/layout/decoders.hpp"

#define ZX_USE_UTF8 1
#include <ZXing/ReadBarcode.h>

namespace gallipot::tests {

// As the library called them up to version 2.1, and since.
#if __has_include(<ZXing/ReaderOptions.h>)
using Options = ZXing::ReaderOptions;
#else
using Options = ZXing::DecodeHints;
#endif

std::string read_by_zxing(const Image& image) {
    const Options hints = Options().setFormats(ZXing::BarcodeFormat::QRCode).setTryHarder(true);
    return ZXing::ReadBarcode(
               {image.grey.data(), image.width, image.height, ZXing::ImageFormat::Lum}, hints)
        .text();
}

}  // namespace gallipot::tests
