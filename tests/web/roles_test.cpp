#include "house.hpp"

/// Who scans a label is a neighbour; who has scanned the caretaker's code is the caretaker.
namespace gallipot::web {
namespace {

using tests::header;
using tests::hidden_value;
using tests::House;
using tests::times;

bool has(const std::string& page, const std::string& part) {
    return page.find(part) != std::string::npos;
}

Request with_cookie(const std::string& path, const std::string& cookie) {
    Request asked = House::request("GET", path, "en");
    asked.headers["cookie"] = cookie;
    return asked;
}

/// "caretaker-...=ID.MARK" of an answer; empty when it gives none.
std::string given(const Response& response) {
    for (const auto& [name, value] : response.headers)
        if (name == "Set-Cookie" && value.starts_with("caretaker-"))
            return value.substr(0, value.find(';'));
    return {};
}

TEST_CASE("a neighbour sees what it is, first aid and when it was looked after, and no visit") {
    House house;
    const std::string path = house.station("K1");
    REQUIRE(house.post(path, "token=a&seen=71717&note=under+the+mat&by=Kim").status == 303);
    const Response page = house.get_as_neighbour(path);
    CHECK(page.status == 200);
    CHECK(has(page.body, "<h1>K1 · Kitchen, behind the bins</h1>"));
    CHECK(has(page.body, "Sweet liquid bait, against ants"));
    CHECK(has(page.body, "borax 0.68\u00a0g"));  // for the poison centre
    CHECK(has(page.body, "href=\"tel:131126\""));
    CHECK(has(page.body, "Last looked after"));
    CHECK(has(page.body, "18 March 2027"));
    CHECK(times(page.body, "<form") == 1);
    CHECK(has(page.body, "/TELL?try=1\""));
    for (const char* secret :
         {"71717", "under the mat", "Kim", "name=\"seen\"", "CORRECT", "ROUND", "href=\"../../ALL"})
        CHECK_FALSE(has(page.body, secret));
    CHECK_FALSE(has(page.body, house.station("K2").substr(6)));  // no other station's key
}

TEST_CASE("a neighbour's form for a visit is not recorded, and what was typed comes back") {
    House house;
    const std::string path = house.station("K1");
    REQUIRE(house.post(path, "token=a&seen=9").status == 303);
    for (const char* form :
         {"token=b&seen=1&note=mine", "token=b&corrects=1&withdraw=yes&note=mine",
          "token=b&corrects=1&seen=0&note=mine"}) {
        const Response refused = house.post_as_neighbour(path, form);
        CHECK(refused.status == 403);
        CHECK(has(refused.body, "name=\"note\" value=\"mine\""));
        CHECK(has(refused.body, "Only a phone of the caretaker"));
    }
    CHECK(house.recorded("K1").size() == 1);
    CHECK(house.recorded("K1")[0].visit.seen == 9);
    CHECK(house.get_as_neighbour(path + "/SAVED/1").status == 403);
    CHECK(house.get_as_neighbour(path + "/CORRECT/1").status == 403);
    CHECK(house.get_as_neighbour("/ALL").status == 403);
    CHECK(house.get_as_neighbour("/ROUND").status == 403);
    CHECK(house.get_as_neighbour("/ALL/VISITS.CSV").status == 403);
    CHECK(house.post_as_neighbour("/ROUND", "r1.id=K1&r1.token=x&r1.seen=4").status == 403);
    CHECK(house.post_as_neighbour("/ALL/READ", "report=1").status == 403);
    CHECK(house.post_as_neighbour("/ALL/END", "phone=0123456789ABCDEF").status == 403);
    CHECK(house.recorded("K1").size() == 1);
}

TEST_CASE("a report of a neighbour is kept apart from visits and shown to the caretaker alone") {
    House house;
    const std::string path = house.station("K1");
    const std::string body = "token=t1&told=spilt&told=pests&words=%3Cb%3Eby+the+door%3C%2Fb%3E";
    const Response sent = house.post_as_neighbour(path + "/TELL", body);
    CHECK(sent.status == 303);
    CHECK(header(sent, "Location") == "TOLD");
    CHECK(has(house.get_as_neighbour(path + "/TOLD").body, "Thank you"));
    CHECK(house.post_as_neighbour(path + "/TELL", body).status == 303);  // a double tap
    const auto reports = house.visits().reports(10);
    REQUIRE(reports.size() == 1);
    CHECK(reports[0].station == "K1");
    CHECK(reports[0].spilt);
    CHECK_FALSE(reports[0].missing);
    CHECK(reports[0].pests);
    CHECK(reports[0].words == "<b>by the door</b>");
    // It counts for nothing.
    CHECK(house.recorded("K1").empty());
    const auto& report = house.context().evidence_now()->report;
    for (const auto& station : report.stations) {
        CHECK(station.visits == 0);
        for (const auto& container : station.containers) CHECK(container.open.empty());
    }
    CHECK_FALSE(has(house.get_as_neighbour(path).body, "by the door"));
    for (const std::string& page : {house.get("/ALL").body, house.get(path).body}) {
        CHECK(has(page, "&lt;b&gt;by the door&lt;/b&gt;"));
        CHECK(has(page, "It is spilt and Pests seen"));
    }
    CHECK_FALSE(has(house.get(house.station("K2")).body, "by the door"));

    CHECK(house.post("/ALL/READ", "report=1").status == 303);
    CHECK(house.visits().reports(10)[0].read);
    CHECK_FALSE(has(house.get(path).body, "by the door"));
    Request told = House::request("GET", "/ALL", "en");
    told.query.emplace("show", "told");
    CHECK(has(house.app().answer(told).body, "Reports looked at before"));
    CHECK(house.post("/ALL/READ", "report=999").status == 303);  // nothing there: nothing done
    CHECK(house.post("/ALL/READ", "report=x").status == 303);
}

TEST_CASE("a report that cannot be taken comes back with what was typed") {
    House house;
    const std::string path = house.station("K1") + "/TELL";
    const auto back = [&](const Response& page, int status) {
        CHECK(page.status == status);
        CHECK(has(page.body, "autofocus"));
        CHECK(has(page.body, "<title>Not saved:"));
    };
    back(house.post_as_neighbour(path, "token=a"), 422);
    const Response long_one =
        house.post_as_neighbour(path, "token=a&told=missing&words=" + std::string(301, 'x'));
    back(long_one, 422);
    CHECK(has(long_one.body, std::string(301, 'x')));
    CHECK(has(long_one.body, "value=\"missing\" id=\"told-missing\" checked"));
    back(house.post_as_neighbour(path, "token=a&words=%07"), 422);
    back(house.post_as_neighbour(path, "token=a&words=%FF"), 400);
    Request elsewhere = House::request("POST", path, "en");
    elsewhere.headers.erase("cookie");
    elsewhere.headers["origin"] = "http://elsewhere.example";
    elsewhere.headers["content-type"] = "application/x-www-form-urlencoded";
    elsewhere.body = "token=a&told=spilt";
    CHECK(house.app().answer(elsewhere).status == 403);
    CHECK(house.visits().reports(10).empty());
    // With the key of another label: nothing.
    const std::string foreign = "/S/K2/" + house.station("K1").substr(6) + "/TELL";
    CHECK(house.post_as_neighbour(foreign, "token=a&told=spilt").status == 404);
    std::filesystem::remove(house.log_file());
    const Response gone = house.post_as_neighbour(path, "token=a&words=still+here");
    back(gone, 503);
    CHECK(has(gone.body, "still here"));
    // First aid is there all the same.
    const Response page = house.get_as_neighbour(house.station("K1"));
    CHECK(page.status == 200);
    CHECK(has(page.body, "href=\"tel:131126\""));
}

TEST_CASE("whoever has a label cannot fill the log with reports, nor keep the caretaker out") {
    SECTION("from one network") {
        House house({.reports = {3, std::chrono::hours(1)}});
        for (int i = 0; i < 20; ++i)
            house.post_as_neighbour(house.station("K1") + "/TELL",
                                    "token=" + std::to_string(i) + "&told=spilt");
        CHECK(house.visits().reports(100).size() == 3);
        CHECK(house.post(house.station("K1"), "token=z&seen=9").status == 303);
    }
    SECTION("from many") {
        House house({.reports = {1e9, std::chrono::milliseconds(1)}});
        const auto tell = [&](const std::string& id, int i) {
            return house
                .post_as_neighbour(house.station(id) + "/TELL",
                                   "token=" + id + std::to_string(i) + "&told=spilt")
                .status;
        };
        for (int i = 0; i < log::maximum_unread; ++i) CHECK(tell("K1", i) == 303);
        CHECK(tell("K1", 999) == 429);
        CHECK(tell("K2", 999) == 303);  // of another station it is taken
        CHECK(house.post("/ALL/READ", "report=1").status == 303);
        CHECK(tell("K1", 1000) == 303);
    }
}

TEST_CASE("the caretaker's code makes a phone the caretaker's, and its key does not stay there") {
    House house;
    const Response opened = house.get_as_neighbour(house.code());
    CHECK(opened.status == 303);
    CHECK(header(opened, "Location") == "../ALL?new=1");
    const std::string cookie = given(opened);
    REQUIRE_FALSE(cookie.empty());
    for (const auto& [name, value] : opened.headers)
        if (name == "Set-Cookie" && value.starts_with("caretaker-")) {
            CHECK(has(value, "Max-Age=34560000; Path=/; HttpOnly; SameSite=Lax"));
            CHECK_FALSE(has(value, "Secure"));  // over plain HTTP it would be lost
        }
    CHECK_FALSE(has(cookie, house.code().substr(5)));
    CHECK(house.visits().phones(10).empty());  // a preview that keeps no cookie leaves no phone
    Request asked = with_cookie("/ALL", cookie);
    asked.query = {{"new", "1"}};
    asked.headers["user-agent"] = "Mozilla/5.0 (Linux; Android 14; <script>)";
    const Response overview = house.app().answer(asked);
    CHECK(overview.status == 200);
    CHECK(has(overview.body, "This phone is now the caretaker"));
    CHECK_FALSE(has(overview.body, house.code().substr(5)));
    REQUIRE(house.visits().phones(10).size() == 1);
    CHECK(house.visits().phones(10)[0].kind == "Android");
    const Response station = house.app().answer(with_cookie(house.station("K1"), cookie));
    CHECK(has(station.body, "name=\"seen\""));
    // A phone that keeps no cookie is told so.
    Request kept_none = House::request("GET", "/ALL", "en");
    kept_none.headers.erase("cookie");
    kept_none.query = {{"new", "1"}};
    CHECK(has(house.app().answer(kept_none).body, "did not keep"));
    // The code once more: the same phone.
    CHECK(given(house.app().answer(with_cookie(house.code(), cookie))) == cookie);
    // Two phones are two.
    CHECK(given(house.get_as_neighbour(house.code())) != cookie);
}

TEST_CASE("over TLS the caretaker's cookie goes over TLS alone") {
    House house({}, false, [](std::string& job) {
        const std::string address = "address: http://192.168.1.20:8017";
        REQUIRE(job.find(address) != std::string::npos);
        job.replace(job.find(address), address.size(), "address: https://192.168.1.20:8017");
    });
    const Response opened = house.get_as_neighbour(house.code());
    CHECK(has(header(opened, "Set-Cookie"), "; Secure"));
}

TEST_CASE("no other cookie makes a phone the caretaker's") {
    House house;
    const keys::Secret other{std::array<std::uint8_t, 32>{9, 9, 9}};
    const std::string good = House::caretaker(house.secret, House::phone);
    const std::string name = good.substr(0, good.find('='));
    const std::string mark = good.substr(good.find('.') + 1);
    CHECK(house.app().answer(with_cookie("/ALL", good)).status == 200);
    for (const std::string& bad :
         {std::string(), name, name + "=", name + "=.", name + "=" + mark,
          name + "=0123456789ABCDEG." + mark,  // another phone's id
          name + "=0123456789abcdef." + mark,  // the same letters, small
          name + "=0123456789ABCDE." + mark, name + "=0123456789ABCDEF",
          name + "=0123456789ABCDEF.", name + "=0123456789ABCDEF." + mark + "0",
          name + "=0123456789ABCDEF." + mark.substr(1),
          name + "=0123456789ABCDEF." + keys::phone_mark(other, House::phone),
          name + "=ALL." + keys::visitor_mark(house.secret, "ALL"),
          name + "=" + std::string(4000, 'A'), "caretaker=" + good.substr(good.find('=') + 1),
          House::caretaker(other, House::phone)}) {
        INFO(bad.substr(0, 80));
        CHECK(house.app().answer(with_cookie("/ALL", bad)).status == 403);
        CHECK_FALSE(
            has(house.app().answer(with_cookie(house.station("K1"), bad)).body, "name=\"seen\""));
    }
    // What a label's page gives is no proof either.
    const Response label = house.get_as_neighbour(house.station("K1"));
    CHECK(given(label).empty());
    // Beside another cookie the good one is found.
    CHECK(house.app().answer(with_cookie("/ALL", name + "=x.y; " + good)).status == 200);
}

TEST_CASE("a phone that was ended is the caretaker's no more, whatever it sends") {
    House house;
    const std::string lost = House::caretaker(house.secret, "LOSTLOSTLOST0000");
    CHECK(house.app().answer(with_cookie("/ALL", lost)).status == 200);
    const std::string listed = house.get("/ALL").body;
    CHECK(has(listed, "value=\"LOSTLOSTLOST0000\""));
    CHECK(has(listed, "this phone"));
    CHECK(house.post("/ALL/END", "phone=LOSTLOSTLOST0000").status == 303);
    CHECK(house.app().answer(with_cookie("/ALL", lost)).status == 403);
    CHECK_FALSE(
        has(house.app().answer(with_cookie(house.station("K1"), lost)).body, "name=\"seen\""));
    Request post = with_cookie(house.station("K1"), lost);
    post.method = "POST";
    post.headers["content-type"] = "application/x-www-form-urlencoded";
    post.body = "token=a&seen=9";
    CHECK(house.app().answer(post).status == 403);
    CHECK(house.recorded("K1").empty());
    std::string small = lost;
    small.replace(small.find("LOST"), 4, "lost");
    CHECK(house.app().answer(with_cookie("/ALL", small)).status == 403);
    CHECK_FALSE(has(house.get("/ALL").body, "LOSTLOST"));
    // Not even while the log cannot be read.
    std::filesystem::remove(house.log_file());
    CHECK(house.app().answer(with_cookie("/ALL", lost)).status == 403);
    // Of one that is not there nothing is made.
    CHECK(house.app()
              .answer(with_cookie("/ALL", House::caretaker(house.secret, House::phone)))
              .status == 503);
}

TEST_CASE("another site's page ends no phone and reads no report") {
    House house;
    CHECK(house.get("/ALL").status == 200);
    house.post_as_neighbour(house.station("K1") + "/TELL", "token=a&told=spilt");
    for (const auto& [path, body] :
         {std::pair("/ALL/END", std::string("phone=") + House::phone),
          std::pair("/ALL/READ", std::string("report=1")),
          std::pair("/ROUND", std::string("r1.id=K1&r1.token=x&r1.seen=4"))}) {
        Request sent = House::request("POST", path, "en");
        sent.headers["content-type"] = "application/x-www-form-urlencoded";
        sent.headers["origin"] = "http://elsewhere.example";
        sent.body = body;
        CHECK(house.app().answer(sent).status == 403);
        sent.headers["origin"] = "null";
        CHECK(house.app().answer(sent).status == 403);
    }
    // Nor does following a link change anything.
    for (const char* path : {"/ALL/END", "/ALL/READ"}) CHECK(house.get(path).status == 303);
    CHECK(house.get("/ALL").status == 200);
    CHECK_FALSE(house.visits().reports(1)[0].read);
    CHECK(house.recorded("K1").empty());
}

TEST_CASE("scanning many labels and codes as a neighbour leaves the log as it is") {
    House house;
    const std::string before = system::read_file(house.log_file());
    for (const char* id : {"K1", "K2", "C1"}) house.get_as_neighbour(house.station(id));
    for (int i = 0; i < 5; ++i) house.get_as_neighbour(house.code());
    CHECK(system::read_file(house.log_file()) == before);
}

}  // namespace
}  // namespace gallipot::web
