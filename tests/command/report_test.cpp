#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "catch_all.hpp"

#include "folder.hpp"
#include "golden.hpp"
#include "pdf/program.hpp"

// gallipot report, from the shell: the hall of examples/ with its five weeks of visits.

using namespace gallipot;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const fs::path examples = fs::path(GALLIPOT_SOURCE_DIR) / "examples";

/// The hall's job in a folder of its own, with or without its visits.
class Hall {
  public:
    explicit Hall(bool visits = true) {
        fs::copy_file(examples / "hall.yaml", folder_ / "hall.yaml");
        if (!visits) return;
        const auto imported =
            gallipot("log", "--import '" + (examples / "hall-visits.csv").string() + "'");
        REQUIRE(imported.status == 0);
    }

    /// Standard output alone: warnings on the job go to the other.
    [[nodiscard]] tests::Ran gallipot(const std::string& command, const std::string& options,
                                      tests::Errors errors = tests::Errors::dropped) const {
        return tests::run("cd '" + (folder_ / "").string() + "' && '" GALLIPOT_PROGRAM "' " +
                              command + " hall.yaml " + options,
                          errors);
    }
    [[nodiscard]] tests::Ran report(const std::string& options) const {
        return gallipot("report", options);
    }
    [[nodiscard]] json report_json(const std::string& options) const {
        const tests::Ran ran = report("--json " + options);
        REQUIRE(ran.status == 0);
        return json::parse(ran.output);
    }
    [[nodiscard]] fs::path operator/(const std::string& name) const { return folder_ / name; }

  private:
    tests::Folder folder_;
};

const json& station(const json& report, const std::string& id) {
    for (const json& each : report["stations"])
        if (each["id"] == id) return each;
    throw std::runtime_error("no station " + id);
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("the report in the terminal says how it goes and what to do next", "[command][report]") {
    const Hall hall;
    const tests::Ran ran = hall.report("--as-of 2027-04-02");
    CHECK(ran.status == 0);
    tests::check_golden("command/report-hall.txt", ran.output);
    CHECK(hall.report("--as-of 2027-04-02").output == ran.output);
}

TEST_CASE("the report as JSON has the promised names, and the figures of the log",
          "[command][report]") {
    const Hall hall;
    const json report = hall.report_json("--as-of 2027-04-02");
    CHECK(report["as_of"] == "2027-04-02");
    CHECK(report["verdict"].get<std::string>().size() > 10);
    REQUIRE(report["stations"].size() == 7);
    const std::set<std::string> flags{"rebound", "stalled", "clogged",      "wet",
                                      "dry",     "spilt",   "moved",        "missing",
                                      "mouldy",  "overdue", "never visited"};
    for (const json& each : report["stations"]) {
        INFO(each["id"]);
        for (const char* name :
             {"id", "change_percent", "henderson_tilton_percent", "half_days", "half_days_low",
              "half_days_high", "tenth_days", "empty_on", "flags", "verdict"})
            CHECK(each.contains(name));
        for (const json& flag : each["flags"]) CHECK(flags.contains(flag.get<std::string>()));
    }
    // By arithmetic from the CSV: 26 to 0, 14 to 12, 22 to 16; the control 19 to 18.
    CHECK(station(report, "K1")["change_percent"].get<double>() == -100);
    CHECK(station(report, "E1")["change_percent"].get<double>() == Approx(-100.0 * 2 / 14));
    CHECK(station(report, "Y1")["change_percent"].get<double>() == Approx(-100.0 * 6 / 22));
    CHECK(station(report, "Y1")["henderson_tilton_percent"].get<double>() ==
          Approx(100 * (1 - 16.0 * 19 / (22 * 18))));
    CHECK(station(report, "K1")["henderson_tilton_percent"].get<double>() == 100);
    CHECK(station(report, "E1")["flags"] == json{"stalled", "clogged", "overdue"});
    CHECK(station(report, "Y1")["flags"] == json{"rebound"});
    CHECK(station(report, "R1")["flags"] == json{"overdue"});
    // From R 4.2 (Debian 12), glm(seen ~ day, quasipoisson) over the counts since 2 March 19:20.
    CHECK(station(report, "K1")["tenth_days"].get<double>() ==
          Approx(station(report, "K1")["half_days"].get<double>() * std::log(10) / std::log(2)));
}

TEST_CASE("as of a day, later visits are not known yet", "[command][report]") {
    const Hall hall;
    const json early = hall.report_json("--as-of 2027-03-04");
    CHECK(station(early, "K1")["change_percent"].get<double>() == Approx(100.0 * 8 / 26));
    CHECK(station(early, "K1")["half_days"].is_null());
    CHECK(station(early, "S1")["change_percent"].is_null());
    const json before = hall.report_json("--as-of 2027-03-01");
    for (const json& each : before["stations"]) {
        CHECK(each["change_percent"].is_null());
        CHECK(each["flags"].empty());
    }
    for (const char* wrong : {"yesterday", "2027-02-30", "2027-3-2", "02/03/2027"}) {
        const tests::Ran ran =
            hall.gallipot("report", std::string("--as-of ") + wrong, tests::Errors::with_output);
        CHECK(ran.status == 2);
        CHECK(has(ran.output, "write a day like 2027-03-18"));
    }
}

TEST_CASE("without a log the report says that nobody has been", "[command][report]") {
    const Hall hall(false);
    const tests::Ran ran = hall.report("--as-of 2027-03-12");
    CHECK(ran.status == 0);
    CHECK(has(ran.output, "Nobody has been round yet."));
    CHECK_FALSE(fs::exists(hall / "hall.visits.sqlite"));
    const json report = hall.report_json("--as-of 2027-03-12");
    for (const json& each : report["stations"]) {
        CHECK(each["change_percent"].is_null());
        CHECK(each["henderson_tilton_percent"].is_null());
        CHECK(each["empty_on"].is_null());
        // Even the control is to be counted.
        CHECK(each["flags"] == json{"overdue", "never visited"});
    }
    CHECK(hall.report("--as-of 2027-03-12 -o empty.pdf").status == 0);
    CHECK(fs::exists(hall / "empty.pdf"));
}

TEST_CASE("visits to a station that was taken out of the job are told, not lost",
          "[command][report]") {
    const Hall hall;
    std::string job = tests::slurp(hall / "hall.yaml");
    const std::size_t line = job.find("  - { id: Y1");
    REQUIRE(line != std::string::npos);
    job.erase(line, job.find('\n', line) + 1 - line);
    std::ofstream(hall / "hall.yaml") << job;
    const tests::Ran ran = hall.report("--as-of 2027-04-02");
    CHECK(ran.status == 0);
    CHECK(has(ran.output, "6 visits to stations that the job does not have (Y1)"));
    CHECK(hall.report_json("--as-of 2027-04-02")["visits_left_out"] == json{{"Y1", 6}});
}

TEST_CASE("a PDF in every language of the job, the same every time", "[command][report]") {
    const Hall hall;
    const tests::Ran ran = hall.report("--as-of 2027-04-02 -o how.pdf");
    CHECK(ran.status == 0);
    CHECK(ran.output == "how.pdf\nhow-es.pdf\nhow-de.pdf\nhow-fil.pdf\nhow-uk.pdf\n");
    const std::map<std::string, std::string> titles{
        {"how.pdf", "Is it working?"}, {"how-es.pdf", "¿Funciona?"}, {"how-de.pdf", "Hilft es?"}};
    for (const std::string name :
         {"how.pdf", "how-es.pdf", "how-de.pdf", "how-fil.pdf", "how-uk.pdf"}) {
        INFO(name);
        const std::string path = "'" + (hall / name).string() + "'";
        CHECK(tests::run("qpdf --check " + path).status == 0);
        const tests::Ran text = tests::run("pdftotext -layout " + path + " -");
        CHECK(text.status == 0);
        for (const char* id : {"K1", "K2", "E1", "R1", "Y1", "S1", "C1"})
            CHECK(has(text.output, id));
        if (titles.contains(name)) CHECK(has(text.output, titles.at(name)));
    }
    const std::string first = tests::slurp(hall / "how.pdf");
    CHECK(hall.report("--as-of 2027-04-02 -o how.pdf").status == 0);
    CHECK(tests::slurp(hall / "how.pdf") == first);
    CHECK(hall.report("--as-of 2027-04-02 -o one.pdf --language uk").output == "one.pdf\n");
}

TEST_CASE("exit codes: the job's errors, wrong usage, what the system refuses",
          "[command][report]") {
    const Hall hall;
    CHECK(hall.report("--no-such-option").status == 2);
    CHECK(hall.report("-o no/such/folder/how.pdf --as-of 2027-04-02").status == 3);
    CHECK(hall.report("--language fr").status == 1);
    const tests::Ran nothing = tests::run("'" GALLIPOT_PROGRAM "' report no-such-job.yaml");
    CHECK(nothing.status == 3);
    std::ofstream(hall / "hall.yaml", std::ios::app) << "visit: [1 d]\n";
    const tests::Ran wrong = hall.gallipot("report", "", tests::Errors::with_output);
    CHECK(wrong.status == 1);
    CHECK(has(wrong.output, "did you mean 'visits'"));
}
