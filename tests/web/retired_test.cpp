// The codes of stations that were renamed, taken up, or are no longer in the job.
#include "catch_all.hpp"

#include "house.hpp"

namespace gallipot::web {
namespace {

using tests::header;
using tests::House;

bool has(const std::string& page, const std::string& part) {
    return page.find(part) != std::string::npos;
}

/// The hall with more keys at some stations.
std::function<void(std::string&)> with(const std::map<std::string, std::string>& more) {
    return [more](std::string& job) {
        for (const auto& [id, keys] : more) {
            const std::string start = "- { id: " + id + ",";
            job.insert(job.find(start) + start.size(), " " + keys + ",");
        }
    };
}

TEST_CASE("an old label opens the page of the station as it is called today") {
    House house({}, false, with({{"K1", "was: [B7]"}}));
    visit::Visit before;
    before.station = "B7";
    before.time = log::LocalTime(std::chrono::local_days(std::chrono::year{2027} / 3 / 9)) +
                  std::chrono::hours(9);
    before.seen = 17;
    house.visits().record({before, "", {}}, house.now);
    const Response page = house.get(house.station("B7"));
    CHECK(page.status == 200);
    CHECK(has(page.body, "<h1>K1 · Kitchen, behind the bins</h1>"));
    CHECK(has(page.body, "17 alive"));
    CHECK(has(house.get(house.station("K1")).body, "17 alive"));
    // Its form is sent to the old address, with the old key, and is a visit to the station.
    const std::string key = house.station("B7").substr(6);
    CHECK(has(page.body, "action=\"" + key));
    const Response saved = house.post(house.station("B7"), "token=a&seen=9");
    CHECK(saved.status == 303);
    REQUIRE(house.recorded("K1").size() == 2);
    CHECK(house.recorded("K1")[0].visit.station == "K1");
    CHECK(house.get("/S/B7/" + header(saved, "Location")).status == 200);
    // An entry from before the renaming is corrected there too.
    CHECK(house.get(house.station("K1") + "/CORRECT/1").status == 200);
    // The key goes with the name on the label.
    CHECK(house.get("/S/K1/" + key).status == 404);
    CHECK(house.get("/S/B7/" + house.station("K1").substr(6)).status == 404);
}

TEST_CASE("a station that was taken up says so, with first aid and what was seen, and no form") {
    House house({}, false, with({{"K2", "until: 2027-03-18"}}));
    visit::Visit before;
    before.station = "K2";
    before.time = log::LocalTime(std::chrono::local_days(std::chrono::year{2027} / 3 / 9)) +
                  std::chrono::hours(9);
    before.seen = 17;
    house.visits().record({before, "", {}}, house.now);
    const Response page = house.get(house.station("K2"));
    CHECK(page.status == 200);
    CHECK(has(page.body, "Taken up on 18 March 2027"));
    CHECK(has(page.body, "do not touch it"));
    CHECK(has(page.body, "17 alive"));
    CHECK(has(page.body, "id=\"first-aid\""));
    CHECK(has(page.body, "tel:131126"));
    CHECK(has(page.body, "Poison bait. Not food."));
    CHECK_FALSE(has(page.body, "name=\"seen\""));
    CHECK_FALSE(has(house.get(house.overview()).body, house.station("K2")));
    for (const auto& language : {"es", "de", "fil", "uk"})
        CHECK_FALSE(has(house.get(house.station("K2"), language).body, "Taken up"));
    // A form that was opened before then is still recorded.
    CHECK(house.post(house.station("K2"), "token=a&seen=9").status == 303);
}

TEST_CASE("until its last day a station is one like others") {
    House house({}, false, with({{"K2", "until: 2027-03-19"}}));
    const std::string page = house.get(house.station("K2")).body;
    CHECK(has(page, "name=\"seen\""));
    CHECK_FALSE(has(page, "Taken up on"));
}

TEST_CASE("of the last of a mix, what stood there is still said") {
    House house({}, false, with({{"K2", "until: 2027-03-18"}, {"R1", "until: 2027-03-18"}}));
    CHECK(house.context().plan.mix("dry") == nullptr);
    const std::string page = house.get(house.station("R1")).body;
    CHECK(has(page, "Poison bait. Not food."));
    CHECK(has(page, "Dry bait, against cockroaches"));
    CHECK(has(page, "icing sugar"));
}

TEST_CASE("a label of a station that is no longer in the job says so, a wrong key nothing") {
    House house;
    const Response page = house.get(house.station("Z9"));
    CHECK(page.status == 410);
    CHECK(has(page.body, "Z9 is no longer in this job"));
    CHECK(has(page.body, "id=\"first-aid\""));
    CHECK(has(page.body, "tel:131126"));
    CHECK(header(page, "Set-Cookie").empty());
    CHECK(house.post(house.station("Z9"), "token=a&seen=9").status == 410);
    CHECK(house.recorded("Z9").empty());
    CHECK(house.get("/S/Z9/" + house.station("K1").substr(6)).status == 404);
    CHECK(house.get("/S/Z9/0000000000").body == house.get("/S/K1/0000000000").body);
}

TEST_CASE("the place of today is shown, and the link of a moved station stays") {
    House house({}, false,
                with({{"K2", "changes: [{ on: 2027-03-15, place: Behind the stove }]"}}));
    CHECK(has(house.get(house.station("K2")).body, "<h1>K2 · Behind the stove</h1>"));
}

}  // namespace
}  // namespace gallipot::web
