#include "tracking/log/zone.hpp"

#include <fmt/format.h>
#include <stdexcept>
#include <unicode/strenum.h>
#include <unicode/timezone.h>
#include <unicode/unistr.h>

#include "base/strings/dates.hpp"

namespace gallipot::log {
namespace ch = std::chrono;

struct Zone::Impl {
    std::unique_ptr<icu::TimeZone> zone;
};

Zone::Zone(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

std::optional<Zone> Zone::find(const std::string& name) {
    std::unique_ptr<icu::TimeZone> zone(
        icu::TimeZone::createTimeZone(icu::UnicodeString::fromUTF8(name)));
    if (zone == nullptr || *zone == icu::TimeZone::getUnknown()) return std::nullopt;
    return Zone(std::make_shared<const Impl>(Impl{std::move(zone)}));
}

std::vector<std::string> Zone::names() {
    std::vector<std::string> names;
    UErrorCode status = U_ZERO_ERROR;
    const std::unique_ptr<icu::StringEnumeration> all(icu::TimeZone::createTimeZoneIDEnumeration(
        UCAL_ZONE_TYPE_CANONICAL, nullptr, nullptr, status));
    while (U_SUCCESS(status)) {
        const char* name = all->next(nullptr, status);
        if (name == nullptr) break;
        names.emplace_back(name);
    }
    return names;
}

Zone Zone::of_machine() {
    std::unique_ptr<icu::TimeZone> zone(icu::TimeZone::detectHostTimeZone());
    if (zone == nullptr) zone.reset(icu::TimeZone::getGMT()->clone());
    return Zone(std::make_shared<const Impl>(Impl{std::move(zone)}));
}

std::string Zone::name() const {
    icu::UnicodeString id;
    impl_->zone->getID(id);
    std::string name;
    return id.toUTF8String(name);
}

LocalTime Zone::local(Instant instant) const {
    UErrorCode status = U_ZERO_ERROR;
    std::int32_t standard = 0;
    std::int32_t saving = 0;
    impl_->zone->getOffset(1000.0 * static_cast<double>(instant.time_since_epoch().count()), false,
                           standard, saving, status);
    if (U_FAILURE(status))
        throw std::logic_error(std::string("time zone offset: ") + u_errorName(status));
    const auto shifted = instant.time_since_epoch() + ch::seconds((standard + saving) / 1000);
    return LocalTime(ch::floor<ch::minutes>(shifted));
}

std::pair<ch::minutes, ch::minutes> Zone::ahead_around(LocalTime time) const {
    // No zone is ahead or behind by a day, so one instant lies before the time and one after it.
    const auto ahead_at = [this](Instant instant) {
        return ch::duration_cast<ch::minutes>(local(instant).time_since_epoch() -
                                              instant.time_since_epoch());
    };
    const Instant as_utc{time.time_since_epoch()};
    return {ahead_at(as_utc - ch::days(1)), ahead_at(as_utc + ch::days(1))};
}

Zone::Shown Zone::shown(LocalTime time) const {
    const auto [before, after] = ahead_around(time);
    const auto is_shown = [&](ch::minutes ahead) {
        return local(Instant{time.time_since_epoch() - ahead}) == time;
    };
    if (is_shown(before) && is_shown(after)) return before == after ? Shown::once : Shown::twice;
    return is_shown(before) || is_shown(after) ? Shown::once : Shown::never;
}

LocalTime Zone::instead_of(LocalTime time) const {
    const auto [before, after] = ahead_around(time);
    return time + (after - before);
}

std::string print_time(LocalTime time) {
    const auto day = ch::floor<ch::days>(time);
    const auto minutes = (time - day).count();
    return fmt::format("{} {:02}:{:02}", strings::iso_date(ch::year_month_day(day)), minutes / 60,
                       minutes % 60);
}

namespace {

/// Reads a text from left to right; once something did not fit, nothing does.
class Reader {
  public:
    explicit Reader(std::string_view text) : rest_(text) {}

    int digits(std::size_t count) {
        int value = 0;
        for (std::size_t i = 0; i < count; ++i) {
            if (rest_.empty() || rest_[0] < '0' || rest_[0] > '9') {
                good_ = false;
                return 0;
            }
            value = value * 10 + (rest_[0] - '0');
            rest_.remove_prefix(1);
        }
        return value;
    }
    bool take(char c) {
        if (rest_.empty() || rest_[0] != c) return false;
        rest_.remove_prefix(1);
        return true;
    }
    void need(bool true_for_good) { good_ = good_ && true_for_good; }
    [[nodiscard]] bool good() const { return good_; }
    [[nodiscard]] bool at_end() const { return rest_.empty(); }

  private:
    std::string_view rest_;
    bool good_ = true;
};

}  // namespace

std::optional<LocalTime> parse_time(std::string_view text, const Zone& zone) {
    Reader in(text);
    const int year = in.digits(4);
    in.need(in.take('-'));
    const int month = in.digits(2);
    in.need(in.take('-'));
    const int day = in.digits(2);
    in.need(in.take('T') || in.take(' '));
    const int hour = in.digits(2);
    in.need(in.take(':'));
    const int minute = in.digits(2);
    int second = 0;
    if (in.take(':')) second = in.digits(2);
    const ch::year_month_day date{ch::year(year), ch::month(static_cast<unsigned>(month)),
                                  ch::day(static_cast<unsigned>(day))};
    in.need(date.ok() && year >= 1900 && hour < 24 && minute < 60 && second < 60);
    if (!in.good()) return std::nullopt;
    const auto wall = ch::local_days(date) + ch::hours(hour) + ch::minutes(minute);
    if (in.at_end()) return wall;

    ch::minutes offset{0};
    if (!in.take('Z')) {
        const bool west = in.take('-');
        in.need(west || in.take('+'));
        const int hours = in.digits(2);
        in.take(':');
        const int minutes = in.digits(2);
        in.need(hours <= 14 && minutes < 60);
        offset = ch::hours(hours) + ch::minutes(minutes);
        if (west) offset = -offset;
    }
    in.need(in.at_end());
    if (!in.good()) return std::nullopt;
    return zone.local(Instant(wall.time_since_epoch() - offset + ch::seconds(second)));
}

}  // namespace gallipot::log
