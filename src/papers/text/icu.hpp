#pragma once

#include <string>
#include <string_view>
#include <unicode/locid.h>
#include <unicode/unistr.h>

/// The small change of working with ICU. No header outside this folder includes it.
namespace gallipot::text {

icu::UnicodeString to_icu(std::string_view utf8);
std::string to_utf8(const icu::UnicodeString& text);

/// ICU failed at what it cannot fail at with its own data in place: throws std::runtime_error
/// saying what we were doing and ICU's name for the fault.
void require(UErrorCode status, std::string_view doing);

/// Throws std::bad_alloc where there is no memory to speak of. Where ICU 72 reads the names of
/// months without any, it follows a pointer to nothing instead of saying so.
void require_memory();

/// The locale of `language` as written in `region` where ICU knows that pair, else the language's
/// own; English elsewhere is international English, never American by default. Always the
/// Gregorian calendar and the digits 0 to 9, as on the job file.
icu::Locale locale_for(const std::string& language, const std::string& region);

}  // namespace gallipot::text
