#include <algorithm>

#include "golden.hpp"
#include "hall.hpp"

namespace gallipot {
namespace {

using tests::Hall;
using tests::Ran;

/// `check` of the hall in a zone, its first bait set out at a time; which line of the file says so.
struct Checked {
    Checked(const std::string& zone, const std::string& placed) {
        const Hall hall;
        std::string text = tests::slurp(hall.job);
        const std::string old = "2027-03-02 19:30";
        text.replace(text.find(old), old.size(), placed);
        text.insert(text.find("title:"), "time_zone: " + zone + "\n");
        const auto at = text.find(placed);
        const auto line = std::count(text.begin(), text.begin() + static_cast<long>(at), '\n') + 1;
        place = hall.write("hall.yaml", text) + ":" + std::to_string(line) + ":";
        ran = Hall::run({"check", hall.job});
    }
    std::string place;
    Ran ran;
};

}  // namespace

// When clocks change, from the IANA time zone database, looked up with Debian's `zdump -v`.
TEST_CASE("a time that no clock shows is a warning at its place", "[command][check]") {
    const Checked berlin("Europe/Berlin", "2027-03-28 02:30");
    CHECK(berlin.ran.exit == 0);
    CHECK(berlin.ran.complains("no clock in Europe/Berlin shows 2027-03-28 02:30"));
    CHECK(berlin.ran.complains("write 2027-03-28 03:30"));
    const auto told = berlin.ran.err.find("[time-skipped]");
    REQUIRE(told != std::string::npos);
    const auto line = berlin.ran.err.rfind('\n', told) + 1;
    CHECK(berlin.ran.err.compare(line, berlin.place.size(), berlin.place) == 0);
}

TEST_CASE("a time that clocks show twice is told, any other is not", "[command][check]") {
    CHECK(Checked("Europe/Berlin", "2027-10-31 02:30").ran.complains("[time-shown-twice]"));
    for (const char* placed : {"2027-03-28 01:59", "2027-03-28 03:00", "2027-10-31 01:59",
                               "2027-10-31 03:00", "2027-06-01 02:30"}) {
        const Checked usual("Europe/Berlin", placed);
        CAPTURE(placed);
        CHECK_FALSE(usual.ran.complains("[time-"));
    }
    // Where clocks do not change that day.
    CHECK_FALSE(Checked("Australia/Brisbane", "2027-10-03 02:30").ran.complains("[time-"));
    CHECK(Checked("Australia/Sydney", "2027-10-03 02:30").ran.complains("write 2027-10-03 03:30"));
}

}  // namespace gallipot
