#include "base/image/photo.hpp"

#include <fstream>
#include <regex>

#include "catch_all.hpp"

#include "base/image/pictures.hpp"
#include "house.hpp"
#include "multipart.hpp"

namespace gallipot::web {
namespace {

using tests::corners;
using tests::House;
using tests::jpeg_file;
using tests::multipart;
using Fields = std::vector<std::pair<std::string, std::string>>;

const std::string& red_photo() {
    static const std::string file = tests::with_exif(
        jpeg_file(corners(64, 48, {tests::red, tests::red, tests::red, tests::red})), 1, true);
    return file;
}
const std::string& blue_photo() {
    static const std::string file =
        jpeg_file(corners(64, 48, {tests::blue, tests::blue, tests::blue, tests::blue}));
    return file;
}

Request upload(const House& house, const std::string& station, const std::string& body,
               const std::string& type = tests::multipart_type) {
    Request sent = House::request("POST", house.station(station), "en");
    sent.headers["content-type"] = type;
    sent.body = body;
    return sent;
}

Response send(House& house, const Fields& fields, const std::vector<std::string>& photos,
              const std::string& station = "K1") {
    return house.app().answer(upload(house, station, multipart(fields, photos)));
}

std::string photo_path(const log::PhotoId& id) {
    return "/ALL/PHOTO/" + id;
}

}  // namespace

TEST_CASE("photos: kept with a visit, shown small, whole on a tap") {
    House house;
    const auto saved = send(house, {{"token", "t"}, {"seen", "4"}}, {red_photo(), blue_photo()});
    REQUIRE(saved.status == 303);
    const auto entry = house.recorded("K1").at(0);
    REQUIRE(entry.photos.size() == 2);
    for (const auto& page : {house.get(house.station("K1")), house.get(House::overview()),
                             house.get(house.station("K1") + "/SAVED/1"),
                             house.get(house.station("K1") + "/CORRECT/1")})
        for (const auto& id : entry.photos) {
            CHECK(page.body.find("ALL/PHOTO/" + id + "\" class=\"photo\"") != std::string::npos);
            CHECK(page.body.find("ALL/PHOTO/" + id + "?small=1\"") != std::string::npos);
        }
    const auto whole = house.get(photo_path(entry.photos[0]));
    CHECK(whole.status == 200);
    CHECK(whole.type == "image/jpeg");
    CHECK(whole.body.find("Exif") == std::string::npos);
    CHECK(whole.body.find(tests::owner) == std::string::npos);
    Request asked = House::request("GET", photo_path(entry.photos[0]), "en");
    asked.query.emplace("small", "1");
    CHECK(house.app().answer(asked).status == 200);
    // Asked again: the phone has it, and still may see it.
    asked.headers["if-none-match"] = tests::header(house.app().answer(asked), "ETag");
    CHECK(house.app().answer(asked).status == 304);
}

TEST_CASE("photos: for the caretaker's phone alone") {
    House house;
    send(house, {{"token", "t"}, {"seen", "4"}}, {red_photo()});
    const auto id = house.recorded("K1").at(0).photos.at(0);
    CHECK(house.get_as_neighbour(photo_path(id)).status == 403);
    const auto page = house.get_as_neighbour(house.station("K1"));
    CHECK(page.body.find(id) == std::string::npos);
    CHECK(page.body.find("type=\"file\"") == std::string::npos);
    // A neighbour's phone sends a visit with a photo: nothing is recorded, nothing kept.
    House other;
    Request sent = upload(other, "K1", multipart({{"token", "t"}, {"seen", "4"}}, {red_photo()}));
    CHECK(other.app().may_send_photos(sent));
    sent.headers.erase("cookie");
    CHECK_FALSE(other.app().may_send_photos(sent));
    CHECK(other.app().answer(sent).status == 403);
    CHECK(other.recorded("K1").empty());
    CHECK_FALSE(std::filesystem::exists(other.visits().photos().folder()));
    // An ended phone sees none any more.
    CHECK(house.get(photo_path(id)).status == 200);
    house.post("/ALL/END", std::string("phone=") + House::phone);
    CHECK(house.get(photo_path(id)).status == 403);
}

TEST_CASE("photos: a link that is none") {
    House house;
    send(house, {{"token", "t"}, {"seen", "4"}}, {red_photo()});
    const auto id = house.recorded("K1").at(0).photos.at(0);
    for (const std::string& wrong :
         {std::string("x"), std::string(64, 'a'), id + ".jpg", std::string(".."), "../" + id,
          std::string("../../hall.secret"), id.substr(0, 63) + "G", id + std::string(1, '\0')}) {
        INFO(wrong);
        CHECK(house.get("/ALL/PHOTO/" + wrong).status == 404);
    }
    Request sent = House::request("POST", photo_path(id), "en");
    CHECK(house.app().answer(sent).status == 404);
}

TEST_CASE("photos: a visit may be a photo alone, and a form sent twice has one") {
    House house;
    for (int i = 0; i < 2; ++i) {
        const auto saved = send(house, {{"token", "t"}}, {red_photo()});
        CHECK(saved.status == 303);
    }
    REQUIRE(house.recorded("K1").size() == 1);
    CHECK(house.recorded("K1").at(0).photos.size() == 1);
    const auto folder = house.visits().photos().folder();
    CHECK(std::distance(std::filesystem::directory_iterator(folder), {}) == 1);
    // The same photo twice in one form is one.
    send(house, {{"token", "u"}}, {red_photo(), red_photo()});
    CHECK(house.recorded("K1").at(0).photos.size() == 1);
    // With another photo it is another visit, which is asked about.
    const auto asked = send(house, {{"token", "t"}}, {blue_photo()});
    CHECK(asked.status == 409);
    CHECK(house.recorded("K1").size() == 2);
}

TEST_CASE("photos: a form with a fault keeps those that are good, without choosing again") {
    House house;
    const auto again = send(house, {{"token", "t"}, {"seen", "many"}}, {red_photo()});
    CHECK(again.status == 422);
    CHECK(house.recorded("K1").empty());
    const std::string id = std::filesystem::directory_iterator(house.visits().photos().folder())
                               ->path()
                               .stem()
                               .string();
    CHECK(again.body.find("value=\"" + id + "\"") != std::string::npos);
    CHECK(again.body.find("name=\"kept\"") != std::string::npos);
    const auto saved =
        send(house, {{"token", "t"}, {"seen", "4"}, {"photos", "yes"}, {"kept", id}}, {});
    CHECK(saved.status == 303);
    CHECK(house.recorded("K1").at(0).photos == std::vector<std::string>{id});
}

TEST_CASE("photos: what is wrong with one is said, with its number, and the rest comes back") {
    House house;
    const std::string cut = red_photo().substr(0, red_photo().size() / 2);
    for (const auto& [bad, says] : std::vector<std::pair<std::string, std::string>>{
             {"GIF89a", "neither a JPEG nor a PNG"},
             {cut, "is damaged"},
             {tests::png_head(60'000, 60'000), "more than 25 million pixels"},
             {"\xFF\xD8\xFF" + std::string(image::maximum_file, 'x'), "larger than 12 MB"}}) {
        INFO(says);
        const auto again =
            send(house, {{"token", "t"}, {"seen", "4"}, {"note", "as typed"}}, {blue_photo(), bad});
        CHECK(again.status == 422);
        CHECK(again.body.find(says) != std::string::npos);
        CHECK(again.body.find(" 2 ") != std::string::npos);
        CHECK(again.body.find("as typed") != std::string::npos);
        CHECK(again.body.find("href=\"#photo\"") != std::string::npos);
        CHECK(tests::times(again.body, "name=\"kept\"") == 1);
    }
    CHECK(house.recorded("K1").empty());
    std::vector<std::string> five;
    for (int size = 16; size < 21; ++size) five.push_back(jpeg_file(corners(size, size)));
    const auto again = send(house, {{"token", "t"}, {"seen", "4"}}, five);
    CHECK(again.status == 422);
    CHECK(again.body.find("4 photos at most") != std::string::npos);
    CHECK(tests::times(again.body, "name=\"kept\"") == 4);
}

TEST_CASE("photos: a correction keeps them, or leaves out what is not ticked, or adds") {
    House house;
    send(house, {{"token", "t"}, {"seen", "4"}}, {red_photo(), blue_photo()});
    const auto first = house.recorded("K1").at(0);
    SECTION("a form that does not know of photos keeps them") {
        house.post(house.station("K1"), "token=u&corrects=1&seen=5");
        CHECK(house.recorded("K1").at(0).photos == first.photos);
    }
    SECTION("one left out, one added") {
        send(house,
             {{"token", "u"},
              {"corrects", "1"},
              {"seen", "4"},
              {"photos", "yes"},
              {"kept", first.photos[1]}},
             {jpeg_file(corners(32, 32))});
        const auto now = house.recorded("K1").at(0);
        REQUIRE(now.photos.size() == 2);
        CHECK(now.photos[0] == first.photos[1]);
        CHECK(now.photos[1] != first.photos[0]);
        CHECK(house.visits().find(1)->photos == first.photos);
    }
    SECTION("all left out") {
        send(house, {{"token", "u"}, {"corrects", "1"}, {"seen", "4"}, {"photos", "yes"}}, {});
        CHECK(house.recorded("K1").at(0).photos.empty());
    }
    SECTION("a visit that is taken out shows none") {
        send(house, {{"token", "u"}, {"corrects", "1"}, {"withdraw", "yes"}, {"photos", "yes"}},
             {});
        CHECK(house.recorded("K1").empty());
        CHECK(house.get(house.station("K1")).body.find("ALL/PHOTO/") == std::string::npos);
    }
}

TEST_CASE("photos: one that was deleted by hand, or is not what it was") {
    House house;
    send(house, {{"token", "t"}, {"seen", "4"}}, {red_photo()});
    const auto id = house.recorded("K1").at(0).photos.at(0);
    const auto file = house.visits().photos().folder() / (id + ".jpg");
    SECTION("changed") {
        std::ofstream(file, std::ios::binary) << blue_photo();
        CHECK(house.get(photo_path(id)).status == 404);
        // Sent once more it is there again.
        send(house, {{"token", "u"}}, {red_photo()});
        CHECK(house.get(photo_path(id)).status == 200);
    }
    SECTION("gone") {
        std::filesystem::remove(file);
        CHECK(house.get(photo_path(id)).status == 404);
        const auto page = house.get(house.station("K1"));
        CHECK(page.status == 200);
        CHECK(page.body.find("A photo is not there any more") != std::string::npos);
    }
    SECTION("a link to something else") {
        std::filesystem::remove(file);
        std::filesystem::create_symlink("/etc/passwd", file);
        CHECK(house.get(photo_path(id)).status == 404);
    }
}

TEST_CASE("photos: forged forms are told, and record nothing") {
    House house;
    const std::string good = multipart({{"token", "t"}, {"seen", "4"}}, {red_photo()});
    SECTION("no boundary") {
        const auto answer = house.app().answer(upload(house, "K1", good, "multipart/form-data"));
        CHECK(answer.status == 400);
    }
    SECTION("cut on its way") {
        const auto answer =
            house.app().answer(upload(house, "K1", good.substr(0, good.size() - 40)));
        CHECK(answer.status == 400);
        CHECK(answer.body.find("value=\"4\"") != std::string::npos);
    }
    SECTION("a thousand files") {
        const auto answer =
            send(house, {{"token", "t"}, {"seen", "4"}}, std::vector<std::string>(1000, "x"));
        CHECK(answer.status == 400);
    }
    SECTION("kept photos that are none") {
        const auto answer = send(house,
                                 {{"token", "t"},
                                  {"photos", "yes"},
                                  {"kept", "../../hall.secret"},
                                  {"kept", std::string(64, 'a')}},
                                 {});
        CHECK(answer.status == 422);
    }
    SECTION("from another site's page") {
        Request sent = upload(house, "K1", good);
        sent.headers["origin"] = "http://elsewhere.example.org";
        CHECK(house.app().answer(sent).status == 403);
    }
    CHECK(house.recorded("K1").empty());
}

TEST_CASE("photos: where the folder cannot be written, nothing is recorded and all comes back") {
    House house;
    std::ofstream(house.visits().photos().folder()) << "in the way";
    const auto answer =
        send(house, {{"token", "t"}, {"seen", "4"}, {"note", "as typed"}}, {red_photo()});
    CHECK(answer.status == 503);
    CHECK(answer.body.find("Not saved.") != std::string::npos);
    CHECK(answer.body.find("as typed") != std::string::npos);
    CHECK(house.recorded("K1").empty());
    CHECK(send(house, {{"token", "t"}, {"seen", "4"}}, {}).status == 303);
}

TEST_CASE("photos: the page allows its script and its own pictures alone") {
    House house;
    const auto page = house.get(house.station("K1"));
    const auto policy = tests::header(page, "Content-Security-Policy");
    CHECK(policy.find("img-src 'self' data:") != std::string::npos);
    CHECK(policy.find("script-src 'sha256-") != std::string::npos);
    CHECK(page.body.find("enctype=\"multipart/form-data\"") != std::string::npos);
    CHECK(tests::header(house.get_as_neighbour(house.station("K1")), "Content-Security-Policy")
              .find("script-src") == std::string::npos);
}

}  // namespace gallipot::web
