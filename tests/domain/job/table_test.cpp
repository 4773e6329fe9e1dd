// Tables in the place of stations and supplies: what is read of them, and what is said.
#include "domain/job/table.hpp"

#include <map>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "job_text.hpp"

using namespace gallipot;
using namespace gallipot::tests;

namespace {

diag::SourcePtr file(const std::string& name, const std::string& text) {
    return std::make_shared<const diag::Source>(diag::Source{name, text});
}

struct ReadTable {
    std::optional<yaml::Node> node;
    diag::Diagnostics found;
};

ReadTable table(const std::string& text, const std::string& section = "stations",
                const yaml::Limits& limits = {}) {
    ReadTable result;
    result.node =
        job::read_table(file("table.csv", text), *job::find_key(section), limits, result.found);
    return result;
}

/// "{id: K1, near: [food, rain]}", without places.
std::string flow(const yaml::Node& node) {
    std::string text;
    const auto comma = [&] { return text.size() > 1 ? ", " : ""; };
    switch (node.kind) {
        case yaml::Kind::null:
            return "~";
        case yaml::Kind::scalar:
            return node.text;
        case yaml::Kind::sequence:
            text = "[";
            for (const auto& item : node.items) text += comma() + flow(item);
            return text + "]";
        case yaml::Kind::mapping:
            text = "{";
            for (const auto& [key, value] : node.entries)
                text += comma() + key.text + ": " + flow(value);
            return text + "}";
    }
    return text;
}

std::string read_as(const std::string& text, const std::string& section = "stations") {
    const auto got = table(text, section);
    INFO(diag::print(got.found));
    CHECK(got.found.errors() == 0);
    REQUIRE(got.node);
    return flow(*got.node);
}

/// "2:5 code" of each finding.
std::vector<std::string> told(const diag::Diagnostics& found) {
    std::vector<std::string> all;
    for (const auto& each : found.in_order())
        all.push_back(std::to_string(each.place.line) + ":" + std::to_string(each.place.column) +
                      " " + each.code);
    return all;
}
using Told = std::vector<std::string>;

const std::string with_tables = [] {
    const auto list = small_job.find("stations:");
    const std::string written = small_job.substr(list, small_job.find("visits:") - list);
    return changed(changed(small_job, written, "stations: { from: stations.csv }\n"),
                   "supplies:\n  malt: { density: 1.4 g/mL }\n",
                   "supplies: { from: supplies.csv }\n");
}();
const std::string good_stations =
    "id,place,mix,container,area,control\nK1,Kitchen,syrup,cup,,\nS1,Stage,timber,,6 m2,\n"
    "C1,Yard,,,,yes\n";
const std::string good_supplies = "name,density\nmalt,1.4 g/mL\n";

/// The job with these files beside it.
ReadJob read_beside(const std::string& text, const std::map<std::string, std::string>& files) {
    ReadJob result;
    result.job = job::read_job(file("job.yaml", text), result.found,
                               [&](const std::string& name) -> job::TableFile {
                                   const auto found = files.find(name);
                                   if (found == files.end())
                                       return {nullptr, "there is no such file", "look for it"};
                                   return {file(name, found->second), "", ""};
                               });
    return result;
}

}  // namespace

TEST_CASE("table: rows become what would be written in the job") {
    CHECK(read_as("id,place,mix\nK1,Kitchen,syrup\nK2,\"Hall, left\",dry\n") ==
          "[{id: K1, place: Kitchen, mix: syrup}, {id: K2, place: Hall, left, mix: dry}]");
    // columns in any order, an empty cell is a key left out, short rows too
    CHECK(read_as("mix,place,id,count\n,Kitchen,K1,\n,Hall,K2\n") ==
          "[{place: Kitchen, id: K1}, {place: Hall, id: K2}]");
    CHECK(read_as("name,density,pack\nmalt,1.4 g/mL,\nsugar,,1 kg\nborax,,\n", "supplies") ==
          "{malt: {density: 1.4 g/mL}, sugar: {pack: 1 kg}, borax: {}}");
}

TEST_CASE("table: as spreadsheets write it") {
    const std::string wanted = "[{id: K1, place: Kitchen, near: [food, rain]}]";
    CHECK(read_as("\xEF\xBB\xBFid;place;near\r\nK1;Kitchen;food, rain\r\n;;\r\n") == wanted);
    CHECK(read_as("\r\n;;;;\r\nid;place;near;;\r\nK1;Kitchen;\"food;rain\";;\r\n") == wanted);
    CHECK(read_as("id\tplace\tnear\nK1\tKitchen\tfood;rain\n") == wanted);
    CHECK(read_as("\"id\", place ,near\n K1 , Kitchen,\" food, rain \"\n") == wanted);
    // e and a combining acute are one letter, as in a job file
    CHECK(read_as("id,place\nK1,Cafe\u0301\n") == "[{id: K1, place: Café}]");
}

TEST_CASE("table: lists, points, and keys below another") {
    const auto cell = [](const std::string& column, const std::string& text) {
        return read_as("id,place," + column + "\nK1,Hall,\"" + text + "\"\n").substr(23);
    };
    CHECK(cell("near", "food") == "near: [food]}]");
    CHECK(cell("near", "[food, rain]") == "near: [food, rain]}]");
    CHECK(cell("near", "food;; rain;") == "near: [food, rain]}]");
    CHECK(cell("visits", "1 h, 1 d; 7 d") == "visits: [1 h, 1 d, 7 d]}]");
    CHECK(cell("visits", "1,5 d") == "visits: [1,5 d]}]");
    for (const char* point :
         {"3.2 1.1", "3.2, 1.1", "3.2; 1.1", "3.2;1.1", "[3.2, 1.1]", "[3.2,1.1]", " 3.2   1.1 "}) {
        INFO(point);
        CHECK(cell("at", point) == "at: [3.2, 1.1]}]");
    }
    CHECK(cell("at", "3,2 1,1") == "at: [3,2, 1,1]}]");  // decimal commas, which are an error later
    CHECK(read_as("id,place.en,place.es,inspected.on,inspected.by\nK1,Hall,Sala,2027-02-01,Me\n") ==
          "[{id: K1, place: {en: Hall, es: Sala}, inspected: {on: 2027-02-01, by: Me}}]");
    CHECK(
        read_as("name,density.from,density.to,strength.of,strength.percent\n"
                "a,1 g/mL,2 g/mL,,\nb,,,boric acid,5\n",
                "supplies") ==
        "{a: {density: {from: 1 g/mL, to: 2 g/mL}}, b: {strength: {of: boric acid, percent: 5}}}");
}

TEST_CASE("table: each value knows its place in the table") {
    const auto got = table("id,place,near\nK1,  Küche ,\"food; rain\"\n");
    REQUIRE(got.node);
    const yaml::Node& row = got.node->items[0];
    const auto is_at = [](const diag::Place& place, int line, int column, int length) {
        return place.line == line && place.column == column && place.length == length &&
               place.source->name == "table.csv";
    };
    CHECK(is_at(row.place, 2, 1, 2));
    CHECK(is_at(row.find("place")->place, 2, 6, 5));
    CHECK(is_at(row.find_key("place")->place, 2, 6, 5));
    CHECK(is_at(row.find("near")->place, 2, 13, 12));
    CHECK(is_at(row.find("near")->items[1].place, 2, 20, 4));
}

TEST_CASE("table: what is wrong with the columns is told once, and the rows are read on") {
    CHECK(told(table("Id,plaec,mix,mix,inspected,place.x,colour,\n"
                     "K1,Hall,a,b,x,y,red,\nK2,Hall,a,b,x,y,red,z\n")
                   .found) == Told{"1:1 unknown-key", "1:4 unknown-key", "1:14 duplicate-key",
                                   "1:18 wrong-type", "1:28 bad-language", "1:36 unknown-key",
                                   "1:43 csv-columns"});
    const auto meant = table("Id,plaec\nK1,Hall\n");
    REQUIRE(meant.node);
    CHECK(flow(*meant.node) == "[{id: K1, place: Hall}]");
    // what it may have meant is there already
    CHECK(told(table("id,place,plaec\nK1,Hall,x\n").found) == Told{"1:10 unknown-key"});
    CHECK(meant.found.in_order()[0].hint.english() == "did you mean 'id'?");
    const auto none = table("place,mix\nHall,a\nYard,b\n");
    CHECK(told(none.found) == Told{"1:1 missing-key"});
    CHECK_FALSE(none.node);
    CHECK(told(table("density\n1 g/mL\n", "supplies").found) == Told{"1:1 missing-key"});
}

TEST_CASE("table: rows that cannot be read") {
    CHECK(told(table("id,place\nK1,Hall, left\nK2,Yard\n").found) == Told{"2:9 csv-columns"});
    CHECK(told(table("id,place\nK1,Hall,,\nK2,Yard\n").found) == Told{"2:9 csv-columns"});
    CHECK(told(table("id,place\nK1,12\" up\nK2,Yard\n").found) == Told{"2:6 csv-quote"});
    CHECK(told(table("id,place\nK1,\"Hall\nK2,Yard\n").found) == Told{"2:4 csv-quote"});
    CHECK(told(table("id,\"place\nK1,Hall\n").found) == Told{"1:4 csv-quote"});
    CHECK(told(table("id,place\nK1,\"Hall,\nleft\"\n").found) == Told{"2:4 line-break"});
    CHECK(told(table("id,place,place.es\nK1,Hall,Sala\n").found) == Told{"2:9 duplicate-key"});
    CHECK(told(table("id,place.es,place\nK1,Sala,Hall\n").found) == Told{"2:9 duplicate-key"});
    CHECK(told(table("id,place,at\nK1,Hall,3.2\n").found) == Told{"2:9 wrong-type"});
    CHECK(told(table("id,place,at\nK1,Hall,1 2 3\n").found) == Told{"2:9 wrong-type"});
    CHECK(told(table("name,pack\nmalt,1 kg\n,1 kg\nmalt,2 kg\n", "supplies").found) ==
          Told{"3:1 missing-key", "4:1 duplicate-key"});
    CHECK(told(table("id,place\n,\n\n").found) == Told{"1:1 too-few"});
    CHECK(told(table("name,pack\n", "supplies").found).empty());
}

TEST_CASE("table: texts that mean no good") {
    using namespace std::string_literals;
    const std::string head = "id,place\n";
    CHECK(told(table("").found) == Told{"1:1 empty-file"});
    CHECK(told(table("\xEF\xBB\xBF\n\n").found) == Told{"1:1 empty-file"});
    CHECK(told(table(head + "K1,Ha\0ll\n"s).found) == Told{"2:6 control-character"});
    CHECK(told(table(head + "K1,Ha\x1B[2Jll\n").found) == Told{"2:6 control-character"});
    CHECK(told(table(head + "K1,K\xFC"
                            "che\nK2,K\xFC"
                            "che\n")
                   .found) == Told{"2:5 not-utf8"});
    CHECK(told(table(head + "K1,Ha\u202Ell\n").found) == Told{"2:6 control-character"});
    CHECK(told(table(head + "\uFEFFK1,Hall\n").found) == Told{"2:1 control-character"});
    CHECK(told(table("id,place\rK1,Hall\r").found) == Told{"1:9 control-character"});
    CHECK(told(table("\xFF\xFEi\0d\0"s).found) == Told{"1:1 not-utf8"});
    // A formula is a text like any other.
    CHECK(read_as(head + "K1,\"=HYPERLINK(\"\"http://x\"\")\"\n") ==
          "[{id: K1, place: =HYPERLINK(\"http://x\")}]");
}

TEST_CASE("table: limits") {
    const std::string head = "id,place\n";
    yaml::Limits limits;
    limits.bytes = 20;
    CHECK(told(table(head + "K1,Hall and yard\n", "stations", limits).found) ==
          Told{"1:1 file-too-large"});
    limits = {};
    limits.line = 12;
    CHECK(told(table(head + "K1,Hall and yard\n", "stations", limits).found) ==
          Told{"2:1 line-too-long"});
    limits = {};
    limits.nodes = 9;
    CHECK(told(table(head + "K1,Hall\nK2,Hall\n", "stations", limits).found) ==
          Told{"3:1 too-many-values"});
    CHECK(told(table(head + ",\n,\n,\n,\n,\n", "stations", limits).found) ==
          Told{"5:2 too-many-values"});
    limits = {};
    limits.text_length = 4;
    CHECK(table(head + "K1,Häll\n", "stations", limits).found.errors() == 0);
    CHECK(told(table(head + "K1,Hall!\n", "stations", limits).found) == Told{"2:4 text-too-long"});
    std::string wide = "id,place";
    for (int i = 0; i < 99; ++i) wide += ",c" + std::to_string(i);
    CHECK(told(table(wide + "\n").found) == Told{"1:1 too-many"});
}

TEST_CASE("a job takes its stations and supplies from tables") {
    const auto got = read_beside(
        with_tables, {{"stations.csv", good_stations}, {"supplies.csv", good_supplies}});
    INFO(diag::print(got.found));
    REQUIRE(got.job);
    CHECK(got.found.warnings() == 0);
    const auto written = read(small_job);
    REQUIRE(got.job->stations.size() == written.job->stations.size());
    for (std::size_t i = 0; i < got.job->stations.size(); ++i) {
        CHECK(*got.job->stations[i].id == *written.job->stations[i].id);
        CHECK(got.job->stations[i].control == written.job->stations[i].control);
        CHECK(got.job->stations[i].id.place.source->name == "stations.csv");
    }
    CHECK(got.job->supplies.at("malt").density->value.usual ==
          written.job->supplies.at("malt").density->value.usual);
}

TEST_CASE("the rules of a job hold in its tables, and all is told at once") {
    const auto got = read_beside(
        changed(with_tables, "region: AU", "region: UK"),
        {{"stations.csv", "id,place,mix,container,near\nK1,Hall,syrop,cup,kids\nk1,Yard,syrup,,\n"},
         {"supplies.csv", "name,density,pack\nmalt,1.4 g/mL,1\nMALT,1.4 g/mL,\n"}});
    CHECK_FALSE(got.job);
    std::vector<std::string> all;
    for (const auto& each : got.found.in_order())
        all.push_back(each.place.source->name + ":" + std::to_string(each.place.line) + ":" +
                      std::to_string(each.place.column) + " " + each.code);
    CHECK(all == std::vector<std::string>{
                     "job.yaml:4:11 bad-region", "supplies.csv:2:15 missing-unit",
                     "supplies.csv:3:1 duplicate-name", "stations.csv:2:9 unknown-mix",
                     "stations.csv:2:19 bad-choice", "stations.csv:3:1 missing-key",
                     "stations.csv:3:1 duplicate-id"});
}

TEST_CASE("a row accepts messages about its own station") {
    const std::string accepting = changed(good_stations, "control\nK1,Kitchen,syrup,cup,,\n",
                                          "control,accept\nK1,Kitchen,syrup,cup,,,near-food\n");
    const auto got =
        read_beside(with_tables, {{"stations.csv", accepting}, {"supplies.csv", good_supplies}});
    INFO(diag::print(got.found));
    REQUIRE(got.job);
    REQUIRE(got.job->accepted.size() == 1);
    CHECK(got.job->accepted[0].from.source->name == "stations.csv");
    CHECK(got.job->accepted[0].from.line == 2);
    CHECK(got.job->accepted[0].to.line == 2);
}

TEST_CASE("which file a job may name") {
    struct Case {
        std::string from, told;
    };
    for (const Case& c : std::vector<Case>{{"stations.CSV", ""},
                                           {"tables/north/stations.csv", ""},
                                           {"a..b.csv", ""},
                                           {"..csv.csv", ""},
                                           {"stations.ods", "bad-file-name"},
                                           {"stationscsv", "bad-file-name"},
                                           {"tables/.csv", "bad-file-name"},
                                           {"../stations.csv", "bad-file-name"},
                                           {"a/../stations.csv", "bad-file-name"},
                                           {"./stations.csv", "bad-file-name"},
                                           {"/stations.csv", "bad-file-name"},
                                           {"a//stations.csv", "bad-file-name"},
                                           {"http://x.invalid/stations.csv", "bad-file-name"},
                                           {"'a\\stations.csv'", "bad-file-name"},
                                           {"[stations.csv]", "wrong-type"},
                                           {"", "empty-value"},
                                           {"x.csv", "no-table"}}) {
        INFO(c.from);
        std::map<std::string, std::string> files{{"supplies.csv", good_supplies}};
        if (c.told.empty()) files[c.from] = good_stations;
        const auto got = read_beside(changed(with_tables, "stations.csv", c.from), files);
        INFO(diag::print(got.found));
        CHECK(got.job.has_value() == c.told.empty());
        const auto found = got.found.in_order();
        CHECK(found.size() == (c.told.empty() ? 0 : 1));
        if (!found.empty()) CHECK(found[0].code == c.told);
    }
}

TEST_CASE("what is written in the place of a table's name") {
    const auto codes = [](const std::string& from, const std::string& to) {
        return told(read_beside(changed(with_tables, from, to),
                                {{"stations.csv", good_stations}, {"supplies.csv", good_supplies}})
                        .found);
    };
    CHECK(codes("{ from: stations.csv }", "stations.csv") == Told{"25:11 wrong-type"});
    CHECK(codes("from: stations", "form: stations") == Told{"25:13 unknown-key"});
    CHECK(codes("stations.csv }", "stations.csv, K1: {} }") == Told{"25:33 misplaced-key"});
    CHECK(codes("supplies.csv }", "supplies.csv, tea: {} }") == Told{"7:33 misplaced-key"});
    // A supply may be called so.
    CHECK(codes("{ from: supplies.csv }",
                "{ from: { density: 1 g/mL }, malt: { density: 1.4 g/mL } }")
              .empty());
}

TEST_CASE("without a table nobody says what follows from its not being there") {
    CHECK(told(read_beside(with_tables, {{"stations.csv", good_stations}}).found) ==
          Told{"7:19 no-table"});
    CHECK(told(read(with_tables).found) == Told{"7:19 no-table", "25:19 no-table"});
}
