#include <map>
#include <memory>
#include <unicode/brkiter.h>
#include <unicode/utext.h>

#include "papers/text/catalog.hpp"
#include "papers/text/date_breaks.hpp"
#include "papers/text/icu.hpp"

namespace gallipot::text {

namespace {

icu::BreakIterator& iterator_for(const std::string& language) {
    // Making one takes far longer than using it, and using it changes it: one a thread.
    thread_local std::map<std::string, std::unique_ptr<icu::BreakIterator>> iterators;
    auto& iterator = iterators[language];
    if (!iterator) {
        UErrorCode status = U_ZERO_ERROR;
        iterator.reset(
            icu::BreakIterator::createLineInstance(icu::Locale(language.c_str()), status));
        require(status, "making a line breaker");
    }
    return *iterator;
}

struct CloseText {
    void operator()(UText* text) const { utext_close(text); }
};

}  // namespace

std::vector<Break> line_breaks(std::string_view text, const std::string& language) {
    std::vector<Break> breaks;
    if (text.empty()) return breaks;
    UErrorCode status = U_ZERO_ERROR;
    const std::unique_ptr<UText, CloseText> units(
        utext_openUTF8(nullptr, text.data(), static_cast<std::int64_t>(text.size()), &status));
    require(status, "opening a text");
    icu::BreakIterator& iterator = iterator_for(language);
    iterator.setText(units.get(), status);
    require(status, "breaking a text");
    iterator.first();
    for (auto at = iterator.next(); at != icu::BreakIterator::DONE; at = iterator.next()) {
        const auto offset = static_cast<std::size_t>(at);
        const bool mandatory = iterator.getRuleStatus() >= UBRK_LINE_HARD;
        if (mandatory || !parts_date(text, offset, language)) breaks.push_back({offset, mandatory});
    }
    return breaks;
}

}  // namespace gallipot::text
