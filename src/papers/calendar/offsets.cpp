#include "papers/calendar/offsets.hpp"

#include <memory>
#include <unicode/basictz.h>
#include <unicode/tzrule.h>
#include <unicode/tztrans.h>
#include <unicode/unistr.h>

namespace gallipot::calendar {

namespace {

namespace ch = std::chrono;

UDate to_icu(ch::local_seconds time) {
    return 1000.0 * static_cast<double>(time.time_since_epoch().count());
}

ch::seconds offset_of(const icu::TimeZoneRule& rule) {
    return ch::seconds((rule.getRawOffset() + rule.getDSTSavings()) / 1000);
}

Offset made(const icu::TimeZoneTransition& change) {
    Offset offset;
    offset.before = offset_of(*change.getFrom());
    offset.after = offset_of(*change.getTo());
    const auto instant = static_cast<std::int64_t>(change.getTime() / 1000);
    offset.from = ch::local_seconds(ch::seconds(instant) + offset.before);
    offset.daylight = change.getTo()->getDSTSavings() != 0;
    icu::UnicodeString name;
    change.getTo()->getName(name).toUTF8String(offset.name);
    return offset;
}

}  // namespace

std::vector<Offset> offsets(const std::string& zone, ch::local_seconds first,
                            ch::local_seconds last) {
    const std::unique_ptr<icu::TimeZone> found(
        icu::TimeZone::createTimeZone(icu::UnicodeString::fromUTF8(zone)));
    const auto* basic = dynamic_cast<const icu::BasicTimeZone*>(found.get());
    if (basic == nullptr || *found == icu::TimeZone::getUnknown()) return {};
    // A day earlier, since offsets differ by less than a day: the change before cannot be missed.
    icu::TimeZoneTransition change;
    std::vector<Offset> all;
    const UDate from = to_icu(first - ch::days(1));
    if (basic->getPreviousTransition(from, true, change)) {
        all.push_back(made(change));
        // Some readers work summer time out against the standard time before it.
        if (all.back().daylight && basic->getPreviousTransition(change.getTime(), false, change))
            all.insert(all.begin(), made(change));
    } else {
        UErrorCode status = U_ZERO_ERROR;
        std::int32_t raw = 0, saving = 0;
        basic->getOffset(from, false, raw, saving, status);
        const ch::seconds always((raw + saving) / 1000);
        all.push_back({ch::local_days(ch::year{1970} / 1 / 1), always, always, false, zone});
    }
    for (UDate at = from; basic->getNextTransition(at, false, change); at = change.getTime()) {
        Offset offset = made(change);
        if (offset.from > last) break;
        if (offset.before != offset.after) all.push_back(std::move(offset));
    }
    return all;
}

}  // namespace gallipot::calendar
