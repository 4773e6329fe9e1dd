#include "web/compression.hpp"

#include <cstdio>
#include <fstream>

#include "catch_all.hpp"

#include "served.hpp"

namespace gallipot::web {
namespace {

using tests::House;
using tests::Served;

/// What another program, gzip, makes of it.
std::string unpacked(const std::string& bytes) {
    const tests::Folder folder;
    const std::string file = folder / "page.gz";
    std::ofstream(file, std::ios::binary) << bytes;
    FILE* pipe = ::popen(("gzip -dc '" + file + "'").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string text;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) text += static_cast<char>(c);
    CHECK(::pclose(pipe) == 0);
    return text;
}

Response get(House& house, const std::string& path, const std::string& accepted) {
    Request asked = House::request("GET", path, "en");
    asked.headers["accept-encoding"] = accepted;
    return house.app().answer(asked);
}

/// Without the form's token, which is another each time.
std::string without_token(std::string page) {
    const std::string token = tests::hidden_value(page, "token");
    for (auto at = page.find(token); !token.empty() && at != std::string::npos;
         at = page.find(token, at))
        page.erase(at, token.size());
    return page;
}

}  // namespace

// RFC 9110, 12.5.3.
TEST_CASE("compression: who takes gzip") {
    for (const char* yes : {"gzip", "gzip, deflate, br", "br;q=1.0, gzip;q=0.8, *;q=0.1", "GZIP",
                            "x-gzip", "*", "deflate ,gzip ;q=0.5", "identity;q=0, *;q=0.5"})
        CHECK(takes_gzip(yes));
    for (const char* no : {"", "identity", "br", "gzip;q=0", "gzip;q=0.000, *", "*;q=0", "gzipped",
                           "deflate;gzip", "gzip;q=x", ",,;;"})
        CHECK_FALSE(takes_gzip(no));
}

TEST_CASE("compression: the same page, shorter") {
    House house;
    for (const std::string& path :
         {house.station("K1"), House::overview(), std::string("/ROUND")}) {
        const Response plain = get(house, path, "");
        const Response packed = get(house, path, "gzip, deflate, br");
        CHECK(tests::header(plain, "Content-Encoding").empty());
        CHECK(tests::header(packed, "Content-Encoding") == "gzip");
        CHECK(tests::header(packed, "Vary").find("Accept-Encoding") != std::string::npos);
        CHECK(tests::header(plain, "Vary") == tests::header(packed, "Vary"));
        CHECK(packed.body.size() * 2 < plain.body.size());
        const std::string page = unpacked(packed.body);
        CHECK(page.ends_with("</html>\n"));
        if (path != "/ROUND") CHECK(without_token(page) == without_token(plain.body));
    }
}

TEST_CASE("compression: what is short, or no text, stays as it is") {
    House house;
    CHECK(tests::header(get(house, "/robots.txt", "gzip"), "Content-Encoding").empty());
    Response photo;
    photo.type = "image/jpeg";
    photo.body.assign(10'000, 'x');
    Request asked;
    asked.headers["accept-encoding"] = "gzip";
    compress(asked, photo);
    CHECK(photo.body.size() == 10'000);
}

TEST_CASE("compression: not where a neighbour's words stand beside the stations' keys") {
    House house;
    house.post_as_neighbour(house.station("K1") + "/TELL", "token=t&words=" + std::string(9, 'A'));
    REQUIRE(house.visits().reports(1).size() == 1);
    for (const std::string& path : {House::overview(), house.station("K1")}) {
        const Response page = get(house, path, "gzip");
        CHECK(page.body.find("AAAAAAAAA") != std::string::npos);
        CHECK(tests::header(page, "Content-Encoding").empty());
    }
    CHECK(tests::header(get(house, house.station("K2"), "gzip"), "Content-Encoding") == "gzip");
    // The list of all reports holds no key, so it may be.
    Request told = House::request("GET", "/ALL", "en");
    told.query.emplace("show", "told");
    const std::string list = house.app().answer(told).body;
    CHECK(list.find("AAAAAAAAA") != std::string::npos);
    for (const auto& station : house.context().job.stations)
        CHECK(list.find(keys::station_key(house.secret, *station.id)) == std::string::npos);
    // Looked at, it is on the overview no more.
    house.post("/ALL/READ", "report=1");
    CHECK(tests::header(get(house, House::overview(), "gzip"), "Content-Encoding") == "gzip");
}

TEST_CASE("compression: over a socket, and HEAD says the same") {
    const Served served;
    const auto ask = [&](const std::string& method) {
        return served.ask(method + " " + served.house.station("K1") +
                          " HTTP/1.1\r\nHost: 127.0.0.1\r\nAccept-Encoding: gzip\r\nCookie: " +
                          Served::cookie() + "\r\n\r\n");
    };
    const std::string got = ask("GET");
    const std::string head = ask("HEAD");
    const auto body = got.find("\r\n\r\n") + 4;
    CHECK(unpacked(got.substr(body)).ends_with("</html>\n"));
    CHECK(got.find("Content-Length: " + std::to_string(got.size() - body)) != std::string::npos);
    CHECK(head.find("Content-Encoding: gzip") != std::string::npos);
    CHECK(head.ends_with("\r\n\r\n"));
}

}  // namespace gallipot::web
