#include "web/app.hpp"

#include <fstream>
#include <regex>
#include <unistd.h>

#include "catch_all.hpp"

#include "house.hpp"
#include "tracking/keys/hash.hpp"

namespace gallipot::web {
namespace {

using tests::header;
using tests::hidden_value;
using tests::House;
using tests::times;

bool has(const std::string& page, const std::string& part) {
    return page.find(part) != std::string::npos;
}

/// What the answer to a good form leads to.
std::string where_to(const Response& response) {
    CHECK(response.status == 303);
    return header(response, "Location");
}

TEST_CASE("station page: what it is and whom to call before anything else") {
    House house;
    const Response page = house.get(house.station("K1"));
    CHECK(page.status == 200);
    CHECK(page.type == "text/html; charset=utf-8");
    const std::string& html = page.body;
    CHECK(html.find("Poison bait. Not food.") < html.find("<h1>"));
    CHECK(html.find("href=\"tel:131126\"") < html.find("<h1>"));
    CHECK(html.find("href=\"#first-aid\"") < html.find("<h1>"));
    CHECK(has(html, "id=\"first-aid\""));
    CHECK(has(html, "<h1>K1 · Kitchen, behind the bins</h1>"));
    CHECK(has(html, "Sweet liquid bait, against ants"));
    CHECK(has(html, "borax 0.68\u00a0g, sugar 17\u00a0g, water"));
    CHECK(has(html, "2 March 2027, 19:30"));
    CHECK(html.size() < 30'000);
}

TEST_CASE("station page: of a control and of a sprayed surface, only what can be said there") {
    House house;
    const std::string control = house.get(house.station("C1")).body;
    CHECK(has(control, "Counting place. No bait here."));
    CHECK(has(control, "name=\"seen\""));
    CHECK_FALSE(has(control, "name=\"level\""));
    CHECK_FALSE(has(control, "name=\"state\""));
    const std::string sprayed = house.get(house.station("S1")).body;
    CHECK(has(sprayed, "Sprayed wood."));
    CHECK_FALSE(has(sprayed, "name=\"level\""));
}

TEST_CASE("station page: of termites, that a colony goes on, what not to do and whom to ask") {
    House house({}, false, [](std::string& job) {
        const std::string borers = "against: wood borers";
        job.replace(job.find(borers), borers.size(), "against: termites");
    });
    for (const std::string language : {"en", "es", "de", "fil", "uk"}) {
        const std::string page = house.get(house.station("S1"), language).body;
        INFO(language);
        const text::Catalog& words = *house.context().words.at(language);
        for (const char* key :
             {"advice.termites.colony", "advice.termites.leave", "advice.termites.ask"})
            CHECK(has(page, "<p><b>" + words(key) + "</b></p>"));
    }
}

TEST_CASE("station page: in the phone's language if the job has it") {
    House house;
    const std::string path = house.station("K1");
    CHECK(has(house.get(path, "de-AT,de;q=0.9,en;q=0.5").body, "<html lang=\"de"));
    CHECK(has(house.get(path, "fr, es;q=0.3, en;q=0.2").body, "<html lang=\"es"));
    CHECK(has(house.get(path, "fr").body, "<html lang=\"en"));
    CHECK(has(house.get(path, "tl-PH").body, "<html lang=\"fil"));
    CHECK(has(house.get(path, "uk;q=0, en;q=0.1").body, "<html lang=\"en"));
    CHECK(has(house.get(path, "*;q=,,;;q=9").body, "<html lang=\"en"));
    for (const char* language : {"en", "es", "de", "fil", "uk"}) {
        const Response page = house.get(path, language);
        CHECK(page.status == 200);
        CHECK(page.body.size() < 30'000);
    }
    Request by_hand = House::request("GET", path, "en");
    by_hand.query = {{"lang", "uk"}};
    const std::string page = house.app().answer(by_hand).body;
    CHECK(has(page, "<html lang=\"uk"));
    CHECK(has(page, "?lang=uk&amp;try=1\""));  // the form goes on in it
    by_hand.query = {{"lang", "\"><script>"}};
    CHECK(has(house.app().answer(by_hand).body, "<html lang=\"en"));
}

TEST_CASE("a visit: typed, recorded, shown, and the next station named") {
    House house;
    const std::string path = house.station("K1");
    const std::string token = hidden_value(house.get(path).body, "token");
    CHECK(token.size() == 32);
    const Response sent = house.post(
        path, "token=" + token +
                  "&station=K1-2&seen=9&dead=0&level=75&state=clogged&state=wet&did=cleared"
                  "&note=beside+the+bin&by=Hall+caretaker&time=");
    const std::string key = path.substr(path.rfind('/') + 1);
    CHECK(where_to(sent) == key + "/SAVED/1");
    const auto entries = house.recorded("K1");
    REQUIRE(entries.size() == 1);
    const visit::Visit& visit = entries[0].visit;
    CHECK(visit.container == 2);
    CHECK(visit.seen == 9);
    CHECK(visit.dead == 0);
    CHECK(visit.level_percent == 75);
    CHECK(visit.state == visit::Marks<visit::State>{visit::State::clogged, visit::State::wet});
    CHECK(visit.did == visit::Marks<visit::Did>{visit::Did::cleared});
    CHECK(visit.note == "beside the bin");
    CHECK(visit.by == "Hall caretaker");
    CHECK(visit.time == house.context().local_now());

    const std::string saved = house.get(path + "/SAVED/1").body;
    CHECK(has(saved, "Saved"));
    CHECK(has(saved, "beside the bin"));
    CHECK(has(saved, "C1 · Yard, far wall"));  // as long due as the others, and next on the walk
    CHECK(has(saved, "../CORRECT/1"));

    // The phone remembers who it belongs to.
    const std::string cookie = header(sent, "Set-Cookie");
    CHECK(has(cookie, "by=Hall%20caretaker;"));
    CHECK(has(cookie, "HttpOnly; SameSite=Strict"));
    Request again = House::request("GET", path, "en");
    again.headers["cookie"] += "; other=1; by=Hall%20caretaker";
    CHECK(has(house.app().answer(again).body, "value=\"Hall caretaker\""));
    again.headers["cookie"] += "; by=%00%FF";
    CHECK(house.app().answer(again).status == 200);
}

TEST_CASE(
    "a visit: a double tap records once, and other content under the same form is asked about") {
    House house;
    const std::string path = house.station("K1");
    CHECK(has(where_to(house.post(path, "token=abc&seen=9")), "/SAVED/1"));
    house.now += std::chrono::minutes(1);
    CHECK(has(where_to(house.post(path, "token=abc&seen=9")), "/SAVED/1"));
    CHECK(house.recorded("K1").size() == 1);

    // Nothing but the time was changed: that is other content too.
    CHECK(house.post(path, "token=abc&seen=9&time=2027-03-17T21%3A15").status == 409);

    const Response asked = house.post(path, "token=abc&seen=7&note=typed+later");
    CHECK(asked.status == 409);
    CHECK(has(asked.body, "typed later"));
    CHECK(has(asked.body, "name=\"corrects\" value=\"1\""));
    const std::string token = hidden_value(asked.body, "token");
    CHECK(token != "abc");
    CHECK(house.recorded("K1").size() == 1);
    CHECK(has(where_to(house.post(path, "token=" + token + "&corrects=1&seen=7")), "/SAVED/2"));
    const auto station_state = house.recorded("K1");
    REQUIRE(station_state.size() == 1);
    CHECK(station_state[0].visit.seen == 7);
}

TEST_CASE("a visit: a fault brings the form back with what was typed, and says where") {
    House house;
    const std::string path = house.station("K1");
    const Response page =
        house.post(path,
                   "token=abc&seen=many&dead=3&level=999&state=wet&did=removed&by=A&note=x%3Cy"
                   "&time=2031-01-01T08%3A00");
    CHECK(page.status == 422);
    CHECK(has(page.body, "role=\"alert\""));
    CHECK(has(page.body, "value=\"many\""));
    CHECK(has(page.body, "href=\"#seen\""));
    CHECK(has(page.body, "id=\"seen-fault\""));
    CHECK(has(page.body, "aria-describedby=\"seen-fault\""));
    CHECK(has(page.body, "value=\"3\""));
    CHECK(has(page.body, "href=\"#level\""));
    CHECK(has(page.body, "href=\"#time\""));
    CHECK(has(page.body, "value=\"wet\" id=\"state-wet\" checked"));
    CHECK(has(page.body, "value=\"removed\" id=\"did-removed\" checked"));
    CHECK(has(page.body, "x&lt;y"));
    CHECK(has(page.body, "value=\"2031-01-01T08:00\""));
    CHECK(hidden_value(page.body, "token") == "abc");  // the same form still
    CHECK(house.recorded("K1").empty());

    CHECK(house.post(path, "token=a").status == 422);  // a slip of the thumb
    CHECK(house.post(path, "token=a&seen=1&station=K2").status == 422);
    CHECK(house.post(path, "token=a&seen=1&state=sticky").status == 422);
    CHECK(house.post(path, "token=a&note=%07").status == 422);
    CHECK(house.post(path, "token=a&seen=1&note=" + std::string(1001, 'a')).status == 422);
    CHECK(house.recorded("K1").empty());
    CHECK(where_to(house.post(path, "token=a&note=" + std::string(1000, 'a'))).size() > 3);
}

TEST_CASE("a visit: the form never goes to the address of the page it stands on") {
    House house;
    Request asked = House::request("GET", house.station("K1"), "en");
    CHECK(has(house.app().answer(asked).body, "?try=1\""));
    asked.query = {{"try", "1"}};
    CHECK(has(house.app().answer(asked).body, "?try=2\""));
    asked.query = {{"try", "2"}};
    CHECK(has(house.app().answer(asked).body, "?try=1\""));
}

TEST_CASE("a visit: another day or time") {
    House house;
    const std::string path = house.station("K1");
    where_to(house.post(path, "token=a&seen=1&time=2027-03-17T21%3A15"));
    CHECK(log::print_time(house.recorded("K1")[0].visit.time) == "2027-03-17 21:15");
}

TEST_CASE("a correction takes the place of a visit, which stays in the log") {
    House house;
    const std::string path = house.station("K1");
    where_to(house.post(path, "token=a&seen=90&level=60&note=oops&by=A"));
    const std::string form = house.get(path + "/CORRECT/1").body;
    CHECK(has(form, "value=\"90\""));
    CHECK(has(form, "oops"));
    CHECK(has(form, "value=\"60\" id=\"level-60\" checked"));  // a level that has no button
    CHECK(has(form, "value=\"2027-03-18T08:05\""));
    CHECK(has(form, "action=\"../../"));
    CHECK(hidden_value(form, "corrects") == "1");
    const std::string body = "token=" + hidden_value(form, "token") + "&corrects=1&seen=9";
    CHECK(has(where_to(house.post(path, body)), "/SAVED/2"));
    CHECK(house.recorded("K1").size() == 1);
    CHECK(house.visits().find(1)->visit.seen == 90);

    const Response late = house.post(path, "token=b&corrects=1&seen=8");
    CHECK(late.status == 409);
    CHECK(hidden_value(late.body, "corrects") == "2");
    CHECK_FALSE(has(late.body, "action=\"../../"));
    CHECK(has(where_to(house.post(path, "token=c&corrects=2&withdraw=yes")), "/SAVED/3"));
    CHECK(house.recorded("K1").empty());
    CHECK(has(house.get(path + "/SAVED/3").body, "Taken out"));
    CHECK(house.get(path + "/CORRECT/3").status == 404);
    CHECK(house.post(path, "token=d&corrects=99&seen=1").status == 404);
    CHECK(house.post(path, "token=d&withdraw=yes").status == 422);
}

TEST_CASE("a correction keeps what its form does not hold, and shows what was before") {
    House house;
    const std::string path = house.station("K1");
    where_to(house.post(path,
                        "token=a&station=K1-2&seen=90&dead=3&level=75&state=clogged&state=wet&did="
                        "cleared&by=Kim&note=dusty&time=2027-03-10T08:00"));
    const visit::Visit before = house.recorded("K1").at(0).visit;

    SECTION("one field alone changes one field alone") {
        where_to(house.post(path, "token=b&corrects=1&seen=8"));
        visit::Visit wanted = before;
        wanted.seen = 8;
        CHECK(house.recorded("K1").at(0).visit == wanted);
        const std::string saved = house.get(path + "/SAVED/2").body;
        CHECK(has(saved, "Before"));
        CHECK(has(saved, ">90<"));
        CHECK(has(saved, ">8<"));
    }
    SECTION("a field that is there and empty is emptied") {
        where_to(house.post(path, "token=b&corrects=1&station=K1&seen=90&dead=&level=&by=&note="));
        const visit::Visit now = house.recorded("K1").at(0).visit;
        CHECK(now.container == 0);
        CHECK(now.seen == 90);
        CHECK_FALSE(now.dead);
        CHECK_FALSE(now.level_percent);
        CHECK(now.state.empty());  // the level was there, so the boxes were too
        CHECK(now.did.empty());
        CHECK(now.by.empty());
        CHECK(now.note.empty());
        CHECK(now.time == before.time);
    }
    SECTION("a field that will not do comes back with the rest of the entry") {
        const Response again = house.post(path, "token=b&corrects=1&seen=x");
        CHECK(again.status == 422);
        CHECK(has(again.body, "It says now"));
        CHECK(has(again.body, "dusty"));
        CHECK(has(again.body, "2027-03-10T08:00"));
    }
    SECTION("of an entry that was corrected since, what stands now is shown") {
        where_to(house.post(path, "token=b&corrects=1&seen=8"));
        const std::string page = house.get(path + "/CORRECT/1").body;
        CHECK(hidden_value(page, "corrects") == "2");
        CHECK(has(page, ">8<"));
        CHECK(house.post(path, "token=c&corrects=1&seen=7").status == 409);
    }
}

TEST_CASE("what the form of a place has no field for, a correction keeps") {
    House house;
    visit::Visit visit;
    visit.station = "C1";  // a control: its form asks for counts alone
    visit.time = house.context().local_now();
    visit.seen = 9;
    visit.level_percent = 50;
    visit.state = {visit::State::moved};
    visit.did = {visit::Did::cleared};
    visit.minutes = 10;
    visit.young = 3;
    visit.trap_nights = 4;
    visit.feeding = true;
    house.visits().record({visit, "", {}, false}, house.now);
    const std::string page = house.get(house.station("C1") + "/CORRECT/1").body;
    CHECK_FALSE(has(page, "name=\"level\""));
    where_to(house.post(house.station("C1"), "token=b&corrects=1&seen=8&dead=&note=&by=&time="));
    visit.seen = 8;
    CHECK(house.recorded("C1").at(0).visit == visit);
}

TEST_CASE("a log that is gone or broken: not saved, and what was typed is still there") {
    House house;
    const std::string path = house.station("K1");
    where_to(house.post(path, "token=a&seen=9"));
    const std::string good = system::read_file(house.log_file());
    const std::string form = "token=b&seen=23&note=beside+the+bin&by=Kim&level=50&state=wet";
    const auto refused = [&](const std::string& what) {
        INFO(what);
        for (const std::string& sent : {form, form + "&corrects=1"}) {
            const Response answer = house.post(path, sent);
            CHECK(answer.status == 503);
            CHECK(has(answer.body, "Not saved."));
            CHECK(has(answer.body, "beside the bin"));
            CHECK(has(answer.body, "value=\"23\""));
            CHECK(hidden_value(answer.body, "token") == "b");
        }
    };
    SECTION("deleted, and put back") {
        std::filesystem::remove(house.log_file());
        refused("deleted");
        CHECK(house.get(path).status == 503);
        CHECK(house.get(house.overview()).status == 503);
        CHECK_FALSE(std::filesystem::exists(house.log_file()));
        system::write_whole(house.log_file(), good);
    }
    SECTION("renamed, and named back") {
        const std::string elsewhere = house.log_file().string() + ".old";
        std::filesystem::rename(house.log_file(), elsewhere);
        refused("renamed");
        std::filesystem::rename(elsewhere, house.log_file());
    }
    SECTION("overwritten by noise, and made good") {
        std::ofstream(house.log_file(), std::ios::in | std::ios::binary)
            << std::string(6000, '\xA5');
        refused("overwritten");
        std::ofstream(house.log_file(), std::ios::binary) << good;
    }
    where_to(house.post(path, form));
    CHECK(house.recorded("K1").at(0).visit.seen == 23);
    CHECK(log::Log(house.log_file()).find(2)->visit.note == "beside the bin");
}

TEST_CASE("a new secret holds at once: old codes open nothing more, new ones do") {
    House house;
    const std::string old_station = house.station("K1");
    const std::string old_code = house.code();
    CHECK(house.get(old_station).status == 200);
    house.secret = keys::Secret{std::array<std::uint8_t, 32>{7, 7, 7}};
    CHECK(house.get(old_station).status == 404);
    CHECK(house.post(old_station, "token=a&seen=9").status == 404);
    CHECK(house.get(old_code).status == 404);
    // Phones that were the caretaker's are so no more.
    CHECK(house.get(house.overview()).status == 403);
    CHECK_FALSE(has(house.get(house.station("K1")).body, "name=\"seen\""));
    Request again = House::request("GET", house.overview(), "en");
    again.headers["cookie"] = House::caretaker(house.secret, House::phone);
    CHECK(has(house.app().answer(again).body, house.station("K1").substr(1)));
}

TEST_CASE("a time that cannot be is refused, and a clock that was never set asks for it") {
    House house;
    const std::string path = house.station("K1");
    CHECK(house.post(path, "token=a&seen=9&time=2017-03-10T08:00").status == 422);
    CHECK(house.post(path, "token=a&seen=9&time=1970-01-01T00:00").status == 422);
    CHECK(house.post(path, "token=a&seen=9&time=2199-01-01T00:00").status == 422);
    house.now = log::Instant{std::chrono::seconds(100)};
    const Response asked = house.post(path, "token=a&seen=9");
    CHECK(asked.status == 422);
    CHECK(has(asked.body, "the clock of the log is wrong"));
    CHECK(house.recorded("K1").empty());
    where_to(house.post(path, "token=a&seen=9&time=2027-03-10T08:00"));
    CHECK(house.recorded("K1").size() == 1);
}

TEST_CASE("visits of one station are not shown or corrected with the key of another") {
    House house;
    where_to(house.post(house.station("K1"), "token=a&seen=9"));
    CHECK(house.get(house.station("K2") + "/SAVED/1").status == 404);
    CHECK(house.get(house.station("K2") + "/CORRECT/1").status == 404);
    CHECK(house.post(house.station("K2"), "token=b&corrects=1&seen=1").status == 404);
    CHECK(house.recorded("K1")[0].visit.seen == 9);
}

TEST_CASE("keys: without the right one nothing is shown, written or told apart") {
    House house;
    const std::string key = house.station("K1").substr(6);
    const std::string stranger = house.get_as_neighbour("/S/K1/0000000000").body;
    CHECK(house.get_as_neighbour("/S/K1/0000000000").status == 404);
    CHECK_FALSE(has(stranger, "Kitchen"));
    CHECK(has(stranger, "tel:131126"));  // whoever swallowed some may have an old label
    // A station that is not there looks the same, and so does a foreign key.
    CHECK(house.get_as_neighbour("/S/Z9/" + key).body == stranger);
    CHECK(house.get_as_neighbour("/S/K2/" + key).body == stranger);
    CHECK(house.get_as_neighbour("/ALL/" + key).body == stranger);
    CHECK(house.get_as_neighbour(house.station("K1").substr(0, 15)).body == stranger);
    CHECK(house.get_as_neighbour(house.station("K1") + "0").body == stranger);
    CHECK(house.post("/S/K1/0000000000", "token=a&seen=9").status == 404);
    CHECK(house.post("/S/K2/" + key, "token=a&seen=9").status == 404);
    // A label printed before the secret was changed.
    const keys::Secret other{std::array<std::uint8_t, 32>{9, 9, 9}};
    CHECK(house.get_as_neighbour("/S/K1/" + keys::station_key(other, "K1")).body == stranger);
    CHECK(house.recorded("K1").empty());
    CHECK(house.recorded("K2").empty());
    // As a person may type it.
    std::string small = "/s/k1/" + key;
    for (char& c : small) c = static_cast<char>(std::tolower(c));
    CHECK(house.get_as_neighbour(small).status == 200);
    CHECK(times(house.told.at(0), "/S/K1/...") == 1);
    for (const std::string& line : house.told) CHECK_FALSE(has(line, key));
}

Request from(const std::string& peer, const std::string& path) {
    Request asked = House::request("GET", path, "en");
    asked.peer = peer;
    asked.headers.erase("cookie");
    return asked;
}

std::string wrong_key(int i) {
    return "/S/K1/00000000" + std::to_string(10 + i % 90);
}

/// "known=S%2FK1.ABC" of a Set-Cookie header.
std::string known_cookie(const Response& response) {
    for (const auto& [name, value] : response.headers)
        if (name == "Set-Cookie" && value.starts_with("known="))
            return value.substr(0, value.find(';'));
    return {};
}

TEST_CASE("keys: whoever has shown too many wrong ones is told nothing of a right one") {
    House house;
    int looked_at = 0;
    for (int i = 0; i < 100; ++i) {
        const int status = house.app().answer(from("192.168.1.7", wrong_key(i))).status;
        CHECK((status == 404 || status == 429));
        looked_at += status == 404 ? 1 : 0;
    }
    CHECK(looked_at >= 30);
    CHECK(looked_at <= 32);  // a slow machine gets one more every two seconds
    // The same answer to the right key, a wrong one and a station that is not there.
    const Response right = house.app().answer(from("192.168.1.7", house.station("K1")));
    CHECK(right.status == 429);
    CHECK(right.body == house.app().answer(from("192.168.1.7", wrong_key(0))).body);
    CHECK(right.body == house.app().answer(from("192.168.1.7", "/S/Z9/0000000000")).body);
    CHECK(right.body == house.app().answer(from("192.168.1.7", house.code())).body);
    CHECK(right.body == house.app().answer(from("192.168.1.7", house.code() + "/VISITS.CSV")).body);
    CHECK(known_cookie(right).empty());
    CHECK(header(right, "Retry-After") == "60");
    // The IPv4 address as an IPv6 socket shows it is the same; another address is not.
    CHECK(house.app().answer(from("::ffff:192.168.1.7", house.station("K1"))).status == 429);
    CHECK(house.app().answer(from("192.168.1.8", house.station("K1"))).status == 200);
}

TEST_CASE("keys: an IPv6 network is one guesser, however many addresses it has") {
    House house;
    int looked_at = 0;
    for (int i = 0; i < 100; ++i)
        looked_at +=
            house.app().answer(from("2001:db8:0:7::" + std::to_string(i), wrong_key(i))).status ==
                    404
                ? 1
                : 0;
    CHECK(looked_at <= 32);
    CHECK(house.app().answer(from("2001:db8:0:7::abcd", house.station("K1"))).status == 429);
    CHECK(house.app().answer(from("2001:db8:0:8::1", house.station("K1"))).status == 200);
}

TEST_CASE("keys: right ones are not counted, nor pages that are not there") {
    House house({.wrong_keys = {2, std::chrono::hours(1)}});
    for (int i = 0; i < 20; ++i) {
        CHECK(house.get(house.station("K1")).status == 200);
        CHECK(house.get(house.station("K1") + "/SAVED/77").status == 404);
        CHECK(house.get("/apple-touch-icon.png").status == 404);
    }
    CHECK(house.get(house.station("K1")).status == 200);
}

TEST_CASE("keys: a phone that has been let in goes on while a neighbour guesses") {
    House house({.wrong_keys = {3, std::chrono::hours(1)}});
    const Response first = house.app().answer(from("192.168.1.7", house.station("K1")));
    const std::string cookie = known_cookie(first);
    CHECK(has(cookie, "known=S%2FK1."));
    CHECK(has(header(first, "Set-Cookie"), "HttpOnly; SameSite=Strict"));
    CHECK_FALSE(has(cookie, house.station("K1").substr(6)));  // the key itself is not in it
    for (int i = 0; i < 10; ++i) house.app().answer(from("192.168.1.7", wrong_key(i)));
    const auto with = [&](const std::string& value, const std::string& path) {
        Request asked = from("192.168.1.7", path);
        asked.headers["cookie"] = "by=A; " + value;
        return house.app().answer(asked);
    };
    CHECK(with("other=1", house.station("K1")).status == 429);
    CHECK(with(cookie, house.station("K1")).status == 200);
    CHECK(with(cookie, house.station("K2")).status == 200);
    CHECK(known_cookie(with(cookie, house.station("K2"))).empty());  // one is enough
    // Not one that was made up, of another secret or for another page.
    const keys::Secret other{std::array<std::uint8_t, 32>{9, 9, 9}};
    CHECK(with("known=S%2FK1." + keys::visitor_mark(other, "S/K1"), house.station("K1")).status ==
          429);
    CHECK(with("known=ALL." + cookie.substr(cookie.rfind('.') + 1), house.station("K1")).status ==
          429);
    CHECK(with("known=", house.station("K1")).status == 429);
    // It may not guess without end either: its tries are counted by the page it was given for, so
    // that asking for more cookies gives no more tries.
    for (int i = 0; i < 3; ++i) CHECK(with(cookie, wrong_key(i)).status == 404);
    CHECK(with(cookie, wrong_key(3)).status == 429);
    CHECK(with(cookie, house.station("K1")).status == 429);
    const std::string again =
        known_cookie(house.app().answer(from("192.168.1.8", house.station("K1"))));
    CHECK(again == cookie);
}

TEST_CASE("keys: behind a proxy each phone is counted by itself") {
    const auto forwarded = [](House& house, const std::string& path, const std::string& chain) {
        Request asked = from("127.0.0.1", path);
        if (!chain.empty()) asked.headers["x-forwarded-for"] = chain;
        return house.app().answer(asked).status;
    };
    const Rates rates{.wrong_keys = {2, std::chrono::hours(1)}};
    House proxied(rates, true);
    for (int i = 0; i < 3; ++i) forwarded(proxied, wrong_key(i), "192.0.2.1");
    CHECK(forwarded(proxied, proxied.station("K1"), "192.0.2.1") == 429);
    // What a phone wrote itself stands before what the proxy has seen.
    CHECK(forwarded(proxied, proxied.station("K1"), "192.0.2.9, 192.0.2.1") == 429);
    CHECK(forwarded(proxied, proxied.station("K1"), "192.0.2.1, 192.0.2.2") == 200);
    CHECK(forwarded(proxied, proxied.station("K1"), "nonsense") == 200);  // this machine itself

    // Nobody but a proxy on this machine is believed, and that only when there is one.
    Request far = from("192.0.2.1", proxied.station("K1"));
    far.headers["x-forwarded-for"] = "192.0.2.3";
    CHECK(proxied.app().answer(far).status == 429);
    House alone(rates);
    for (int i = 0; i < 3; ++i) forwarded(alone, wrong_key(i), "192.0.2." + std::to_string(i));
    CHECK(forwarded(alone, alone.station("K1"), "192.0.2.77") == 429);
}

TEST_CASE("hosts: only our own are answered, so that no page elsewhere can pass for one of ours") {
    House house;
    const auto status = [&](const std::string& host, const std::string& path) {
        Request asked = House::request("GET", path, "en");
        asked.headers["host"] = host;
        return house.app().answer(asked).status;
    };
    for (const char* own :
         {"192.168.1.20:8017", "192.168.1.20", "localhost:8017", "127.0.0.1:9", "LOCALHOST"})
        CHECK(status(own, house.station("K1")) == 200);
    for (const char* other : {"evil.example", "evil.example:8017", "192.168.1.20.evil.example",
                              "192.168.1.21:8017", ""}) {
        CHECK(status(other, house.station("K1")) == 421);
        CHECK(status(other, "/robots.txt") == 421);
    }
    Request sent = House::request("POST", house.station("K1"), "de");
    sent.headers["host"] = "evil.example";
    sent.headers["content-type"] = "application/x-www-form-urlencoded";
    sent.body = "token=a&seen=9";
    CHECK(has(house.app().answer(sent).body, "keine Adresse dieses Protokolls"));
    CHECK(house.recorded("K1").empty());
    CHECK(has(house.told.back(), "a host that is not ours /evil.example"));
}

TEST_CASE("paths that lead nowhere") {
    House house;
    const std::string station = house.station("K1");
    for (const std::string& path : {std::string(),
                                    std::string("/"),
                                    std::string("//"),
                                    std::string("/S"),
                                    std::string("/S/"),
                                    std::string("/S/K1"),
                                    std::string("/../hall.secret"),
                                    std::string("/S/../../hall.secret"),
                                    std::string("/hall.visits.sqlite"),
                                    std::string("/S//"),
                                    station + "/",
                                    station + "/SAVED",
                                    station + "/SAVED/",
                                    station + "/SAVED/1/2",
                                    station + "/SAVED/-1",
                                    station + "/SAVED/1x",
                                    station + "/SAVED/99999999999999999999",
                                    station + "/OTHER/1",
                                    house.overview() + "/X",
                                    std::string("/\0/S", 4),
                                    station + std::string("\0", 1),
                                    std::string(8000, '/'),
                                    "/S/" + std::string(8000, 'A')}) {
        INFO(path.substr(0, 60));
        const int status = house.get(path).status;
        CHECK(status == 404);
    }
    CHECK(house.get("/robots.txt").body == "User-agent: *\nDisallow: /\n");
}

TEST_CASE("every answer carries its safety headers, and no page a script but ours") {
    House house;
    where_to(house.post(house.station("K1"), "token=a&seen=9"));
    for (const Response& answer :
         {house.get(house.station("K1")), house.get(house.station("K1") + "/SAVED/1"),
          house.get(house.station("K1") + "/CORRECT/1"), house.get(house.overview()),
          house.get("/nowhere"), house.get("/robots.txt"),
          house.post(house.station("K1"), "seen=x"),
          house.post(house.station("K1"), "token=b&seen=1"),
          house.get(house.overview() + "/VISITS.CSV")}) {
        const std::string policy = header(answer, "Content-Security-Policy");
        CHECK(has(policy, "default-src 'none'"));
        CHECK(has(policy, "frame-ancestors 'none'"));
        const bool scripted = has(answer.body, "<script");
        CHECK(has(policy, "script-src") == scripted);
        if (scripted) CHECK(has(policy, keys::sha256_base64(house.context().photo_script)));
        CHECK_FALSE(has(policy, "unsafe"));
        CHECK(header(answer, "X-Content-Type-Options") == "nosniff");
        CHECK(header(answer, "Referrer-Policy") == "no-referrer");
        CHECK(has(header(answer, "Cache-Control"), "private"));
        CHECK_FALSE(has(house.without_own_scripts(answer.body), "<script"));
        CHECK_FALSE(has(answer.body, " style="));
        CHECK_FALSE(std::regex_search(answer.body.substr(0, 3000), std::regex(" on[a-z]+=")));
    }
}

TEST_CASE("script in every text field stays text wherever it is shown") {
    House house;
    const std::string path = house.station("K1");
    const std::string script =
        "%3C%2Ftextarea%3E%3Cscript%3Ealert(1)%3C%2Fscript%3E%22%20onfocus%3D%22x";
    // Refused for another reason, so that every field comes back as typed.
    std::string body = "seen=x";
    for (const char* field : {"token", "station", "dead", "level", "state", "did", "note", "by",
                              "time", "corrects", "withdraw", "other"})
        body += "&" + std::string(field) + "=" + script;
    const Response back = house.post(path, body);
    CHECK(back.status == 422);
    where_to(house.post(path, "token=" + script + "&seen=1&note=" + script + "&by=" + script));
    Request with_cookie = House::request("GET", path, script);
    with_cookie.headers["cookie"] = "by=" + script;
    for (const std::string& page :
         {back.body, house.get(path).body, house.get(path + "/SAVED/1").body,
          house.get(path + "/CORRECT/1").body, house.get(house.overview()).body,
          house.app().answer(with_cookie).body}) {
        CHECK_FALSE(has(house.without_own_scripts(page), "<script"));
        CHECK_FALSE(has(page, "\" onfocus"));
    }
}

TEST_CASE("forms of other sites, and what is no form") {
    House house;
    const std::string path = house.station("K1");
    Request sent = House::request("POST", path, "en");
    sent.body = "token=a&seen=9";
    sent.headers["content-type"] = "application/x-www-form-urlencoded";
    sent.headers["origin"] = "http://elsewhere.example";
    CHECK(house.app().answer(sent).status == 403);
    sent.headers["origin"] = "null";
    CHECK(house.app().answer(sent).status == 403);
    sent.headers["origin"] = "http://192.168.1.20:8017";
    sent.headers["sec-fetch-site"] = "cross-site";
    CHECK(house.app().answer(sent).status == 403);
    sent.headers.erase("sec-fetch-site");
    sent.headers["content-type"] = "text/plain";
    CHECK(house.app().answer(sent).status == 415);
    sent.headers["content-type"] = "multipart/mixed; boundary=x";
    CHECK(house.app().answer(sent).status == 415);
    sent.headers["content-type"] = "multipart/form-data; boundary=x";  // and the body is none
    CHECK(house.app().answer(sent).status == 400);
    sent.headers["content-type"] = "application/x-www-form-urlencoded;charset=UTF-8";
    sent.body = "token=a&seen=9";
    sent.method = "PUT";
    CHECK(house.app().answer(sent).status == 405);
    CHECK(house.recorded("K1").empty());
    sent.method = "POST";
    CHECK(house.app().answer(sent).status == 303);
}

TEST_CASE("too many forms at once lose nothing that was typed") {
    House house({.posts = {3, std::chrono::hours(1)}});
    const std::string path = house.station("K1");
    for (int i = 0; i < 3; ++i)
        where_to(house.post(path, "token=" + std::to_string(i) + "&seen=9"));
    const Response page = house.post(path, "token=z&seen=9&note=still+here");
    CHECK(page.status == 429);
    CHECK(has(page.body, "still here"));
    CHECK(hidden_value(page.body, "token") == "z");
    CHECK(house.recorded("K1").size() == 3);
    CHECK(where_to(house.post(house.station("K2"), "token=z&seen=9")).size() > 3);
}

/// What was typed into a form that could not be looked at: all of it, ready to be sent again.
void check_kept(const Response& page, int status) {
    CHECK(page.status == status);
    for (const auto& [name, value] :
         std::vector<std::pair<std::string, std::string>>{{"token", "abc"},
                                                          {"station", "K1-2"},
                                                          {"seen", "9"},
                                                          {"dead", "1"},
                                                          {"level", "75"},
                                                          {"state", "wet"},
                                                          {"did", "cleared"},
                                                          {"note", "still &lt;here&gt;"},
                                                          {"by", "A"},
                                                          {"time", "2027-03-17T21:15"}}) {
        INFO(name);
        CHECK(has(page.body, "name=\"" + name + "\" value=\"" + value + "\""));
    }
    CHECK(has(page.body, "still &lt;here&gt;</dd>"));  // to be seen, too
    CHECK(has(page.body, "<button type=\"submit\">"));
}
const std::string whole_form =
    "token=abc&station=K1-2&seen=9&dead=1&level=75&state=wet&did=cleared"
    "&note=still+%3Chere%3E&by=A&time=2027-03-17T21%3A15";

TEST_CASE("too many requests or wrong keys from one address lose nothing that was typed") {
    House house({.wrong_keys = {1, std::chrono::hours(1)}, .requests = {2, std::chrono::hours(1)}});
    house.get(wrong_key(1));
    const Response unlooked = house.post(house.station("K1") + "", whole_form);
    check_kept(unlooked, 429);
    const std::string key = house.station("K1").substr(6);
    CHECK(has(unlooked.body, "action=\"" + key + "?try=1\""));
    check_kept(house.post(house.station("K1"), whole_form), 429);  // too many requests by now
    CHECK(house.recorded("K1").empty());
    // The page of somebody else does not get its words shown as ours.
    Request sent = House::request("POST", house.station("K1"), "en");
    sent.body = whole_form;
    sent.headers["content-type"] = "application/x-www-form-urlencoded";
    sent.headers["origin"] = "http://elsewhere.example";
    CHECK_FALSE(has(house.app().answer(sent).body, "still"));
}

TEST_CASE("a damaged form, or one that was cut, comes back with what could be read of it") {
    House house;
    const std::string path = house.station("K1");
    const Response damaged = house.post(path, "token=abc&seen=9&note=before%FFafter");
    CHECK(damaged.status == 400);
    CHECK(has(damaged.body,
              "before\xEF\xBF\xBD"
              "after"));
    CHECK(has(damaged.body, "value=\"9\""));
    CHECK(hidden_value(damaged.body, "token") == "abc");
    Request sent = House::request("POST", path, "en");
    sent.headers["content-type"] = "application/x-www-form-urlencoded";
    sent.body = "token=abc&seen=9&note=as+far+as+it+w";
    sent.body_cut = true;
    const Response cut = house.app().answer(sent);
    CHECK(cut.status == 413);
    CHECK(has(cut.body, "as far as it w"));
    CHECK(house.recorded("K1").empty());
}

TEST_CASE("too many requests from one address, but this machine's own are the proxy's to count") {
    House house({.requests = {3, std::chrono::hours(1)}});
    Request asked = House::request("GET", house.station("K1"), "en");
    for (int i = 0; i < 3; ++i) CHECK(house.app().answer(asked).status == 200);
    CHECK(house.app().answer(asked).status == 429);
    asked.peer = "192.168.1.8";
    CHECK(house.app().answer(asked).status == 200);
    asked.peer = "127.0.0.1";
    for (int i = 0; i < 10; ++i) CHECK(house.app().answer(asked).status == 200);
}

std::string read(const Response& response) {
    std::size_t size = 0;
    const int file = response.file->open_again(size);
    std::string text(size, ' ');
    CHECK(::pread(file, text.data(), size, 0) == static_cast<ssize_t>(size));
    ::close(file);
    return text;
}

TEST_CASE("overview: what is to be done first, then every room, and the table to take away") {
    House house;
    where_to(house.post(house.station("K1"), "token=a&seen=120&level=0&state=dry"));
    const std::string page = house.get(house.overview()).body;
    CHECK(has(page, "<h1>Weir Street Hall</h1>"));
    CHECK(page.find("To do now") < page.find("<h2>Kitchen</h2>"));
    CHECK(has(page, "<h2>Yard</h2>"));
    CHECK(has(page, "href=\"" + house.station("K2").substr(1) + "\""));
    CHECK(has(page, "1 station visited today"));
    CHECK(has(page, "120 alive"));
    CHECK(has(page, "dry"));
    CHECK(has(page, "overdue"));
    CHECK(page.size() < 30'000);

    const Response csv = house.get(house.overview() + "/VISITS.CSV");
    CHECK(csv.type == "text/csv; charset=utf-8");
    CHECK(read(csv) ==
          "station,time,by,seen,dead,level_percent,state,did,note,minutes,young,trap_nights,"
          "feeding\r\n"
          "K1,2027-03-18 08:05,,120,,0,dry,,,,,,\r\n");
    // One at a time, for it may be long; free again when the answer is gone.
    CHECK(house.get(house.overview() + "/VISITS.CSV").status == 503);
}

TEST_CASE("overview: floor by floor where there are several") {
    House house({}, false, [](std::string& job) {
        job = std::regex_replace(job, std::regex(", outline:"), ", floor: Ground, outline:");
        job = std::regex_replace(job, std::regex("at: \\[3.8, 3.6\\]"), "floor: Cellar");  // K2
        job = std::regex_replace(job, std::regex(", at: \\["), ", floor: Ground, at: [");
        const std::string rooms = "  rooms:\n";
        const std::string vault =
            "    - { name: Vault, floor: Cellar, outline: [[0, 0], [2, 0], [2, 2]] }\n";
        job.insert(job.find(rooms) + rooms.size(), vault);
    });
    CHECK(has(house.get(house.overview()).body, "<h2>Cellar · "));
}

TEST_CASE("overview: the export is free again once the answer is let go") {
    House house;
    { const Response first = house.get(house.overview() + "/VISITS.CSV"); }
    CHECK(house.get(house.overview() + "/VISITS.CSV").status == 200);
}

TEST_CASE("the plot tells its numbers to those who cannot see it") {
    House house;
    const std::string path = house.station("K1");
    where_to(house.post(path, "token=a&seen=120&time=2027-03-02T20%3A00"));
    CHECK_FALSE(has(house.get(path).body, "<svg"));
    where_to(house.post(path, "token=b&seen=9&did=refilled&time=2027-03-17T20%3A00"));
    const std::string page = house.get(path).body;
    CHECK(has(page, "<svg"));
    CHECK(has(page, "role=\"img\" aria-label=\"Seen alive: 120 on 2 March, 9 on 17 March.\""));
    CHECK(times(page, "<circle") == 2);
}

TEST_CASE("names and places of the job are text on the pages too") {
    // Every label, title and place passes the same builder; this pins one of each kind.
    House house;
    const std::string page = house.get(house.station("K1")).body;
    CHECK(times(page, "<h1>") == 1);
    CHECK(times(page, "<main>") == 1);
    CHECK(times(page, "<form") == 1);
    CHECK(times(page, "</form>") == 1);
    // Each input has a label of its own.
    const std::regex input("<(input|textarea)[^>]* id=\"([^\"]+)\"");
    for (auto at = std::sregex_iterator(page.begin(), page.end(), input);
         at != std::sregex_iterator(); ++at)
        CHECK(times(page, "<label for=\"" + (*at)[2].str() + "\"") == 1);
}

TEST_CASE("station page: before anything is set down it asks for the first count") {
    House house;
    house.now -= std::chrono::days(17);  // 2027-03-01 08:05, the day before
    const std::string k1 = house.get(house.station("K1")).body;
    CHECK(has(k1, "Count before you set anything down"));
    CHECK(has(k1, "Everything later is compared with this count."));
    CHECK(has(k1, "<li>Count the ants that cross one line beside the station in 3 minutes.</li>"));
    for (const char* field : {"seen", "minutes", "trap_nights", "note", "by", "time"})
        CHECK(has(k1, std::string("name=\"") + field + "\""));
    CHECK_FALSE(has(k1, "name=\"feeding\""));  // there is no bait yet
    CHECK_FALSE(has(k1, "name=\"young\""));
    const std::string cockroaches = house.get(house.station("R1")).body;
    CHECK(has(cockroaches, "what the traps caught in so many nights"));
    CHECK(has(cockroaches, "name=\"young\""));
    CHECK(has(house.get(house.station("C1")).body, "Count before you set anything down"));
    CHECK(has(house.get(house.station("S1")).body, "Count the new holes"));
    CHECK_FALSE(has(house.get(house.station("S1")).body, "name=\"minutes\""));
    for (const char* language : {"es", "de", "fil", "uk"})
        CHECK(house.get(house.station("R1"), language).body.size() < 30'000);

    const std::string path = house.station("K1");
    where_to(house.post(path, "token=a&seen=26&minutes=3&trap_nights="));
    const auto entries = house.recorded("K1");
    REQUIRE(entries.size() == 1);
    CHECK(entries[0].visit.seen == 26);
    CHECK(entries[0].visit.minutes == 3);
    CHECK_FALSE(entries[0].visit.trap_nights);
    CHECK(has(house.get(path).body, "26 alive · in 3 minutes"));

    house.now += std::chrono::days(17);
    const std::string later = house.get(path).body;
    CHECK_FALSE(has(later, "Count before you set anything down"));
    CHECK(has(later, "How to count"));
    CHECK(has(later, "name=\"level\""));
    CHECK(has(later, "name=\"feeding\""));
    // Nobody has counted, but the bait stands there: it is too late to ask.
    CHECK_FALSE(has(house.get(house.station("K2")).body, "Count before you set anything down"));
}

TEST_CASE("a visit: how it was counted is recorded, shown and corrected") {
    House house;
    const std::string path = house.station("R1");
    where_to(
        house.post(path, "token=a&seen=12&minutes=4&young=7&trap_nights=6&feeding=no&level=100"));
    const visit::Visit visit = house.recorded("R1").at(0).visit;
    CHECK(visit.minutes == 4);
    CHECK(visit.young == 7);
    CHECK(visit.trap_nights == 6);
    CHECK(visit.feeding == false);
    const std::string saved = house.get(path + "/SAVED/1").body;
    CHECK(has(saved, "Traps × nights"));
    CHECK(has(house.get(path).body, "12 alive · 7 young · in 4 minutes · in 6 trap nights"));
    const std::string correction = house.get(path + "/CORRECT/1").body;
    CHECK(has(correction, "name=\"trap_nights\" id=\"trap_nights\" value=\"6\""));
    // A form that does not hold them leaves them as they were; an empty field empties them.
    where_to(house.post(path, "token=b&corrects=1&seen=13&time="));
    CHECK(house.recorded("R1").at(0).visit.trap_nights == 6);
    CHECK(house.recorded("R1").at(0).visit.feeding == false);
    where_to(house.post(path, "token=c&corrects=2&seen=13&minutes=&trap_nights=8&feeding=&time="));
    const visit::Visit corrected = house.recorded("R1").at(0).visit;
    CHECK_FALSE(corrected.minutes);
    CHECK(corrected.trap_nights == 8);
    CHECK_FALSE(corrected.feeding);
    CHECK(corrected.young == 7);

    for (const char* wrong : {"minutes=0", "trap_nights=0", "minutes=x", "young=-1",
                              "feeding=perhaps", "trap_nights=1000001"}) {
        INFO(wrong);
        const Response back = house.post(path, std::string("token=d&seen=1&") + wrong);
        CHECK(back.status == 422);
        CHECK(has(back.body, "class=\"trouble\""));
    }
    // How long it took to find nothing out says nothing.
    CHECK(house.post(path, "token=e&minutes=5").status == 422);
}

TEST_CASE("a visit: a day that may be a slip is asked about once, by its name") {
    House house;
    const std::string path = house.station("K1");
    const std::string data = "token=a&seen=26&by=Kim&time=2026-10-02T19%3A20";
    const Response asked = house.post(path, data);
    CHECK(asked.status == 422);
    CHECK(has(asked.body, "2 October 2026"));
    CHECK(has(asked.body, "2 March 2027"));
    CHECK(has(asked.body, "151 days"));
    CHECK(has(asked.body, "name=\"sure\" value=\"2026-10-02 19:20\""));
    CHECK(house.recorded("K1").empty());
    // Said of another day it does not count; said of this one it does.
    CHECK(house.post(path, data + "&sure=2026-10-03+19%3A20").status == 422);
    where_to(house.post(path, data + "&sure=2026-10-02+19%3A20"));
    CHECK(house.recorded("K1").size() == 1);
    // It stands in the log so: its correction is not asked about again, unless the day changes.
    where_to(house.post(path, "token=b&corrects=1&seen=25&time=2026-10-02T19%3A20"));
    CHECK(house.post(path, "token=c&corrects=2&seen=25&time=2026-10-09T19%3A20").status == 422);
    where_to(house.post(path, "token=d&corrects=2&seen=25&time=2027-03-02T19%3A20"));

    const Response bait = house.post(path, "token=e&level=75&time=2027-03-01T08%3A00");
    CHECK(bait.status == 422);
    CHECK(has(bait.body, "nothing stood here yet on 1 March 2027"));
    // A first count of the days before is no slip.
    where_to(house.post(path, "token=f&seen=24&time=2027-02-20T19%3A20"));
}

TEST_CASE("station page: the last count before placing is the first, however long the log") {
    House house;
    const auto on = [](int month, int day) {
        return std::chrono::local_days(std::chrono::year(2027) / month / day) +
               std::chrono::hours(8);
    };
    const auto count = [&](visit::LocalTime time, int seen) {
        visit::Visit visit;
        visit.station = "K1";
        visit.time = time;
        visit.seen = seen;
        house.visits().record({visit, "", {}, false}, house.now);
    };
    count(on(2, 25), 90);
    count(on(3, 2), 40);
    for (int i = 0; i < 70; ++i) count(on(3, 17) + std::chrono::minutes(i), 4);
    const Place place = place_of(house.context(), "K1");
    const StationState station_state = station_state_of(house.context(), place);
    CHECK(station_state.report().trend.first.seen == 40);
    CHECK(station_state.report().counts.baseline);
}

}  // namespace
}  // namespace gallipot::web
