#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <numbers>
#include <set>

#include "catch_all.hpp"

#include "domain/reference/substances.hpp"
#include "golden.hpp"
#include "hall.hpp"
#include "papers/fonts/fonts.hpp"

// gallipot substances, stocks, fonts and languages.

using namespace gallipot;
using nlohmann::json;
using tests::Hall;
using tests::Ran;
namespace fs = std::filesystem;

TEST_CASE("substances: every name, with its figures and where they are from", "[command][lists]") {
    const Ran all = Hall::run({"substances"});
    CHECK(all.exit == 0);
    const auto list = json::parse(Hall::run({"substances", "--json"}).out)["substances"];
    CHECK(list.size() == reference::substances().size());
    for (const auto& it : list) {
        const std::string name = it["name"];
        INFO(name);
        CHECK(all.says("  " + name + "  "));
        CHECK(it["density_g_per_mL"]["value"]["low"] <= it["density_g_per_mL"]["value"]["usual"]);
        const std::set<std::string> standings{"found", "memory", "derived"};
        for (const auto& [key, value] : it.items()) {
            if (!value.is_object()) continue;
            INFO(key);
            CHECK(standings.contains(value["standing"]));
            CHECK_FALSE(value["source"].get<std::string>().empty());
        }
        const Ran one = Hall::run({"substances", name});
        CHECK(one.exit == 0);
        CHECK(one.out.starts_with(name));
        CHECK(one.says(it["density_g_per_mL"]["source"].get<std::string>()));
    }
    // Boric acid: 10.81/61.83 (IUPAC abridged standard atomic weights) is 17.5 % boron.
    CHECK(Hall::run({"substances", "Boric Acid"}).says("17\u00A0%"));
    CHECK(json::parse(Hall::run({"substances", "boric acid", "--json"})
                          .out)["substances"][0]["boron_percent"] == Approx(17.48).epsilon(0.001));
    CHECK(all.says("read in the source"));
    CHECK(all.says("from memory"));
}

TEST_CASE("substances: other names and near spellings", "[command][lists]") {
    CHECK(Hall::run({"substances", "sodium tetraborate"}).out.starts_with("borax"));
    const Ran wrong = Hall::run({"substances", "boric acit"});
    CHECK(wrong.exit == 2);
    CHECK(wrong.complains("did you mean 'boric acid'?"));
}

TEST_CASE("stocks: every file of templates, with its geometry and what it fits",
          "[command][lists]") {
    const Ran all = Hall::run({"stocks"});
    const auto list = json::parse(Hall::run({"stocks", "--json"}).out)["stocks"];
    std::size_t files = 0;
    for (const auto& entry :
         fs::directory_iterator(fs::path(GALLIPOT_SOURCE_DIR) / "templates/stocks")) {
        ++files;
        INFO(entry.path());
        CHECK(all.says("  " + entry.path().stem().string() + "  "));
    }
    CHECK(list.size() == files);
    for (const auto& stock : list) {
        const std::string name = stock["name"];
        INFO(name);
        CHECK(all.says(stock["about"].get<std::string>()));
        // Its name states its geometry: a4-3x7 has three columns of seven.
        if (name == "a4-3x7") {
            CHECK(stock["columns"] == 3);
            CHECK(stock["rows"] == 7);
            CHECK(stock["page_width_mm"] == 210);
            CHECK(stock["fits"]["wall_height_least_mm"] == stock["label_height_mm"]);
            CHECK(stock["fits"]["wall_diameter_least_mm"] == Approx(63.5 / std::numbers::pi));
        }
        if (name == "a4-round-60") CHECK(stock["fits"]["lid_least_mm"] == 60);
        if (stock["shape"] == "strip")
            CHECK(stock["fits"]["wall_diameter_most_mm"].get<double>() * std::numbers::pi <
                  stock["label_width_mm"].get<double>());
    }
}

TEST_CASE("stocks: those of one's own are among them", "[command][lists]") {
    const tests::Folder folder;
    fs::create_directories(folder / "stocks");
    fs::copy_file(fs::path(GALLIPOT_SOURCE_DIR) / "templates/stocks/a4-3x7.yaml",
                  folder / "stocks/mine.yaml");
    CHECK(Hall::run({"stocks", "--templates", folder / "."}).says("  mine  "));
    CHECK(Hall::run({"stocks", "--templates", folder / "none"}).exit == 2);
}

TEST_CASE("fonts: the files that are used, and the scripts they do hold", "[command][lists]") {
    const auto list = json::parse(Hall::run({"fonts", "--json"}).out)["fonts"];
    REQUIRE(list.size() == 2);
    // The letters of each script's alphabet, by the Unicode code charts.
    const std::map<std::string, std::string> alphabets{
        {"Latin", "AaZzÄäßÑñŁłĐđŐőŊŋ"}, {"Greek", "ΑαΩωΆάς"}, {"Cyrillic", "АаЯяЇїЄєҐґЂђ"}};
    for (const auto& face : list) {
        const std::string path = face["path"];
        CHECK(fs::exists(path));
        CHECK(Hall::run({"fonts"}).says(path));
        CHECK(face["licence"] == "SIL Open Font License 1.1");
        const fonts::Font font(path);
        CHECK(face["scripts"].size() == alphabets.size());
        for (const std::string script : face["scripts"]) {
            INFO(script);
            REQUIRE(alphabets.contains(script));
            CHECK(fonts::uncovered(font, alphabets.at(script)).empty());
        }
    }
    CHECK(Hall::run({"fonts"}, {{"GALLIPOT_FONTS", "/nowhere"}}).exit == 0);
}

TEST_CASE("languages: each in its own name, and whether it says everything", "[command][lists]") {
    const Ran ran = Hall::run({"languages"});
    CHECK(ran.exit == 0);
    for (const std::string name : {"Deutsch", "English", "Español", "Filipino", "Українська"})
        CHECK(ran.says(name));
    const auto all = json::parse(Hall::run({"languages", "--json"}).out);
    for (const auto& language : all["languages"]) CHECK(language["complete"] == true);
    // One of one's own that is not finished.
    const tests::Folder folder;
    fs::create_directories(folder / "text");
    std::string english =
        tests::slurp(std::string(GALLIPOT_SOURCE_DIR) + "/templates/text/en.yaml");
    english.resize(english.find("\ncalendar:"));
    system::write_whole(folder / "text/tok.yaml", english);
    const Ran own = Hall::run({"languages", "--templates", folder / "."});
    INFO(own.err);
    CHECK(own.says("tok"));
    CHECK(own.says("texts differ or are missing"));
}

TEST_CASE("texts go out to a translator and come back", "[command][lists]") {
    const Hall hall;
    const std::string po = hall.folder / "es.po", yaml = hall.folder / "es.yaml";
    const auto out = Hall::run({"languages", "--po", "es", "--output", po});
    CHECK(out.exit == 0);
    CHECK(out.out == po + "\n");
    CHECK(Hall::run({"languages", "--import", po, "-o", yaml}).exit == 0);
    CHECK(system::read_file(yaml).find("  danger: \"PELIGRO\"") != std::string::npos);
    // Neither replaces what is there.
    CHECK(Hall::run({"languages", "--import", po, "-o", yaml}).exit == 2);
    CHECK(Hall::run({"languages", "--po", "es", "-o", hall.folder / "hall.sqlite"}).exit == 2);
    CHECK(Hall::run({"languages", "-o", yaml}).exit == 2);
}
