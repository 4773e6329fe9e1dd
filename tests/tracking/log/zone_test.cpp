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
