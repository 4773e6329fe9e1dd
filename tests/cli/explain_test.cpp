#include <nlohmann/json.hpp>

#include "catch_all.hpp"

#include "domain/job/bounds.hpp"
#include "domain/job/keys.hpp"
#include "hall.hpp"

using namespace gallipot;
using nlohmann::json;
using tests::Hall;
using tests::Ran;

TEST_CASE("every key is explained by its path and by its last step", "[command][explain]") {
    for (const job::Key& key : job::keys()) {
        INFO(key.path);
        const Ran by_path = Hall::run({"explain", std::string(key.path)});
        CHECK(by_path.exit == 0);
        CHECK(by_path.out.starts_with(std::string(key.path) + '\n'));
        CHECK(by_path.says(std::string(key.description)));
        CHECK(by_path.says(job::type_in_words(key)));
        CHECK(by_path.says(std::string(key.example)));
        CHECK(by_path.says(job::bounds_in_words(key)));
        if (key.name() == "*") continue;
        // Several may end in the same step: the others are named.
        const Ran by_name = Hall::run({"explain", std::string(key.name())});
        CHECK(by_name.exit == 0);
        CHECK(by_name.says(std::string(key.path)));
    }
}

TEST_CASE("a key may be written with a name of one's own, or without any", "[command][explain]") {
    for (const std::string way : {"mixes.*.basis", "mixes.syrup.basis", "mixes.basis", "basis"}) {
        INFO(way);
        CHECK(Hall::run({"explain", way}).out.starts_with("mixes.*.basis\n"));
    }
    CHECK(Hall::run({"explain", "title"}).out.starts_with("title\n"));
    CHECK(Hall::run({"explain", "title"}).says("Also: mixes.*.title"));
    CHECK(Hall::run({"explain", "mixes.syrup"}).exit == 2);  // a name is nothing to explain
}

TEST_CASE("a key says what is below it, its bounds and its default", "[command][explain]") {
    const Ran mix = Hall::run({"explain", "spare"});
    CHECK(mix.says("Left out: 10 %"));
    CHECK(mix.says("Bounds: 0 to 200 %"));
    CHECK(Hall::run({"explain", "containers.body"}).says("containers.*.body.lid"));
    CHECK(Hall::run({"explain", "lasts"}).says("Bounds: 1 hour to 5 years"));
    CHECK(Hall::run({"explain", "form"}).says("one of liquid, dry, paste, spray"));
}

TEST_CASE("a near spelling is offered", "[command][explain]") {
    const Ran ran = Hall::run({"explain", "ingredient"});
    CHECK(ran.exit == 2);
    CHECK(ran.complains("no key 'ingredient'; did you mean 'ingredients'?"));
    CHECK(Hall::run({"explain", "zzzzzz"}).complains("see gallipot explain"));
}

TEST_CASE("without a key all are listed, as JSON too", "[command][explain]") {
    const Ran tree = Hall::run({"explain"});
    const auto keys = json::parse(Hall::run({"explain", "--json"}).out)["keys"];
    CHECK(keys.size() == job::keys().size());
    for (const job::Key& key : job::keys()) CHECK(tree.says(std::string(key.description)));
    const auto one = json::parse(Hall::run({"explain", "form", "--json"}).out)["keys"];
    REQUIRE(one.size() == 1);
    CHECK(one[0]["path"] == "mixes.*.form");
    CHECK(one[0]["required"] == true);
    CHECK(one[0]["choices"].size() == 4);
    CHECK(one[0]["default"].is_null());
}
