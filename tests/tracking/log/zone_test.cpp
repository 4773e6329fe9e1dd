#include "tracking/log/zone.hpp"

#include "catch_all.hpp"

#include "plan_for_tests.hpp"

namespace gallipot::log {
namespace {

using tests::at;

Instant utc(int year, unsigned month, unsigned day, int hour, int minute) {
    return Instant(at(year, month, day, hour, minute).time_since_epoch());
}

// Offsets and changes from the IANA time zone database, looked up with Debian's `date`:
//   TZ=Australia/Sydney date -d '2027-04-03 16:00 UTC'  and so on.
TEST_CASE("zone: the wall clock where the job is") {
    const Zone sydney = Zone::find("Australia/Sydney").value();
    CHECK(sydney.name() == "Australia/Sydney");
    CHECK(sydney.local(utc(2027, 3, 2, 8, 30)) == at(2027, 3, 2, 19, 30));
    // Summer time ends on 4 April 2027 at 3:00.
    CHECK(sydney.local(utc(2027, 4, 3, 15, 59)) == at(2027, 4, 4, 2, 59));
    CHECK(sydney.local(utc(2027, 4, 3, 16, 0)) == at(2027, 4, 4, 2, 0));
    const Zone kathmandu = Zone::find("Asia/Kathmandu").value();
    CHECK(kathmandu.local(utc(2027, 1, 1, 0, 0)) == at(2027, 1, 1, 5, 45));
    CHECK_FALSE(Zone::find("Middle/Nowhere"));
    CHECK_FALSE(Zone::find(""));
}

// When clocks change: Debian's `zdump -v -c 2027,2028 Australia/Sydney` and so on.
TEST_CASE("zone: times that clocks skip or show twice") {
    using Shown = Zone::Shown;
    const Zone sydney = Zone::find("Australia/Sydney").value();
    CHECK(sydney.shown(at(2027, 10, 3, 1, 59)) == Shown::once);
    for (const int minute : {0, 30, 59})
        CHECK(sydney.shown(at(2027, 10, 3, 2, minute)) == Shown::never);
    CHECK(sydney.shown(at(2027, 10, 3, 3, 0)) == Shown::once);
    CHECK(sydney.instead_of(at(2027, 10, 3, 2, 30)) == at(2027, 10, 3, 3, 30));
    CHECK(sydney.shown(at(2027, 4, 4, 1, 59)) == Shown::once);
    for (const int minute : {0, 30, 59})
        CHECK(sydney.shown(at(2027, 4, 4, 2, minute)) == Shown::twice);
    CHECK(sydney.shown(at(2027, 4, 4, 3, 0)) == Shown::once);
    // Half an hour.
    const Zone lord_howe = Zone::find("Australia/Lord_Howe").value();
    CHECK(lord_howe.shown(at(2027, 10, 3, 2, 15)) == Shown::never);
    CHECK(lord_howe.shown(at(2027, 10, 3, 2, 30)) == Shown::once);
    CHECK(lord_howe.instead_of(at(2027, 10, 3, 2, 15)) == at(2027, 10, 3, 2, 45));
    CHECK(lord_howe.shown(at(2027, 4, 4, 1, 45)) == Shown::twice);
    CHECK(lord_howe.shown(at(2027, 4, 4, 1, 15)) == Shown::once);
    // A whole day, when the date line moved.
    const Zone apia = Zone::find("Pacific/Apia").value();
    CHECK(apia.shown(at(2011, 12, 30, 12, 0)) == Shown::never);
    CHECK(apia.shown(at(2011, 12, 29, 23, 59)) == Shown::once);
    CHECK(apia.shown(at(2011, 12, 31, 0, 0)) == Shown::once);
    CHECK(Zone::find("UTC")->shown(at(2027, 3, 28, 2, 30)) == Shown::once);
}

TEST_CASE("zone: seconds are dropped, before 1970 too") {
    const Zone zone = Zone::find("UTC").value();
    CHECK(zone.local(Instant(std::chrono::seconds(59))) == at(1970, 1, 1, 0, 0));
    CHECK(zone.local(Instant(std::chrono::seconds(-1))) == at(1969, 12, 31, 23, 59));
}

TEST_CASE("zone: times as people and programs write them") {
    const Zone zone = Zone::find("America/Los_Angeles").value();
    CHECK(print_time(at(2027, 3, 18, 8, 5)) == "2027-03-18 08:05");
    CHECK(parse_time("2027-03-18 08:05", zone) == at(2027, 3, 18, 8, 5));
    CHECK(parse_time("2027-03-18T08:05", zone) == at(2027, 3, 18, 8, 5));
    CHECK(parse_time("2027-03-18T08:05:59", zone) == at(2027, 3, 18, 8, 5));
    CHECK(parse_time("2027-03-18T08:05:00Z", zone) == at(2027, 3, 18, 1, 5));
    CHECK(parse_time("2027-03-18T08:05+11:00", zone) == at(2027, 3, 17, 14, 5));
    CHECK(parse_time("2027-03-18T08:05-0330", zone) == at(2027, 3, 18, 4, 35));
    CHECK(parse_time("2028-02-29 00:00", zone) == at(2028, 2, 29, 0, 0));
    for (const char* bad :
         {"", "2027-03-18", "2027-02-29 08:05", "2027-13-01 08:05", "2027-03-18 24:00",
          "2027-03-18 08:60", "2027-03-18 8:05", "18/03/2027 08:05", "2027-03-18 08:05 ",
          "2027-03-18 08:05 PM", "2027-03-18 08:05+11:0", "2027-03-18 08:05+15:00",
          "2027-03-18 08:05Zulu", "0027-03-18 08:05", "2027-03-18  08:05", "tomorrow"}) {
        INFO(bad);
        CHECK_FALSE(parse_time(bad, zone));
    }
}

}  // namespace
}  // namespace gallipot::log
