#include "papers/text/icu.hpp"

#include <cstdlib>
#include <new>
#include <stdexcept>
#include <string_view>
#include <unicode/uloc.h>

namespace gallipot::text {

icu::UnicodeString to_icu(std::string_view utf8) {
    return icu::UnicodeString::fromUTF8(
        icu::StringPiece(utf8.data(), static_cast<int>(utf8.size())));
}

std::string to_utf8(const icu::UnicodeString& text) {
    std::string utf8;
    text.toUTF8String(utf8);
    return utf8;
}

void require(UErrorCode status, std::string_view doing) {
    if (status == U_MEMORY_ALLOCATION_ERROR) throw std::bad_alloc();
    if (U_FAILURE(status)) {
        throw std::runtime_error("ICU: " + std::string(doing) + ": " + u_errorName(status));
    }
}

void require_memory() {
    constexpr std::size_t enough = 100'000;  // below what malloc gives back to the system at once
    void* volatile block = std::malloc(enough);
    if (block == nullptr) throw std::bad_alloc();
    std::free(block);
}

icu::Locale locale_for(const std::string& language, const std::string& region) {
    const icu::Locale wanted(language.c_str(), region.c_str());
    // Their names alone: Locale::getAvailableLocales() makes 800 objects first.
    bool known = false;
    for (std::int32_t i = 0; i < uloc_countAvailable() && !known; ++i)
        known = std::string_view(uloc_getAvailable(i)) == wanted.getName();
    icu::Locale locale =
        known ? wanted : icu::Locale(language.c_str(), language == "en" ? "001" : "");
    UErrorCode status = U_ZERO_ERROR;
    locale.setKeywordValue("calendar", "gregorian", status);
    locale.setKeywordValue("numbers", "latn", status);
    require(status, "choosing the locale");
    return locale;
}

}  // namespace gallipot::text
