#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "catch_all.hpp"

#include "cli/hall.hpp"
#include "golden.hpp"
#include "languages.hpp"
#include "tracking/log/log.hpp"

// gallipot report: the hall of examples/ with its five weeks of visits.

using namespace gallipot;
using nlohmann::json;
using tests::Ran;
namespace fs = std::filesystem;

namespace {

/// The hall, with its visits or before anybody came.
class Reported : public tests::Hall {
  public:
    explicit Reported(bool visits = true) {
        if (!visits) return;
        const fs::path csv = fs::path(GALLIPOT_SOURCE_DIR) / "examples" / "hall-visits.csv";
        REQUIRE(run({"log", job, "--import", csv.string()}).exit == 0);
    }

    [[nodiscard]] Ran report(std::vector<std::string> options) const {
        options.insert(options.begin(), {"report", job});
        return run(options);
    }
    [[nodiscard]] Ran report_on(const std::string& day, std::vector<std::string> more = {}) const {
        more.insert(more.begin(), {"--as-of", day});
        return report(std::move(more));
    }
    [[nodiscard]] json json_on(const std::string& day) const {
        const Ran ran = report_on(day, {"--json"});
        REQUIRE(ran.exit == 0);
        return json::parse(ran.out);
    }
    /// Where a file of that name is to be written.
    [[nodiscard]] std::string file(const std::string& name) const { return folder / name; }
};

/// What another program says of a file; empty when it fails.
std::string said(const std::string& command, const std::string& file) {
    const std::string heard = file + ".txt";
    const int status = std::system((command + " '" + file + "' '" + heard + "'").c_str());
    return status == 0 ? tests::slurp(heard) : std::string();
}

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
    const Reported hall;
    const Ran ran = hall.report_on("2027-04-02");
    CHECK(ran.exit == 0);
    tests::check_golden("command/report-hall.txt", ran.out);
    CHECK(hall.report_on("2027-04-02").out == ran.out);
}

TEST_CASE("the report as JSON has the promised names, and the figures of the log",
          "[command][report]") {
    const Reported hall;
    const json report = hall.json_on("2027-04-02");
    CHECK(report["as_of"] == "2027-04-02");
    CHECK(report["verdict"].get<std::string>().size() > 10);
    REQUIRE(report["stations"].size() == 7);
    const std::set<std::string> flags{"rebound", "stalled", "clogged",       "wet",
                                      "dry",     "spilt",   "moved",         "missing",
                                      "mouldy",  "overdue", "past its date", "never visited"};
    for (const json& each : report["stations"]) {
        INFO(each["id"]);
        for (const char* name :
             {"id", "change_percent", "henderson_tilton_percent", "half_days", "half_days_low",
              "half_days_high", "tenth_days", "empty_on", "flags", "verdict"})
            CHECK(each.contains(name));
        for (const json& flag : each["flags"]) CHECK(flags.contains(flag.get<std::string>()));
    }
    // By arithmetic from the CSV: 26 to 0, 14 to 12, 22 to 16.
    CHECK(station(report, "K1")["change_percent"].get<double>() == -100);
    CHECK(station(report, "E1")["change_percent"].get<double>() == Approx(-100.0 * 2 / 14));
    CHECK(station(report, "Y1")["change_percent"].get<double>() == Approx(-100.0 * 6 / 22));
    CHECK(station(report, "E1")["flags"] == json::array({"clogged", "overdue", "past its date"}));
    // Liquids are renewed weekly; this one stands since 6 March.
    CHECK(station(report, "Y1")["flags"] == json::array({"past its date"}));
    // Each pest by itself, against its own controls; the building as its worst.
    REQUIRE(report["pests"].contains("ants"));
    const json& ants = report["pests"]["ants"];
    for (const char* name :
         {"first", "last", "change_percent", "half_days", "half_days_low", "half_days_high",
          "effect_percent", "effect_low", "effect_high", "beyond_control", "controls", "verdict"})
        CHECK(ants.contains(name));
    CHECK(ants["controls"] == 1);
    CHECK(ants["effect_low"] < ants["effect_percent"]);
    CHECK(ants["effect_percent"] < ants["effect_high"]);
    CHECK(report["building"]["call_professional"].is_boolean());
    for (const char* name : {"effect_percent", "effect_low", "effect_high", "beyond_control"})
        CHECK(station(report, "K1").contains(name));
    CHECK(station(report, "R1")["flags"] == json::array({"overdue"}));
    // New holes in treated wood are no decline.
    CHECK(station(report, "S1")["change_percent"].is_null());
    CHECK(station(report, "S1")["verdict"].get<std::string>().find("Cannot tell yet") == 0);
    // One slope makes both: log(0.1)/slope and log(0.5)/slope.
    CHECK(station(report, "K1")["tenth_days"].get<double>() ==
          Approx(station(report, "K1")["half_days"].get<double>() * std::log(10) / std::log(2)));
}

TEST_CASE("the report on termites says that a colony goes on, what not to do and whom to ask",
          "[command][report]") {
    const tests::Hall hall;
    std::string text = tests::slurp(hall.job);
    const std::string borers = "against: wood borers";
    text.replace(text.find(borers), borers.size(), "against: termites");
    const auto list = text.find("languages: [") + 12;
    const auto in = [&](const std::string& language) {
        std::string job = text;
        return hall.write("hall.yaml", job.replace(list, text.find(']', list) - list, language));
    };
    const auto without_spaces = [](std::string all) {
        std::erase_if(all, [](char c) { return c == ' ' || c == '\n'; });
        return all;
    };
    for (const std::string& language : tests::languages()) {
        const std::vector<std::string> on{"report",     in(language), "--as-of",
                                          "2027-04-02", "--language", language};
        auto as_json = on;
        as_json.push_back("--json");
        const Ran ran = tests::Hall::run(as_json);
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
        const json warnings = json::parse(ran.out)["warnings"];
        REQUIRE(warnings.size() == 3);
        const std::string shown = without_spaces(tests::Hall::run(on).out);
        INFO(shown);
        for (const json& warning : warnings)
            CHECK(has(shown, without_spaces(warning.get<std::string>())));
        if (language != "en") continue;
        CHECK(has(warnings[0].get<std::string>(), "A colony goes on out of sight."));
        CHECK(has(warnings[1].get<std::string>(), "Do not break mud tubes"));
        CHECK(has(warnings[2].get<std::string>(), "Ask a licensed termite inspector"));
    }
    const json ants = Reported().json_on("2027-04-02")["warnings"];
    for (const json& warning : ants) CHECK_FALSE(has(warning.get<std::string>(), "termite"));
}

TEST_CASE("as of a day, later visits are not known yet", "[command][report]") {
    const Reported hall;
    const json early = hall.json_on("2027-03-04");
    CHECK(station(early, "K1")["change_percent"].get<double>() == Approx(100.0 * 8 / 26));
    CHECK(station(early, "K1")["half_days"].is_null());
    CHECK(station(early, "S1")["change_percent"].is_null());
    const json before = hall.json_on("2027-03-01");
    for (const json& each : before["stations"]) {
        CHECK(each["change_percent"].is_null());
        CHECK(each["flags"].empty());
    }
    for (const char* wrong : {"yesterday", "2027-02-30", "2027-3-2", "02/03/2027"}) {
        const Ran ran = hall.report_on(wrong);
        CHECK(ran.exit == 2);
        CHECK(ran.complains("is not a day; write year-month-day, like 2027-03-18"));
    }
}

TEST_CASE("the next rounds go into a calendar, an event a day", "[command][report]") {
    const Reported hall;
    const Ran ran = hall.report_on("2027-04-02", {"--calendar", hall.file("next.ics")});
    REQUIRE(ran.exit == 0);
    const std::string calendar = tests::slurp(hall.file("next.ics"));
    const json rounds = hall.json_on("2027-04-02")["next_visits"];
    std::size_t events = 0;
    for (auto at = calendar.find("BEGIN:VEVENT"); at != std::string::npos;
         at = calendar.find("BEGIN:VEVENT", at + 1))
        ++events;
    CHECK(events == rounds.size());
    CHECK(events > 1);
    for (const json& round : rounds) {
        std::string day = round["on"].get<std::string>();
        std::erase(day, '-');
        CHECK(has(calendar, "DTSTART;VALUE=DATE:" + day + "\r\n"));
    }
}

TEST_CASE("without a log the report says that nobody has been", "[command][report]") {
    const Reported hall(false);
    const Ran ran = hall.report_on("2027-03-12");
    CHECK(ran.exit == 0);
    CHECK(has(ran.out, "Nobody has been round yet."));
    CHECK_FALSE(fs::exists(hall.file("hall.visits.sqlite")));
    const json report = hall.json_on("2027-03-12");
    const std::set<std::string> weekly{"K1", "E1", "Y1"};  // liquids, renewed after seven days
    for (const json& each : report["stations"]) {
        CHECK(each["change_percent"].is_null());
        CHECK(each["henderson_tilton_percent"].is_null());
        CHECK(each["empty_on"].is_null());
        // Even the control is to be counted; timber not so soon.
        if (each["id"] == "S1")
            CHECK(each["flags"].empty());
        else
            CHECK(each["flags"] == (weekly.contains(each["id"])
                                        ? json::array({"overdue", "past its date", "never visited"})
                                        : json::array({"overdue", "never visited"})));
    }
    CHECK(hall.report_on("2027-03-12", {"-o", hall.file("empty.pdf")}).exit == 0);
    CHECK(fs::exists(hall.file("empty.pdf")));
}

TEST_CASE("visits to a station that was taken out of the job are told, not lost",
          "[command][report]") {
    const Reported hall;
    {
        // As an older gallipot wrote it: what Z9 was is not noted.
        log::Log visits(hall.file("hall.visits.sqlite"));
        visit::Visit stranger;
        stranger.station = "Z9";
        stranger.time = std::chrono::local_days(std::chrono::year(2027) / 3 / 20);
        stranger.seen = 4;
        visits.record({stranger, "", {}, false}, log::Instant(std::chrono::seconds(1'805'000'000)));
    }
    std::string job = tests::slurp(hall.job);
    const std::size_t begin = job.find("  - { id: Y1");
    REQUIRE(begin != std::string::npos);
    job.erase(begin, job.find("  - { id:", begin + 1) - begin);
    static_cast<void>(hall.write("hall.yaml", job));
    const Ran ran = hall.report_on("2027-04-02");
    CHECK(ran.exit == 0);
    CHECK(has(ran.out, "1 visit to stations that the job does not have (Z9)"));
    const json report = hall.json_on("2027-04-02");
    CHECK(report["visits_left_out"] == json{{"Z9", 1}});
    CHECK(station(report, "Y1")["outcome"] == "taken up");
    CHECK(station(report, "Y1")["first_seen"] == 22);
}

TEST_CASE("visits at times that cannot be are named and change nothing", "[command][report]") {
    const Reported hall;
    const std::string day = "2027-04-02";
    const json before = hall.json_on(day);
    {
        // As an older gallipot, or a clock at 1970, let them in.
        log::Log log(hall.file("hall.visits.sqlite"));
        visit::Visit slip;
        slip.station = "K1";
        slip.seen = 2;
        const auto on = [](int year) {
            return log::LocalTime(std::chrono::local_days(std::chrono::year(year) / 3 / 20));
        };
        slip.time = on(2017);
        log.record({slip, "", {}, false}, {});
        slip.time = on(1970);
        log.record({slip, "", {}, false}, {});
        slip.time = on(2207);
        log.record({slip, "", {}, false}, {});
    }
    json after = hall.json_on(day);
    CHECK(after["entries_left_out"]["impossible_time"].size() == 3);
    after["entries_left_out"] = before["entries_left_out"];
    CHECK(after == before);
    CHECK(has(hall.report_on(day).out, "Left out for an impossible date: entries "));
}

TEST_CASE("a PDF in every language of the job, the same every time", "[command][report]") {
    const Reported hall;
    const std::string day = "2027-04-02";
    const Ran ran = hall.report_on(day, {"-o", hall.file("how.pdf")});
    CHECK(ran.exit == 0);
    const std::map<std::string, std::string> titles{{"how.pdf", "Is it working?"},
                                                    {"how-es.pdf", "¿Funciona?"},
                                                    {"how-de.pdf", "Wirkt es?"},
                                                    {"how-fil.pdf", ""},
                                                    {"how-uk.pdf", "Чи діє?"}};
    for (const auto& [name, title] : titles) {
        INFO(name);
        CHECK(ran.says(hall.file(name)));
        CHECK_FALSE(said("qpdf", hall.file(name)).empty());
        const std::string text = said("pdftotext -layout", hall.file(name));
        CHECK(has(text, title));
        for (const char* id : {"K1", "K2", "E1", "R1", "Y1", "S1", "C1"}) CHECK(has(text, id));
    }
    const std::string first = tests::slurp(hall.file("how.pdf"));
    CHECK(hall.report_on(day, {"-o", hall.file("how.pdf")}).exit == 0);
    CHECK(tests::slurp(hall.file("how.pdf")) == first);
    const Ran one = hall.report_on(day, {"-o", hall.file("one.pdf"), "--language", "uk"});
    CHECK(one.out == hall.file("one.pdf") + "\n");
}

TEST_CASE("exit codes: the job's errors, wrong usage, what the system refuses",
          "[command][report]") {
    const Reported hall;
    CHECK(hall.report({"--no-such-option"}).exit == 2);
    CHECK(hall.report_on("2027-04-02", {"-o", hall.file("no/such/folder/how.pdf")}).exit == 2);
    CHECK(hall.report({"--language", "fr"}).exit == 2);  // not one of the job's
    CHECK(Reported::run({"report", hall.file("no-such-job.yaml")}).exit == 2);
    static_cast<void>(hall.write("hall.yaml", tests::slurp(hall.job) + "visit: [1 d]\n"));
    const Ran wrong = hall.report({});
    CHECK(wrong.exit == 1);
    CHECK(wrong.complains("take it out; 'visits' is there already"));
}

TEST_CASE("counts of other lengths are compared by the minute, and unlike ones told",
          "[command][report]") {
    const Reported hall(false);
    const auto visit = [&](const std::string& at, const std::string& when, const std::string& seen,
                           std::vector<std::string> more = {}) {
        more.insert(more.begin(), {"visit", hall.job, at, "--at", when, "--seen", seen});
        REQUIRE(tests::Hall::run(more).exit == 0);
    };
    visit("K1", "2027-03-02 19:20", "20", {"--minutes", "5"});
    visit("C1", "2027-03-02 19:25", "30", {"--minutes", "10"});
    visit("K1", "2027-03-12 19:20", "20", {"--minutes", "10"});
    visit("C1", "2027-03-12 19:25", "30", {"--minutes", "10"});
    visit("E1", "2027-03-02 19:30", "9");
    visit("E1", "2027-03-06 19:30", "5");
    visit("E1", "2027-03-12 19:30", "3", {"--minutes", "5"});
    const json report = hall.json_on("2027-03-12");
    const json& k1 = station(report, "K1");
    CHECK(k1["change_percent"].get<double>() == Approx(-50));
    CHECK(k1["henderson_tilton_percent"].get<double>() == Approx(50));
    CHECK(k1["first_before_placing"] == true);
    CHECK(k1["exposure_unit"] == "minutes");
    CHECK(k1["exposure_first"] == 5);
    CHECK(k1["last_seen"] == 10);
    CHECK(k1["last_counted"] == 20);
    CHECK(has(k1["counting"], "as in 5 minutes"));
    const json& e1 = station(report, "E1");
    CHECK(e1["change_percent"].get<double>() == Approx(100.0 * -4 / 9));
    CHECK(e1["counts_not_compared"] == 1);
    CHECK(has(e1["counting"], "1 count was made in another way"));
    const Ran text = hall.report_on("2027-03-12");
    CHECK(has(text.out, "not compared: see E1"));
    const std::string pdf = hall.file("report.pdf");
    CHECK(hall.report_on("2027-03-12", {"-o", pdf}).exit == 0);
    CHECK(has(said("pdftotext -layout", pdf), "not compared"));
}

TEST_CASE("a first count alone is called that", "[command][report]") {
    const Reported hall(false);
    REQUIRE(tests::Hall::run({"visit", hall.job, "K1", "--seen", "26", "--at", "2027-03-02 19:20"})
                .exit == 0);
    const json report = hall.json_on("2027-03-02");
    CHECK(station(report, "K1")["verdict"] ==
          "The first count, before anything was set down: 26 on 2 March.");
}
