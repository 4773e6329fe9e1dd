#include "papers/calendar/visits.hpp"

#include <algorithm>
#include <set>
#include <sstream>

#include "catch_all.hpp"

using namespace gallipot;
using namespace std::chrono_literals;

namespace {

text::Catalog english() {
    diag::Diagnostics out;
    text::Catalog words(std::string(GALLIPOT_SOURCE_DIR) + "/templates", "en", "AU", out);
    REQUIRE_FALSE(out.has_errors());
    return words;
}

struct Made {
    job::Job job;
    plan::Plan plan;
};

job::LocalTime at(int day, std::chrono::minutes clock) {
    return job::LocalTime(std::chrono::local_days(std::chrono::year{2027} / 3 / day) + clock);
}

/// Stations A and B, walked B first.
Made made(std::vector<job::LocalTime> of_a, std::vector<job::LocalTime> of_b) {
    Made it;
    it.job.title.value = "Hall; north, side";
    it.job.prepared.value = std::chrono::year{2027} / 3 / 2;
    for (const char* id : {"A", "B"}) {
        job::Station station;
        station.id.value = id;
        station.place.value = std::string("Place of ") + id;
        it.job.stations.push_back(station);
        plan::Station planned;
        planned.id = id;
        it.plan.stations.push_back(planned);
    }
    it.plan.stations[0].visits = std::move(of_a);
    it.plan.stations[1].visits = std::move(of_b);
    it.plan.walk = {1, 0};
    return it;
}

/// The lines, unfolded, that begin with `start`.
std::vector<std::string> lines(const std::string& file, const std::string& start) {
    std::string whole = file;
    for (auto at = whole.find("\r\n "); at != std::string::npos; at = whole.find("\r\n ", at))
        whole.erase(at, 3);
    std::vector<std::string> found;
    std::istringstream in(whole);
    for (std::string one; std::getline(in, one);)
        if (one.starts_with(start)) found.push_back(one.substr(0, one.size() - 1));
    return found;
}

}  // namespace

TEST_CASE("a round is one event, at one time", "[calendar]") {
    auto it = made({at(2, 20h), at(3, 19h), at(4, 19h)}, {at(2, 20h + 30min), at(3, 9h)});
    const std::string file = calendar::visits(it.job, it.plan, english());
    CHECK(lines(file, "DTSTART") == std::vector<std::string>{"DTSTART:20270302T203000",
                                                             "DTSTART:20270303T190000",
                                                             "DTSTART:20270304T190000"});
    CHECK(lines(file, "DTEND").front() == "DTEND:20270302T204000");
    CHECK(lines(file, "DESCRIPTION").front() == "DESCRIPTION:B\\, Place of B\\nA\\, Place of A");
    CHECK(lines(file, "SUMMARY").front() == "SUMMARY:Hall\\; north\\, side: 2 stations to visit");
    CHECK(lines(file, "DTSTAMP").back() == "DTSTAMP:20270302T000000Z");
    const auto ids = lines(file, "UID");
    CHECK(std::set<std::string>(ids.begin(), ids.end()).size() == 3);
    CHECK(file == calendar::visits(it.job, it.plan, english()));

    it.plan.round_within = units::hours(3);
    CHECK(lines(calendar::visits(it.job, it.plan, english()), "DTSTART") ==
          std::vector<std::string>{"DTSTART:20270302T203000", "DTSTART:20270303T090000",
                                   "DTSTART:20270303T190000", "DTSTART:20270304T190000"});
}

TEST_CASE("one count goes before a round of setting out, when its first is set out", "[calendar]") {
    auto it = made({at(3, 20h)}, {at(3, 19h)});
    it.plan.stations[0].placed = at(2, 20h);
    it.plan.stations[1].placed = at(2, 19h);
    const std::string file = calendar::visits(it.job, it.plan, english());
    CHECK(lines(file, "DTSTART") ==
          std::vector<std::string>{"DTSTART:20270302T190000", "DTSTART:20270303T200000"});
    CHECK(lines(file, "UID").front().starts_with("UID:20270302-1-count-"));
}

TEST_CASE("an event keeps its id when another station joins the walk", "[calendar]") {
    const auto before = made({at(2, 20h)}, {});
    const auto after = made({at(2, 20h)}, {at(2, 19h)});
    CHECK(lines(calendar::visits(before.job, before.plan, english()), "UID") ==
          lines(calendar::visits(after.job, after.plan, english()), "UID"));
}

TEST_CASE("times carry the job's zone and its rules", "[calendar]") {
    auto it = made({at(2, 20h), at(30, 20h)}, {});
    it.job.time_zone = diag::At<std::string>{"Europe/Berlin", {}};
    const std::string file = calendar::visits(it.job, it.plan, english());
    CHECK(lines(file, "DTSTART;").front() == "DTSTART;TZID=Europe/Berlin:20270302T200000");
    // Summer time begins on the last Sunday of March (Directive 2000/84/EC, from memory).
    const auto starts = lines(file, "DTSTART:");
    CHECK(std::find(starts.begin(), starts.end(), "DTSTART:20270328T020000") != starts.end());
    it.job.time_zone.reset();
    CHECK(calendar::visits(it.job, it.plan, english()).find("VTIMEZONE") == std::string::npos);
}

TEST_CASE("no visits, no calendar", "[calendar]") {
    const auto it = made({}, {});
    CHECK(calendar::visits(it.job, it.plan, english()).empty());
}
