#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "catch_all.hpp"

#include "cli/hall.hpp"

// gallipot round: whom to see next, what to do, make and print.

using namespace gallipot;
using nlohmann::json;
using tests::Hall;
using tests::Ran;
namespace fs = std::filesystem;

namespace {

class Walked : public Hall {
  public:
    Walked() {
        const fs::path csv = fs::path(GALLIPOT_SOURCE_DIR) / "examples" / "hall-visits.csv";
        REQUIRE(run({"log", job, "--import", csv.string()}).exit == 0);
    }
    void visit_at(const std::string& time, const std::string& station,
                  std::vector<std::string> more) const {
        more.insert(more.begin(), {"visit", job, station, "--at", time});
        REQUIRE(run(more).exit == 0);
    }
    [[nodiscard]] json round_on(const std::string& day) const {
        const Ran ran = run({"round", job, "--on", day, "--json"});
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
        return json::parse(ran.out);
    }
    [[nodiscard]] json report_on(const std::string& day) const {
        const Ran ran = run({"report", job, "--as-of", day, "--json"});
        REQUIRE(ran.exit == 0);
        return json::parse(ran.out);
    }
};

json container(const json& round, const std::string& id) {
    for (const json& stop : round["stops"])
        for (const json& each : stop["containers"])
            if (each["id"] == id) return each;
    return nullptr;
}

}  // namespace

TEST_CASE("the round sees to a missing cup until it is there again", "[round]") {
    const Walked hall;
    hall.visit_at("2027-04-02 10:00", "K1-2", {"--state", "missing"});
    hall.visit_at("2027-04-03 10:00", "K1", {"--seen", "1", "--level", "40"});
    const json round = hall.round_on("2027-04-03");
    const json cup = container(round, "K1-2");
    REQUIRE(cup.is_object());
    CHECK(cup["state"] == json::array({"missing"}));
    CHECK(cup["do"] == json::array({"find"}));
    const auto labels = round["labels"].get<std::set<std::string>>();
    CHECK(labels.contains("K1-2"));
    hall.visit_at("2027-04-03 11:00", "K1-2", {"--did", "replaced"});
    const json after = container(hall.round_on("2027-04-03"), "K1-2");
    CHECK((after.is_null() || after["state"].empty()));
}

TEST_CASE("the round asks for what the report says is next, in the same order", "[round]") {
    const Walked hall;
    hall.visit_at("2027-04-02 10:00", "K1-2", {"--state", "missing"});
    hall.visit_at("2027-04-02 10:05", "K2", {"--state", "mouldy"});
    for (const std::string day : {"2027-03-20", "2027-04-02", "2027-04-05", "2027-05-01"}) {
        const json report = hall.report_on(day);
        const json& next = report["next_visits"].at(0);
        const json round = hall.round_on(next["on"]);
        const json same_day = hall.report_on(next["on"])["next_visits"].at(0);
        CHECK(round["on"] == same_day["on"]);
        REQUIRE(round["stops"].size() == same_day["stations"].size());
        for (std::size_t i = 0; i < round["stops"].size(); ++i) {
            const json& stop = round["stops"][i];
            CHECK(stop["station"] == same_day["stations"][i]["id"]);
            std::set<std::string> asked, said;
            for (const json& each : stop["containers"])
                for (const json& what : each["do"]) asked.insert(what);
            for (const json& step : same_day["stations"][i]["next"]) said.insert(step["do"]);
            CHECK(asked == said);
        }
    }
}

// By arithmetic: a cup of K1 takes 60 mL, and a tenth is to spare.
TEST_CASE("as much is made as the round takes, and labels are for what is filled afresh",
          "[round]") {
    const Walked hall;
    hall.visit_at("2027-04-02 10:00", "K1-2", {"--state", "missing"});
    hall.visit_at("2027-04-02 10:01", "K1-1", {"--state", "mouldy", "--level", "50"});
    const Ran ran =
        hall.run({"round", hall.job, "--on", "2027-04-02", "--stations", "K1", "--json"});
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    const json round = json::parse(ran.out);
    REQUIRE(round["make"].size() == 1);
    const json& syrup = round["make"][0];
    CHECK(syrup["mix"] == "syrup");
    CHECK(syrup["containers"] == 2);
    CHECK(round["labels"] == json::array({"K1-1", "K1-2"}));
    CHECK(syrup["needed_mL"].get<double>() == Approx(2 * 60 * 1.1));
    double mass = 0, borax = 0;
    for (const json& each : syrup["ingredients"]) {
        mass += each["g"].get<double>();
        if (each["name"] == "borax") borax = each["g"];
    }
    CHECK(borax / mass == Approx(0.01).epsilon(0.05));  // 1 %, to the job's tolerance
}

TEST_CASE("the papers of a round are its sheet, its cards and its labels", "[round]") {
    const Walked hall;
    hall.visit_at("2027-04-02 10:00", "K1-2", {"--state", "missing"});
    const std::string folder = hall.folder / "round";
    const std::string templates = hall.folder / "templates";
    fs::create_directory(templates);
    const Ran ran =
        hall.run({"round", hall.job, "--on", "2027-04-02", "-o", folder, "--language", "en",
                  "--stock", "letter-2x5", "--start-at", "3", "--templates", templates});
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    for (const char* name : {"round.pdf", "cards.pdf", "labels.pdf"})
        CHECK(fs::file_size(fs::path(folder) / name) > 1000);
}

TEST_CASE("a round on a day without anything due says when the next one is", "[round]") {
    const Hall hall;
    const Ran ran = hall.run({"round", hall.job, "--on", "2027-02-01", "--json"});
    REQUIRE(ran.exit == 0);
    const json round = json::parse(ran.out);
    CHECK(round["stops"].empty());
    CHECK(round["labels"].empty());
    CHECK(round["next_on"].is_string());
    CHECK(hall.run({"round", hall.job, "--on", "soon"}).exit == 2);
    CHECK(hall.run({"round", hall.job, "--stations", "K77"}).complains("K77"));
}

TEST_CASE("a batch too small for the spoons there are is made as large as at first", "[round]") {
    const Hall hall;
    const std::string paste = hall.folder / "paste.yaml";
    REQUIRE(hall.run({"new", paste, "--from", "paste"}).exit == 0);
    REQUIRE(hall.run({"visit", paste, "K1-1", "--state", "missing", "--at", "2027-06-10 10:00"})
                .exit == 0);
    const Ran ran = hall.run({"round", paste, "--on", "2027-06-10", "--json"});
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    const json round = json::parse(ran.out);
    REQUIRE(round["make"].size() == 1);
    CHECK(round["labels"] == json::array({"K1-1"}));
    CHECK(round["make"][0]["finished_mL"] > 2 * round["make"][0]["needed_mL"].get<double>());
}

TEST_CASE("a round says how coarsely its own batch is measured", "[round]") {
    const Walked hall;
    hall.visit_at("2027-04-02 10:00", "K1-2", {"--state", "missing"});
    const Ran ran = hall.run({"round", hall.job, "--on", "2027-04-02", "--stations", "K1"});
    CHECK(ran.exit == 0);
    CHECK(ran.complains("[coarse-scale]"));
    CHECK_FALSE(ran.complains("[little-bait]"));
}
