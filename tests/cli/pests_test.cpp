#include "domain/reference/pests.hpp"

#include <nlohmann/json.hpp>
#include <string>

#include "catch_all.hpp"

#include "golden.hpp"
#include "hall.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using nlohmann::json;

TEST_CASE("pests: every one, with its support, figures and sources", "[command][lists]") {
    const Ran all = Hall::run({"pests"});
    CHECK(all.exit == 0);
    const auto list = json::parse(Hall::run({"pests", "--json"}).out)["pests"];
    REQUIRE(list.size() == reference::pests().size());
    for (const auto& pest : list) {
        const std::string name = pest["name"];
        INFO(name);
        CHECK(all.says(name));
        CHECK(pest["support"]["source"].get<std::string>().size() > 5);
        const Ran one = Hall::run({"pests", name});
        CHECK(one.exit == 0);
        for (const auto& advice : pest["advice"]) {
            CHECK_FALSE(advice["source"].get<std::string>().empty());
            CHECK_FALSE(advice["text"].get<std::string>().empty());
        }
    }
}

TEST_CASE("a pest is found by any of its names, and explained", "[command][lists]") {
    const Ran termites = Hall::run({"pests", "white ants"});
    CHECK(termites.says("termites"));
    CHECK(termites.says("Grace and Yamamoto"));
    CHECK(Hall::run({"explain", "termites"}).out == termites.out);
    CHECK(json::parse(Hall::run({"explain", "cockroaches", "--json"})
                          .out)["pests"][0]["gone"]["value"]["none_seen_days"] == 45);
    const Ran unknown = Hall::run({"pests", "antz"});
    CHECK(unknown.exit == 2);
    CHECK(unknown.complains("did you mean"));
}

// The code stands in brackets behind the message; once it is accepted the job is good.
TEST_CASE("check lists what a job accepts, once", "[command]") {
    const Hall hall;
    std::string text = slurp(hall.job);
    const std::string from = "{ borax: 1, sugar: ";
    REQUIRE(text.find(from) != std::string::npos);
    text.replace(text.find(from), from.size(), "{ borax: 8, sugar: ");
    text.replace(text.find("limits: { borax: 1.5 }"), 22, "limits: { borax: 9.5 }");
    // So strong it would have to be shut in where children or pets are.
    for (const std::string within_reach : {"children, ", "pets, "})
        for (auto at = text.find(within_reach); at != std::string::npos;
             at = text.find(within_reach))
            text.erase(at, within_reach.size());
    const Ran refused = Hall::run({"check", hall.write("far.yaml", text)});
    CHECK(refused.exit == 1);
    CHECK(refused.complains("[far-from-usual]"));
    CHECK(refused.complains("accept: [far-from-usual]"));
    const Ran accepted =
        Hall::run({"check", hall.write("meant.yaml", "accept: [far-from-usual]\n" + text)});
    CHECK(accepted.exit == 0);
    CHECK_FALSE(accepted.complains("far-from-usual"));
    CHECK(accepted.says("Accepted in this job:"));
    CHECK(accepted.says("[far-from-usual]"));
    const Ran slip =
        Hall::run({"check", hall.write("slip.yaml", "accept: [far-from-usal]\n" + text)});
    CHECK(slip.exit == 1);
    CHECK(slip.complains("accepts-nothing"));
}
