#include <zbar.h>

#include "papers/layout/decoders.hpp"

namespace gallipot::tests {

using namespace zbar;

std::multiset<std::string> read_by_zbar(const Image& image) {
    constexpr unsigned long grey = 'Y' | '8' << 8 | '0' << 16 | '0' << 24;  // its name in zbar.h
    std::multiset<std::string> found;
    zbar_image_scanner_t* scanner = zbar_image_scanner_create();
    zbar_image_scanner_set_config(scanner, ZBAR_NONE, ZBAR_CFG_ENABLE, 0);
    zbar_image_scanner_set_config(scanner, ZBAR_QRCODE, ZBAR_CFG_ENABLE, 1);
    zbar_image_t* picture = zbar_image_create();
    zbar_image_set_format(picture, grey);
    zbar_image_set_size(picture, static_cast<unsigned>(image.width),
                        static_cast<unsigned>(image.height));
    zbar_image_set_data(picture, image.grey.data(), image.grey.size(), nullptr);
    zbar_scan_image(scanner, picture);
    for (const auto* symbol = zbar_image_first_symbol(picture); symbol != nullptr;
         symbol = zbar_symbol_next(symbol))
        found.emplace(zbar_symbol_get_data(symbol), zbar_symbol_get_data_length(symbol));
    zbar_image_destroy(picture);
    zbar_image_scanner_destroy(scanner);
    return found;
}

}  // namespace gallipot::tests
