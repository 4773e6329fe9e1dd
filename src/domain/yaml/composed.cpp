#include "domain/yaml/composed.hpp"

#include <algorithm>
#include <stdexcept>
#include <unicode/bytestream.h>
#include <unicode/normalizer2.h>

namespace gallipot::yaml {

std::string composed(std::string_view text) {
    const auto ascii = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
    if (std::all_of(text.begin(), text.end(), ascii)) return std::string(text);
    UErrorCode status = U_ZERO_ERROR;
    const icu::Normalizer2* form = icu::Normalizer2::getNFCInstance(status);
    std::string result;
    if (form != nullptr && U_SUCCESS(status)) {
        icu::StringByteSink<std::string> sink(&result);
        form->normalizeUTF8(0, icu::StringPiece(text.data(), static_cast<int32_t>(text.size())),
                            sink, nullptr, status);
    }
    if (U_FAILURE(status)) throw std::runtime_error("ICU cannot compose a text");
    return result;
}

}  // namespace gallipot::yaml
