#include "house.hpp"
#include "tracking/keys/hash.hpp"

/// The round: all its stops in one form, each row with a token of its own.
namespace gallipot::web {
namespace {

using tests::header;
using tests::hidden_value;
using tests::House;
using tests::times;

bool has(const std::string& page, const std::string& part) {
    return page.find(part) != std::string::npos;
}

/// The row of a station: "r3."
std::string row_of(const std::string& page, const std::string& id) {
    const std::string end = ".id\" value=\"" + id + "\"";
    const auto at = page.find(end);
    REQUIRE(at != std::string::npos);
    const auto from = page.rfind('"', at) + 1;
    return page.substr(from, at - from) + ".";
}

std::string field(const std::string& row, const std::string& name, const std::string& value) {
    return "&" + row + name + "=" + value;
}

/// The fields that a browser sends of an untouched row.
std::string row_sent(const std::string& page, const std::string& id) {
    const std::string row = row_of(page, id);
    return field(row, "id", id) + field(row, "token", hidden_value(page, row + "token"));
}

TEST_CASE("round page: every stop once, in walking order, with what is to be done") {
    House house;
    const std::string page = house.get("/ROUND").body;
    const auto evidence = house.context().evidence_now();
    REQUIRE(evidence->rounds.size() > 0);
    std::size_t from = 0;
    for (const auto& stop : evidence->rounds.front().stops) {
        const std::string& id = house.context().plan.station_at(stop.station).id;
        INFO(id);
        const auto at = page.find("data-station=\"" + id + "\"");
        CHECK(at != std::string::npos);
        CHECK(at > from);
        from = at;
        CHECK(times(page, "data-station=\"" + id + "\"") == 1);
    }
    CHECK(times(page, "class=\"stop\"") == int(evidence->rounds.front().stops.size()));
    CHECK(has(page, "All well, same level"));
    CHECK(times(page, "<form") == 1);
    CHECK(times(page, "<h3><a") == 0);  // floors without names: stops come right below the page
    CHECK(has(page, "<svg class=\"map\""));
    CHECK(has(page, "href=\"#stop-K1\""));
    for (const char* language : {"es", "de", "fil", "uk"})
        CHECK(house.get("/ROUND", language).status == 200);
}

TEST_CASE("round page: its script is allowed by its hash, and is on no other page") {
    House house;
    const Response page = house.get("/ROUND");
    CHECK(times(page.body, "<script>") == 1);
    const auto from = page.body.find("<script>") + 8;
    const std::string script = page.body.substr(from, page.body.find("</script>") - from);
    CHECK(has(header(page, "Content-Security-Policy"),
              "script-src 'sha256-" + keys::sha256_base64(script) + "'"));
    CHECK_FALSE(has(header(page, "Content-Security-Policy"), "unsafe"));
    for (const std::string& path : {house.station("K1"), std::string("/ALL")}) {
        CHECK_FALSE(has(house.get(path).body, script));
    }
}

TEST_CASE("round: sent once, each row is answered; sent again, nothing is there twice") {
    House house;
    const std::string page = house.get("/ROUND").body;
    const std::string k1 = row_of(page, "K1");
    const std::string k2 = row_of(page, "K2");
    const std::string c1 = row_of(page, "C1");
    std::string body = "opened=2027-03-18+08%3A05&by=Kim";
    for (const char* id : {"K1", "K2", "C1", "E1"}) body += row_sent(page, id);
    body += field(k1, "seen", "4") + field(k1, "well", "yes") + field(k1, "station", "K1");
    body += field(k2, "seen", "a+few") + field(k2, "note", "behind+it");
    body += field(c1, "seen", "12") + field(c1, "time", "2027-03-17T18%3A30");
    for (int again = 0; again < 2; ++again) {
        const Response sent = house.post("/ROUND", body);
        CHECK(sent.status == 422);
        CHECK(has(sent.body, "2 of 4 saved"));
        CHECK(has(sent.body, "Not saved yet:</b> 1 stop"));
        CHECK(has(sent.body, "data-ack=\"" + hidden_value(page, k1 + "token") + "\""));
        CHECK_FALSE(has(sent.body, "data-ack=\"" + hidden_value(page, k2 + "token") + "\""));
        CHECK(has(sent.body, "value=\"a few\""));
        CHECK(has(sent.body, "behind it"));
        CHECK(hidden_value(sent.body, k2 + "token") == hidden_value(page, k2 + "token"));
        CHECK(has(sent.body, "data-station=\"E1\""));  // not filled in, still there
        REQUIRE(house.recorded("K1").size() == 1);
        CHECK(house.recorded("K1")[0].visit.by == "Kim");
        CHECK(house.recorded("K1")[0].visit.seen == 4);
        CHECK(house.recorded("K1")[0].visit.level_percent == 100);
        REQUIRE(house.recorded("C1").size() == 1);
        CHECK(log::print_time(house.recorded("C1")[0].visit.time) == "2027-03-17 18:30");
        CHECK(house.recorded("K2").empty());
        CHECK(house.recorded("E1").empty());
    }
    // Another content under the same token is asked about, not recorded and not lost.
    const Response other =
        house.post("/ROUND", "by=Kim" + row_sent(page, "K1") + field(k1, "seen", "5"));
    CHECK(other.status == 422);
    CHECK(has(other.body, "saved before with other content"));
    CHECK(has(other.body, "/CORRECT/"));
    CHECK(house.recorded("K1").size() == 1);
}

TEST_CASE("round: opened long ago, it is asked once when all of it was seen") {
    House house;
    const std::string page = house.get("/ROUND").body;
    const std::string k1 = row_of(page, "K1");
    const std::string k2 = row_of(page, "K2");
    const std::string body = "opened=2027-03-18+05%3A05" + row_sent(page, "K1") +
                             field(k1, "seen", "4") + row_sent(page, "K2") +
                             field(k2, "seen", "5") + field(k2, "time", "2027-03-18T06%3A00");
    const Response asked = house.post("/ROUND", body);
    CHECK(asked.status == 422);
    CHECK(times(asked.body, "name=\"when\" value=\"now\"") == 1);
    CHECK(house.recorded("K1").empty());
    CHECK(house.recorded("K2").size() == 1);  // it says its time
    CHECK(house.post("/ROUND", body + "&when=2027-03-18+05%3A05").status == 200);
    REQUIRE(house.recorded("K1").size() == 1);
    CHECK(log::print_time(house.recorded("K1")[0].visit.time) == "2027-03-18 05:05");
}

TEST_CASE("round: when the log fails, nothing is recorded and every row comes back") {
    House house;
    const std::string page = house.get("/ROUND").body;
    const std::string k1 = row_of(page, "K1");
    const std::string c1 = row_of(page, "C1");
    const std::string body = "by=Kim" + row_sent(page, "K1") + field(k1, "note", "first") +
                             row_sent(page, "C1") + field(c1, "note", "second");
    const std::string good = system::read_file(house.log_file());
    std::filesystem::remove(house.log_file());
    const Response failed = house.post("/ROUND", body);
    CHECK(failed.status == 503);
    CHECK(has(failed.body, "first"));
    CHECK(has(failed.body, "second"));
    CHECK(has(failed.body, hidden_value(page, k1 + "token")));
    system::write_whole(house.log_file(), good);
    CHECK(house.post("/ROUND", body).status == 200);
    CHECK(house.recorded("K1").size() == 1);
    CHECK(house.recorded("C1").size() == 1);
}

TEST_CASE("round: rows of stations that are not there, and hostile rows, harm nothing") {
    House house;
    const Response odd = house.post(
        "/ROUND",
        "r1.id=Z9&r1.token=x&r1.seen=4&r2.id=K1-2&r2.token=y&r2.seen=4&r3.id=K1&r3.token="
        "z&r3.seen=4&r3.station=K2&r999.id=K2&r999.seen=4&r4.id=%3Cscript%3E&r4.note=q");
    CHECK(odd.status == 422);
    CHECK(has(odd.body, "no such station any more"));
    CHECK_FALSE(has(odd.body, "<script>alert"));
    CHECK(has(odd.body, "&lt;script&gt;"));
    for (const char* id : {"K1", "K2"}) CHECK(house.recorded(id).empty());
    CHECK(house.post("/ROUND", "").status == 200);
    std::string many;
    for (int i = 0; i < 5000; ++i) many += "&r1.x" + std::to_string(i) + "=1";
    CHECK(house.post("/ROUND", many).status == 400);
}

TEST_CASE("round: what is said in one row is that row's alone") {
    House house;
    const std::string page = house.get("/ROUND").body;
    const std::string k1 = row_of(page, "K1");
    const std::string k2 = row_of(page, "K2");
    const Response sent = house.post("/ROUND", row_sent(page, "K1") + field(k1, "state", "wet") +
                                                   field(k1, "did", "cleared") +
                                                   row_sent(page, "K2") + field(k2, "level", "25"));
    CHECK(sent.status == 200);
    CHECK(house.recorded("K1")[0].visit.state.has(visit::State::wet));
    CHECK_FALSE(house.recorded("K1")[0].visit.level_percent);
    CHECK(house.recorded("K2")[0].visit.state.empty());
    CHECK(house.recorded("K2")[0].visit.level_percent == 25);
}

}  // namespace
}  // namespace gallipot::web
