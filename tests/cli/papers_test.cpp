#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "catch_all.hpp"

#include "golden.hpp"
#include "hall.hpp"
#include "languages.hpp"

using namespace gallipot;
using nlohmann::json;
using tests::Hall;

namespace {

/// The hall's job with other lines, rendered or planned from its own folder.
std::string with(const Hall& hall, const std::string& from, const std::string& to) {
    std::string text = system::read_file(hall.job);
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return hall.write("hall.yaml", text.replace(at, from.size(), to));
}

bool is_there(const Hall& hall, const std::string& file) {
    return std::filesystem::exists(hall.folder / file);
}

}  // namespace

TEST_CASE("the alignment page is made when it is asked for and not otherwise",
          "[command][papers]") {
    const Hall hall;
    const auto only =
        Hall::run({"render", hall.job, "-o", hall.folder / "a", "--only", "alignment"});
    CHECK(only.exit == 0);
    CHECK(is_there(hall, "a/alignment.pdf"));
    CHECK_FALSE(is_there(hall, "a/labels.pdf"));
    const auto usual = Hall::run({"render", hall.job, "-o", hall.folder / "b", "--only", "labels"});
    CHECK(usual.exit == 0);
    CHECK(is_there(hall, "b/labels.pdf"));
    CHECK_FALSE(is_there(hall, "b/alignment.pdf"));
    CHECK(Hall::run({"render", "--help"}).says("alignment"));
}

TEST_CASE("what one container holds is printed for the caretaker without a log's address too",
          "[command][papers]") {
    const Hall hall;
    with(hall, "log:\n  address: http://192.168.1.20:8017\n", "");
    const auto ran =
        Hall::run({"render", hall.job, "-o", hall.folder / "a", "--only", "caretaker"});
    INFO(ran.err);
    CHECK(ran.exit == 0);
    for (const char* language : {"en", "es", "de", "fil", "uk"})
        CHECK(is_there(hall, std::string("a/caretaker-") + language + ".pdf"));
}

TEST_CASE("each flat and each floor has a sheet of its own, and the household one in pictures",
          "[command][papers]") {
    const Hall hall;
    std::string text = system::read_file(hall.job);
    for (const auto& [id, more] : {std::pair{"id: K1,", "unit: Flat 1,"},
                                   {"id: K2,", "unit: Flat 1,"},
                                   {"id: R1,", "unit: Flat 2,"}}) {
        const auto at = text.find(id);
        REQUIRE(at != std::string::npos);
        text.insert(at + std::string(id).size(), std::string(" ") + more);
    }
    static_cast<void>(hall.write("hall.yaml", text));
    const auto ran = Hall::run({"render", hall.job, "-o", hall.folder / "a", "--only", "homes"});
    INFO(ran.err);
    CHECK(ran.exit == 0);
    for (const std::string language : {"en", "es", "de", "fil", "uk"}) {
        const std::string file = hall.folder / ("a/homes-" + language + ".pdf");
        REQUIRE(std::filesystem::exists(file));
        // A sheet each, headed by its name, with the flat's own stations.
        const std::string read = file + ".txt";
        REQUIRE(std::system(("pdftotext '" + file + "' '" + read + "'").c_str()) == 0);
        const std::string all = system::read_file(read);
        for (const char* part : {"Flat 1", "Flat 2", "K1-1", "R1-1", "13 11 26"}) {
            INFO(part);
            CHECK(all.find(part) != std::string::npos);
        }
        CHECK(all.find("Flat 1") < all.find("Flat 2"));
    }
    CHECK_FALSE(is_there(hall, "a/household-en.pdf"));
    CHECK_FALSE(is_there(hall, "a/pictures.pdf"));

    const auto sheets =
        Hall::run({"render", hall.job, "-o", hall.folder / "b", "--only", "household"});
    CHECK(sheets.exit == 0);
    CHECK(is_there(hall, "b/household-uk.pdf"));
    CHECK(is_there(hall, "b/pictures.pdf"));
    CHECK_FALSE(is_there(hall, "b/homes-en.pdf"));

    const Hall one_home;
    const auto none =
        Hall::run({"render", one_home.job, "-o", one_home.folder / "a", "--only", "homes"});
    CHECK(none.complains("[one-home]"));
    CHECK_FALSE(is_there(one_home, "a/homes-en.pdf"));
}

TEST_CASE("a language without texts is the job's error, at its place", "[command][papers]") {
    const Hall hall;
    with(hall, "languages: [", "languages: [en, cy] # [");
    const auto ran = Hall::run({"render", hall.job, "-o", hall.folder / "a"});
    CHECK(ran.exit == 1);
    CHECK(ran.complains("hall.yaml:6:17: error: there are no texts in the language 'cy'"));
    CHECK(ran.complains(fmt::format("fix: choose among {},", fmt::join(tests::languages(), ", "))));
    CHECK_FALSE(is_there(hall, "a"));
}

TEST_CASE("a letter that no font has is told once, where the job first holds it",
          "[command][papers]") {
    const Hall hall;
    // In a comment nothing is amiss; in a title it comes to all papers.
    with(hall, "title: ", "# \U0001F41C\ntitle: \U0001F41C\U00013080 # ");
    const auto ran = Hall::run({"check", hall.job});
    CHECK(ran.exit == 1);
    CHECK(
        ran.complains(":8: error: the papers cannot print '\U0001F41C' (U+1F41C): no font has a "
                      "letter for it [no-letter]"));
    CHECK(ran.complains(":9: error: the papers cannot print '\U00013080' (U+13080): "));
    CHECK(ran.complains("2 errors"));
    CHECK_FALSE(ran.complains("does-not-fit"));
    // Written as a code it stands nowhere in the file, so the paper is named.
    const Hall other;
    with(other, "title: ", "title: \"\\U0001F41C\" # ");
    const auto named = Hall::run({"check", other.job});
    CHECK(named.exit == 1);
    CHECK(named.complains("no font has a letter for U+1F41C [does-not-fit]"));
    CHECK(named.complains("hall.yaml:2:8: error: "));
}

TEST_CASE("what does not fit has a place: where the stock was chosen, or where the word stands",
          "[command][papers]") {
    const Hall hall;
    const std::vector<std::string> labels{"render",          hall.job, "-o",
                                          hall.folder / "a", "--only", "labels"};
    const auto with_stock = [&](const std::string& stock) {
        auto arguments = labels;
        arguments.insert(arguments.end(), {"--stock", stock});
        return Hall::run(arguments);
    };
    CHECK(with_stock("a4-9x9").complains(
        "command line:1:9: error: there is no label sheet called 'a4-9x9'"));
    const auto small = with_stock("roll-50x30-203");
    INFO(small.err);
    CHECK(small.exit == 1);
    CHECK(small.complains("command line:1:9: error: label"));
    with(hall, "labels: a4-2x4", "labels: roll-50x30-203");
    const auto in_job = Hall::run(labels);
    CHECK(in_job.complains("hall.yaml:8:9: error: label"));
    const Hall other;
    const std::string wide(60, 'W');
    with(other, "Kitchen, behind the bins", wide);
    const auto word = Hall::run({"check", other.job});
    INFO(word.err);
    CHECK(word.exit == 1);
    CHECK(word.complains("hall.yaml:66:21: error: "));
    CHECK(word.complains("does-not-fit"));
    CHECK_FALSE(word.complains("hall.yaml: error"));
    CHECK_FALSE(word.complains("hall.yaml: warning"));
}

TEST_CASE("where two languages find no room on a label there is one in each, of vessels too",
          "[command][papers]") {
    const Hall hall;
    with(hall, "languages: [", "languages: [en, es] # [");
    const auto ran = Hall::run(
        {"render", hall.job, "-o", hall.folder / "a", "--only", "labels", "--stock", "a4-2x7"});
    CHECK(ran.exit == 0);
    CHECK(ran.complains("a4-2x7 (99.1 x 38.1 mm) has no room for two languages in full"));
    CHECK(ran.complains("two labels each, in 'en' and in 'es': K1-1, K1-2, K2, E1 and "));
    CHECK(ran.complains("[label-in-each-language]"));
    // Vessels and jars among them: the words of the one language as often as those of the other.
    const auto text = hall.folder / "text";
    REQUIRE(std::system(("pdftotext '" + (hall.folder / "a/labels.pdf").string() + "' '" +
                         text.string() + "'")
                            .c_str()) == 0);
    const auto in_text = [words = tests::slurp(text.string())](std::string_view wanted) {
        int found = 0;
        for (auto at = words.find(wanted); at != std::string::npos; at = words.find(wanted, at + 1))
            ++found;
        return found;
    };
    CHECK(in_text("DANGER") > 10);
    CHECK(in_text("PELIGRO") == in_text("DANGER"));
    CHECK(in_text("BOTTLE") == 1);
    CHECK(in_text("BOTELLA") == 1);
    CHECK(in_text("LEFT OVER") == in_text("SOBRANTE"));
}

TEST_CASE("a container's own label stocks each have a file, and its lid's label is a small one",
          "[command][papers]") {
    const Hall hall;
    with(hall, "cup: { holds: 90 mL,", "cup: { labels: [a4-2x3, a4-round-50], holds: 90 mL,");
    const auto ran = Hall::run(
        {"render", hall.job, "-o", hall.folder / "a", "--only", "labels", "--language", "en"});
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    const auto words = [&](const std::string& file) {
        const auto out = hall.folder / "text";
        REQUIRE(std::system(("pdftotext '" + (hall.folder / "a" / file).string() + "' '" +
                             out.string() + "'")
                                .c_str()) == 0);
        return tests::slurp(out.string());
    };
    const auto has = [](const std::string& text, const std::string& what) {
        return text.find(what) != std::string::npos;
    };
    const auto rest = words("labels.pdf"), wall = words("labels-a4-2x3.pdf"),
               lid = words("labels-a4-round-50.pdf");
    CHECK(has(rest, "K2"));
    CHECK(has(rest, "BOTTLE"));
    CHECK_FALSE(has(rest, "K1-1"));
    for (const auto* id : {"K1-1", "K1-2", "E1", "Y1"}) {
        CHECK(has(wall, id));
        CHECK(has(lid, id));
    }
    CHECK(has(wall, "May damage fertility"));
    CHECK_FALSE(has(lid, "May damage fertility"));
    CHECK((has(lid, "13 11 26") || has(lid, "13\u00A011\u00A026")));
    // All on one stock where the command names it.
    const auto one = Hall::run({"render", hall.job, "-o", hall.folder / "b", "--only", "labels",
                                "--language", "en", "--stock", "a4-2x2"});
    CHECK(one.exit == 0);
    CHECK_FALSE(is_there(hall, "b/labels-a4-2x3.pdf"));
    // Less ink, the same words.
    const auto light = Hall::run({"render", hall.job, "-o", hall.folder / "d", "--only", "labels",
                                  "--language", "en", "--ink", "light"});
    CHECK(light.exit == 0);
    CHECK(words("../d/labels.pdf") == rest);
    CHECK(system::read_file(hall.folder / "d/labels.pdf") !=
          system::read_file(hall.folder / "a/labels.pdf"));
    // The small one alone leaves out what must be said.
    const auto small = Hall::run({"render", hall.job, "-o", hall.folder / "c", "--only", "labels",
                                  "--stock", "a4-round-50"});
    CHECK(small.exit == 1);
    CHECK(small.complains("[compact-alone]"));
}

TEST_CASE("labels for vessels that small stock is too small for go on plain paper",
          "[command][papers]") {
    const Hall hall;
    // Two pictograms do not go on so small a label: without the dry bait.
    with(hall, "mix: dry", "mix: syrup");
    with(hall, "mix: dry", "mix: syrup");
    with(hall, "    lasts: 90 d", "    lasts: 90 d\n    batch: 100 mL");
    const auto ran = Hall::run({"render", hall.job, "-o", hall.folder / "a", "--only", "labels",
                                "--stock", "a4-3x7", "--language", "en"});
    INFO(ran.err);
    CHECK(ran.exit == 0);
    CHECK(ran.complains("a4-3x7 (63.5 x 38.1 mm) is too small for what these labels must say"));
    CHECK(is_there(hall, "a/labels.pdf"));
    CHECK(ran.says("labels-a4-plain-"));
}

TEST_CASE("a label that fits nowhere near is an error, and nothing is written",
          "[command][papers]") {
    const Hall hall;
    const auto ran = Hall::run(
        {"render", hall.job, "-o", hall.folder / "a", "--only", "labels", "--stock", "a4-4x10"});
    CHECK(ran.exit == 1);
    // One error for one slip, with the one stock that holds all.
    CHECK(ran.complains("labels a4-4x10 (48.5 x 25.4 mm) are too small: "));
    CHECK(ran.complains("the fullest needs about "));
    CHECK(ran.complains(", the smallest that holds all"));
    CHECK(ran.complains("1 error"));
    CHECK(ran.complains("command line:1:9: error"));  // where the option stands
    CHECK_FALSE(is_there(hall, "a"));
}

TEST_CASE("an error in a user's own design points into the design", "[command][papers]") {
    const Hall hall;
    std::filesystem::create_directories(hall.folder / "mine/labels");
    const auto design = hall.write("mine/labels/standard.yaml", "about: mine\nband: 3\n");
    const auto ran = Hall::run({"render", hall.job, "-o", hall.folder / "a", "--only", "labels",
                                "--templates", hall.folder / "mine"});
    CHECK(ran.exit == 1);
    CHECK(ran.complains(design + ":2:7: error"));
}

TEST_CASE("plan --json names the room that a station says in a key of its own",
          "[command][papers]") {
    const Hall hall;
    with(hall, "  - { id: K1,",
         "  - { id: K1, room: { en: Scullery, es: Fregadero, de: Spülküche, "
         "fil: Hugasan, uk: Мийна },");
    const auto ran = Hall::run({"plan", "--json", hall.job});
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    const auto stations = json::parse(ran.out)["stations"];
    CHECK(stations[0]["room"] == "Scullery");
    CHECK(stations[1]["room"].is_null());
}

TEST_CASE("plan --json says how each code is printed", "[command][papers]") {
    const Hall hall;
    const auto ran = Hall::run({"plan", "--json", hall.job});
    REQUIRE(ran.exit == 0);
    const auto plan = json::parse(ran.out);
    for (const auto& station : plan["stations"]) {
        INFO(station["id"]);
        if (station["containers"] == 0) {
            CHECK(station["code"].is_null());
            continue;
        }
        const json& code = station["code"];
        // "HTTP://192.168.1.20:8017/S/K1/7Q2MX4KD9A", 40 characters: version 3 at level Q holds 47
        // (ISO/IEC 18004, published capacity tables).
        CHECK(code["version"] == 3);
        CHECK(code["level"] == "Q");
        CHECK(code["modules"] == 29);
        CHECK(code["module_mm"].get<double>() >= 0.33);
        CHECK(code["width_mm"].get<double>() == Approx(29 * code["module_mm"].get<double>()));
        CHECK(code["quiet_zone_modules"] == 4);
        CHECK(code["checks"][0]["name"] == "module-size");
    }
    // A stock that does not fit is `check`'s to say; the plan still stands.
    with(hall, "labels: a4-2x4", "labels: a4-4x10");
    const auto small = Hall::run({"plan", "--json", hall.job});
    CHECK(small.exit == 0);
    CHECK(json::parse(small.out)["stations"][0]["code"].is_null());
}

TEST_CASE("plan --json says what each container holds, warns of and leaves out",
          "[command][papers]") {
    const Hall hall;
    const auto ran = Hall::run({"plan", "--json", hall.job});
    REQUIRE(ran.exit == 0);
    const auto plan = json::parse(ran.out);
    std::map<std::string, json> by_id;
    for (const auto& container : plan["containers"]) {
        INFO(container["id"]);
        CHECK(by_id.emplace(container["id"], container).second);
        const json& hazard = container["hazard"];
        std::vector<std::string> codes = container["statements"]["carried"];
        for (const std::string code : container["statements"]["left_out"]) codes.push_back(code);
        for (const std::string code : hazard["hazard_statements"])
            CHECK(std::find(codes.begin(), codes.end(), code) != codes.end());
        // Whatever room there is.
        const std::vector<std::string> carried = container["statements"]["carried"];
        CHECK(std::find(carried.begin(), carried.end(), "H360FD") != carried.end());
        CHECK(hazard["signal_word"] == "danger");
        CHECK(hazard["pictograms"][0] == "GHS08");
    }
    for (const auto& station : plan["stations"])
        for (const auto& id : station.value("container_ids", std::vector<std::string>()))
            CHECK(by_id.count(id) == 1);
    const json& cup = by_id.at("K1-2");
    CHECK(cup["kind"] == "cup");
    CHECK(cup["station"] == "K1");
    const double grams = cup["contents"]["boric_acid_equivalent_g"];
    CHECK(cup["child_10kg_mg_per_kg"].get<double>() == Approx(grams * 1000 / 10));
    CHECK(cup["boric_acid_equivalent_g_by_level"]["1/2"][0].get<double>() == Approx(grams / 2));
    CHECK(cup["boric_acid_equivalent_g_by_level"]["1/2"][1].get<double>() == Approx(grams));
    CHECK(by_id.at("bottle syrup")["kind"] == "vessel");
    CHECK(by_id.at("left syrup")["kind"] == "leftovers");
    const json& jar = by_id.at("jar of borax");
    CHECK(jar["kind"] == "decanted");
    CHECK(jar["supply"] == "borax");
    CHECK(jar["contents"].is_null());
    CHECK(jar["child_10kg_mg_per_kg"].is_null());
    CHECK(jar["hazard"]["hazard_statements"] == json({"H360FD", "H319"}));
    CHECK(jar["hazard"]["decided_by"] == "as measured");
}

TEST_CASE("what labels leave out for want of room is said, one line for all that are alike",
          "[command][papers]") {
    const Hall hall;
    const auto ran = Hall::run({"render", hall.job, "-o", hall.folder / "a", "--only", "labels",
                                "--stock", "a4-3x7", "--language", "en"});
    INFO(ran.err);
    CHECK(ran.exit == 0);
    CHECK(ran.complains("[label-leaves-out]"));
    CHECK(ran.complains("days of making and placing"));
    CHECK(ran.complains("have room only for type of "));
    // What is missed most is named first.
    CHECK(
        ran.complains("have no room to say: the frame round what to do if swallowed, the place it "
                      "belongs to, the words beside the code (scan: log, first aid), "));
    const auto large = Hall::run({"render", hall.job, "-o", hall.folder / "b", "--only", "labels",
                                  "--stock", "a4-2x2", "--language", "en"});
    INFO(large.err);
    CHECK_FALSE(large.complains("have no room to say: P"));
    CHECK_FALSE(large.complains("days of making and placing"));
    CHECK_FALSE(large.complains("have room only for type of "));
    CHECK_FALSE(large.complains("the frame round"));
}

TEST_CASE("check names the numbers that will be printed, and what the law is known to say",
          "[command][papers]") {
    const Hall hall;
    const auto ran = Hall::run({"check", hall.job});
    CHECK(ran.exit == 0);
    CHECK(
        ran.complains("your papers will show numbers that may have changed: Poisons Information "
                      "Centre 13 11 26 ("));
    CHECK(ran.complains("look each up once"));
    CHECK(ran.says("What is known to restrict such mixes where you are:"));
    CHECK(ran.says("New South Wales"));
    CHECK(ran.says("Ask your state"));
}

namespace {

/// The numbers of the labels on the sheets, in order.
std::vector<std::string> ids_in(const std::filesystem::path& pdf) {
    const auto out = pdf.string() + ".txt";
    const auto command = "pdftotext -raw '" + pdf.string() + "' '" + out + "'";
    REQUIRE(std::system(command.c_str()) == 0);
    std::vector<std::string> ids;
    std::istringstream words(system::read_file(out));
    for (std::string word; words >> word;)
        if (word.starts_with('B') && word.find_first_not_of("0123456789", 1) == std::string::npos)
            ids.push_back(word);
    return ids;
}

/// A long row of bays, each with so many cups.
std::string long_row(const Hall& hall, int stations, int cups) {
    std::string text = system::read_file(hall.job);
    text.erase(text.find("stations:"));
    text += "stations:\n";
    for (int i = 1; i <= stations; ++i)
        text += "  - { id: B" + std::to_string(i) + ", place: Bay, mix: syrup, container: cup, " +
                "count: " + std::to_string(cups) + " }\n";
    return hall.write("row.yaml", text);
}

}  // namespace

TEST_CASE("many labels come in volumes: each label once, in order, on full sheets",
          "[command][papers]") {
    const Hall hall;
    const auto job = long_row(hall, 700, 1);
    const auto out = hall.folder / "a";
    const auto ran = Hall::run({"render", job, "-o", out, "--only", "labels", "--stock", "a4-2x4",
                                "--start-at", "4", "--copies", "3", "--language", "en"});
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    // 3 places of the first sheet are used already; 700 stations and 3 labels for vessels, thrice:
    // 2,112 places. A volume has 1,000: 125 sheets of 8.
    CHECK_FALSE(std::filesystem::exists(out / "labels.pdf"));
    std::vector<std::string> all;
    for (const auto* name : {"labels-1.pdf", "labels-2.pdf", "labels-3.pdf"}) {
        const auto ids = ids_in(out / name);
        const std::string volume = name;
        CHECK(ids.size() == (volume == "labels-1.pdf"   ? 997u
                             : volume == "labels-2.pdf" ? 1000u
                                                        : 103u));
        all.insert(all.end(), ids.begin(), ids.end());
    }
    REQUIRE(all.size() == 2100);
    for (std::size_t i = 0; i < all.size(); ++i) {
        INFO(i);
        REQUIRE(all[i] == "B" + std::to_string(i / 3 + 1));
    }
}

TEST_CASE("the papers are the same bytes whatever the number of threads", "[command][papers]") {
    const Hall hall;
    const auto job = long_row(hall, 2, 1000);
    std::map<std::string, std::string> first;
    for (const auto* threads : {"1", "2", "7"}) {
        const auto out = hall.folder / ("out" + std::string(threads));
        const auto ran = Hall::run({"render", job, "-o", out, "--language", "en", "--only",
                                    "labels,household,pack,visits"},
                                   {{"GALLIPOT_THREADS", threads}});
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
        std::map<std::string, std::string> files;
        for (const auto& entry : std::filesystem::directory_iterator(out))
            files[entry.path().filename()] = system::read_file(entry.path());
        CHECK(files.count("labels-3.pdf") == 1);
        if (first.empty()) first = files;
        CHECK(files == first);
    }
}
