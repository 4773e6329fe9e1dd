#include "house.hpp"
#include "tracking/keys/hash.hpp"

/// The household sheet at the log: whoever has its code reads it, and nothing else.
namespace gallipot::web {
namespace {

using tests::header;
using tests::House;

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string sheet_of(const House& house) {
    return "/HOME/" + keys::household_key(house.secret);
}

TEST_CASE("the household's code opens the sheet, in the language that the phone asks for") {
    House house;
    const std::string path = sheet_of(house);
    const Response page = house.get_as_neighbour(path);
    CHECK(page.status == 200);
    CHECK(page.type == "text/html; charset=utf-8");
    CHECK(page.body == "<p>the sheet in en</p>");
    CHECK(has(house.get_as_neighbour(path, "de-AT, en;q=0.5").body, "in de"));
    CHECK(has(house.get_as_neighbour(path, "ja").body, "in en"));  // the job's main one
    Request asked = House::request("GET", path, "de");
    asked.query.emplace("lang", "uk");
    CHECK(has(house.app().answer(asked).body, "in uk"));
    asked.query = {{"lang", "fr"}};  // none of the job's
    CHECK(has(house.app().answer(asked).body, "in de"));
    CHECK(has(house.get_as_neighbour("/home/" + keys::household_key(house.secret)).body, "in en"));
    CHECK(house.get(path).status == 200);  // the caretaker's phone
}

TEST_CASE("its page may use its own style and run nothing") {
    House house;
    const std::string policy =
        header(house.get_as_neighbour(sheet_of(house)), "Content-Security-Policy");
    CHECK(has(policy, "default-src 'none'; style-src 'sha256-" +
                          keys::sha256_base64(house.context().household_style) + "'"));
    CHECK_FALSE(has(policy, "script-src"));
}

TEST_CASE("a wrong key of the household's page is told no more than one of a station") {
    House house;
    const Response wrong = house.get_as_neighbour("/HOME/0000000000");
    CHECK(wrong.status == 404);
    CHECK(wrong.body == house.get_as_neighbour("/S/K1/0000000000").body);
    CHECK(house.get_as_neighbour("/HOME").status == 404);
    // Keys that open other pages do not open this one, nor this one's them.
    const std::string household = keys::household_key(house.secret);
    for (const std::string& other :
         {keys::overview_key(house.secret), keys::station_key(house.secret, "K1"),
          keys::station_key(house.secret, "HOME"), keys::station_key(house.secret, "household"),
          keys::station_key(house.secret, "")}) {
        CHECK(other != household);
        CHECK(house.get_as_neighbour("/HOME/" + other).status == 404);
    }
    CHECK(house.get_as_neighbour("/ALL/" + household).status == 404);
    CHECK(house.get_as_neighbour("/S/K1/" + household).status == 404);
    for (const std::string& line : house.told) CHECK_FALSE(has(line, household));
    const keys::Secret other{std::array<std::uint8_t, 32>{9}};
    CHECK(house.get_as_neighbour("/HOME/" + keys::household_key(other)).status == 404);
}

TEST_CASE("nothing hangs on the household's page, and nothing can be sent to it") {
    House house;
    const std::string path = sheet_of(house);
    for (const char* below : {"/SAVED/1", "/CORRECT/1", "/TELL", "/TOLD", "/VISITS.CSV", "/PHOTO"})
        CHECK(house.get_as_neighbour(path + below).status == 404);
    CHECK(house.post_as_neighbour(path, "token=a&seen=1").status == 404);
    CHECK(house.post(path, "token=a&seen=1").status == 404);
    // It makes nobody the caretaker.
    for (const auto& [name, value] : house.get_as_neighbour(path).headers)
        if (name == "Set-Cookie") CHECK(value.starts_with("known="));
}

TEST_CASE("guessing the household's key is slowed down like guessing any other") {
    House house({.wrong_keys = {2, std::chrono::hours(1)}});
    CHECK(house.get_as_neighbour("/HOME/0000000000").status == 404);
    CHECK(house.get_as_neighbour("/S/K1/0000000000").status == 404);
    CHECK(house.get_as_neighbour("/HOME/0000000001").status == 429);
    CHECK(house.get_as_neighbour(sheet_of(house)).status == 429);
    CHECK(house.get_as_neighbour(house.station("K1")).status == 429);
}

}  // namespace
}  // namespace gallipot::web
