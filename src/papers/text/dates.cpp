#include "papers/text/dates.hpp"

#include <new>
#include <stdexcept>
#include <unicode/dtfmtsym.h>
#include <unicode/gregocal.h>
#include <unicode/timezone.h>

#include "papers/text/icu.hpp"

namespace gallipot::text {

namespace {

/// ICU makes a format without its words, and reports no error, where there is no memory for them.
void check_whole(const icu::SimpleDateFormat& format) {
    using Symbols = icu::DateFormatSymbols;
    const Symbols* symbols = format.getDateFormatSymbols();
    bool whole = symbols != nullptr && format.getNumberFormat() != nullptr;
    for (const auto context : {Symbols::FORMAT, Symbols::STANDALONE}) {
        for (const auto width : {Symbols::ABBREVIATED, Symbols::WIDE, Symbols::NARROW}) {
            std::int32_t count = 0;
            whole = whole && symbols->getMonths(count, context, width) != nullptr &&
                    symbols->getWeekdays(count, context, width) != nullptr;
        }
    }
    std::int32_t count = 0;
    if (!whole || symbols->getAmPmStrings(count) == nullptr) throw std::bad_alloc();
}

std::unique_ptr<icu::SimpleDateFormat> make(const std::string& pattern, const icu::Locale& locale,
                                            UErrorCode& status) {
    auto format = std::make_unique<icu::SimpleDateFormat>(to_icu(pattern), locale, status);
    if (U_FAILURE(status)) return nullptr;
    auto calendar =
        std::make_unique<icu::GregorianCalendar>(*icu::TimeZone::getGMT(), locale, status);
    if (U_FAILURE(status)) return nullptr;
    // The Gregorian calendar all through, as in std::chrono; ICU turns Julian before 1582.
    calendar->setGregorianChange(U_DATE_MIN, status);
    format->adoptCalendar(calendar.release());
    check_whole(*format);
    return format;
}

}  // namespace

DateWriter::DateWriter(const std::string& pattern, const icu::Locale& locale) {
    UErrorCode status = U_ZERO_ERROR;
    format_ = make(pattern, locale, status);
    require(status, "reading the date pattern '" + pattern + "'");
}

bool DateWriter::valid(const std::string& pattern, const icu::Locale& locale) {
    UErrorCode status = U_ZERO_ERROR;
    const auto format = make(pattern, locale, status);
    if (U_FAILURE(status)) return false;
    // ICU finds letters it does not know only when it writes.
    icu::UnicodeString text;
    icu::FieldPositionIterator* fields = nullptr;
    format->format(0.0, text, fields, status);
    return U_SUCCESS(status);
}

std::string DateWriter::write(std::chrono::local_time<std::chrono::minutes> time) const {
    const auto since =
        std::chrono::duration_cast<std::chrono::milliseconds>(time.time_since_epoch());
    icu::UnicodeString text;
    format_->format(static_cast<UDate>(since.count()), text);
    return to_utf8(text);
}

std::string DateWriter::write(std::chrono::year_month_day date) const {
    if (!date.ok()) throw std::logic_error("a date to be shown does not exist");
    return write(std::chrono::local_time<std::chrono::minutes>(std::chrono::local_days(date)));
}

}  // namespace gallipot::text
