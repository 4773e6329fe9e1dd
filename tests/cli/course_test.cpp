// Stations that change in the course of a job, on the command line.
#include <nlohmann/json.hpp>
#include <random>

#include "app/session.hpp"
#include "golden.hpp"
#include "hall.hpp"
#include "tracking/log/log.hpp"

namespace gallipot::cli {
namespace {

using nlohmann::json;
using tests::Hall;
using tests::Ran;

/// Three baits and a control against ants; `more` goes to K1, `end` to K2.
std::string job_text(const std::string& more = "", const std::string& end = "",
                     const std::string& first = "K1") {
    return "title: Tannery Flats\n"
           "prepared: 2027-03-02\n"
           "time_zone: Etc/UTC\n"
           "help: { region: AU, contact: { name: Keeper, phone: 02 5550 0100 } }\n"
           "measures: [1 tbsp, 1 tsp, 1/2 tsp, 1/4 tsp, { scale: 2 kg, marks: 0.1 g }]\n"
           "mixes:\n"
           "  syrup: { title: Sweet bait, against: ants, form: liquid, basis: percent w/w, "
           "ingredients: { borax: 1, sugar: 20, water: rest }, lasts: 30 d }\n"
           "  strong: { title: Stronger bait, against: ants, form: liquid, basis: percent w/w, "
           "ingredients: { borax: 1.5, sugar: 20, water: rest }, lasts: 30 d }\n"
           "containers:\n"
           "  cup: { holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm }\n"
           "stations:\n"
           "  - { id: " +
           first +
           ", place: \"Kitchen, behind the bins\", mix: syrup, container: "
           "cup, placed: 2027-03-02 19:30" +
           more +
           " }\n"
           "  - { id: K2, place: \"Kitchen, under the sink\", mix: syrup, container: cup, placed: "
           "2027-03-02 19:30" +
           end +
           " }\n"
           "  - { id: K3, place: Hall, mix: strong, container: cup, placed: 2027-03-02 19:30 }\n"
           "  - { id: C1, place: Yard, control: true }\n"
           "visits: [1 d, 7 d, 14 d]\n"
           "accept: [few-baits, little-bait, unused, licence, dries-too-soon]\n";
}

const std::string visits_csv =
    "station,time,by,seen,dead,level_percent,state,did,note\r\n"
    "K1,2027-03-02 12:00,,40,,,,,\r\nK2,2027-03-02 12:00,,30,,,,,\r\n"
    "K3,2027-03-02 12:00,,20,,,,,\r\nC1,2027-03-02 12:00,,30,,,,,\r\n"
    "K1,2027-03-09 12:00,,18,,80,,,\r\nK2,2027-03-09 12:00,,12,,90,,,\r\n"
    "K3,2027-03-09 12:00,,9,,90,,,\r\nC1,2027-03-09 12:00,,31,,,,,\r\n"
    "K1,2027-03-16 12:00,,7,,50,,,\r\nK2,2027-03-16 12:00,,3,,40,,removed,\r\n"
    "K3,2027-03-16 12:00,,4,,60,,,\r\nC1,2027-03-16 12:00,,29,,,,,\r\n"
    "K1,2027-03-23 12:00,,2,,40,,,\r\nK3,2027-03-23 12:00,,1,,30,,,\r\n"
    "C1,2027-03-23 12:00,,30,,,,,\r\n";

/// The flats, with three weeks of visits.
class Flats : public Hall {
  public:
    explicit Flats(const std::string& text = job_text()) { put(text); }
    void put(const std::string& text) const { static_cast<void>(write("flats.yaml", text)); }
    void visited() const {
        const Ran ran = run({"log", flats, "--import", write("visits.csv", visits_csv)});
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
    }
    [[nodiscard]] json report(const std::string& day) const {
        const Ran ran = run({"report", flats, "--as-of", day, "--json"});
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
        return json::parse(ran.out);
    }
    [[nodiscard]] json plan(const std::string& day) const {
        const Ran ran = run({"plan", flats, "--json", "--on", day});
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
        return json::parse(ran.out);
    }

    const std::string flats = folder / "flats.yaml";
};

const json& station(const json& all, const std::string& id) {
    for (const json& each : all["stations"])
        if (each["id"] == id) return each;
    throw std::runtime_error("no station " + id);
}

const std::vector<std::string> figures{"change_percent", "henderson_tilton_percent",
                                       "abbott_percent", "half_days",
                                       "half_days_low",  "half_days_high",
                                       "tenth_days",     "counts",
                                       "first",          "last"};

/// The figures of the trial are the same.
void check_figures(const json& before, const json& after) {
    const auto check = [&](const json& a, const json& b) {
        for (const std::string& figure : figures) {
            INFO(figure);
            CHECK(a.contains(figure) == b.contains(figure));
            if (a.contains(figure)) CHECK(a[figure] == b[figure]);
        }
    };
    check(before["all"], after["all"]);
    for (const json& each : before["stations"]) check(each, station(after, each["id"]));
}

TEST_CASE("course: moving, another mix, container count or name leave the trial's figures alone") {
    const Flats flats;
    flats.visited();
    const json before = flats.report("2027-03-25");
    CHECK(station(before, "K1")["change_percent"].is_number());
    CHECK(station(before, "K1")["changes"] == json::array());
    flats.put(
        job_text(", changes: [{ on: 2027-03-10 18:00, place: Under the stairs }, { on: "
                 "2027-03-12, mix: strong, count: 2 }, { on: 2027-06-01, count: 3 }]"));
    const json after = flats.report("2027-03-25");
    check_figures(before, after);
    CHECK(station(after, "K1")["changes"] == json::parse(R"([
            {"on": "2027-03-10", "what": "place", "from": "Kitchen, behind the bins", "to": "Under the stairs"},
            {"on": "2027-03-12", "what": "mix", "from": "syrup", "to": "strong"},
            {"on": "2027-03-12", "what": "count", "from": "1", "to": "2"}])"));
    CHECK(station(after, "K1")["until"].is_null());
    const Ran text = Hall::run({"report", flats.flats, "--as-of", "2027-03-25"});
    CHECK(text.says("From 10 March on here: Under the stairs."));
    CHECK(text.says("with Stronger bait, before with Sweet bait."));
    CHECK_FALSE(text.says("1 June"));
    CHECK(Hall::run({"report", flats.flats, "--as-of", "2027-03-25", "-o", flats.folder / "r.pdf"})
              .exit == 0);
}

TEST_CASE("course: a renamed station keeps its entries, on the command line too") {
    const Flats flats;
    flats.visited();
    const json before = flats.report("2027-03-25");
    const std::string old_code = station(flats.plan("2027-03-25"), "K1")["link"];
    flats.put(job_text(", was: [K1]", "", "NEW"));
    json after = flats.report("2027-03-25");
    CHECK(after["visits_left_out"].empty());
    CHECK(station(after, "NEW")["was"] == json::array({"K1"}));
    for (json& each : after["stations"])
        if (each["id"] == "NEW") each["id"] = "K1";
    check_figures(before, after);
    // `log` and its CSV have the name of today, and the CSV adds nothing.
    const Ran log = Hall::run({"log", flats.flats, "--csv"});
    CHECK(log.says("NEW,2027-03-02 12:00"));
    CHECK_FALSE(log.says("K1,"));
    CHECK(Hall::run({"log", flats.flats, "--import", flats.write("again.csv", log.out)})
              .says("0 visits"));
    CHECK(
        Hall::run({"log", flats.flats, "--import", flats.folder / "visits.csv"}).says("0 visits"));
    // A job with an error has no older names, and its log is shown all the same.
    flats.put(job_text(", was: [K1], colour: red", "", "NEW"));
    CHECK(Hall::run({"log", flats.flats, "--csv"}).says("K1,2027-03-02 12:00"));
    flats.put(job_text(", was: [K1]", "", "NEW"));
    const Ran visit =
        Hall::run({"visit", flats.flats, "k1", "--seen", "1", "--at", "2027-03-26 08:00"});
    CHECK(visit.exit == 0);
    CHECK(visit.complains("K1 is called NEW now."));
    CHECK(visit.says(": NEW, 26 Mar 2027 08:00, 1 alive"));
    CHECK(station(flats.plan("2027-03-25"), "NEW")["was"] == json::array({"K1"}));
}

TEST_CASE("course: what is taken up stands on no paper, and its counts stay") {
    const Flats flats;
    flats.visited();
    const json before = flats.report("2027-03-25");
    flats.put(job_text("", ", until: 2027-03-16"));
    const json after = flats.report("2027-03-25");
    check_figures(before, after);
    CHECK(station(after, "K2")["outcome"] == "taken up");
    CHECK(station(after, "K2")["next"] == json::array());
    CHECK(station(after, "K2")["until"] == "2027-03-16");
    CHECK(after["visits_left_out"].empty());
    CHECK(station(flats.plan("2027-03-15"), "K2")["until"] == "2027-03-16");
    CHECK(flats.plan("2027-03-16")["stations"].size() == 3);
    // It may still be named, with a warning where that counts for nothing.
    const Ran late =
        Hall::run({"visit", flats.flats, "K2", "--seen", "90", "--at", "2027-03-17 08:00"});
    CHECK(late.exit == 0);
    CHECK(late.complains("K2 was taken up on 2027-03-16"));
    const json with_late = flats.report("2027-03-25");
    check_figures(after, with_late);
    REQUIRE(with_late["entries_left_out"]["after_until"].size() == 1);
    CHECK(Hall::run({"report", flats.flats, "--as-of", "2027-03-25"})
              .says("made after the station was taken up"));
    // As of a day before, it stands.
    CHECK(station(flats.report("2027-03-10"), "K2")["outcome"] != "taken up");
}

TEST_CASE("course: a station taken out of a job against one pest keeps its counts in the total") {
    const Flats flats;
    flats.visited();
    const json before = flats.report("2027-03-25");
    std::string text = job_text();
    const auto begin = text.find("  - { id: K2");
    text.erase(begin, text.find("  - { id: K3") - begin);
    flats.put(text);
    const json after = flats.report("2027-03-25");
    CHECK(after["all"]["change_percent"] == before["all"]["change_percent"]);
    CHECK(station(after, "K2")["in_job"] == false);
    CHECK(station(after, "K2")["outcome"] == "taken up");
    CHECK(after["visits_left_out"].empty());
    CHECK(
        Hall::run({"report", flats.flats, "--as-of", "2027-03-25"}).says("No longer in the job."));
    CHECK(Hall::run({"report", flats.flats, "--as-of", "2027-03-25", "-o", flats.folder / "r.pdf"})
              .exit == 0);
    // The log noted what it was: a control stays one.
    text.erase(text.find("  - { id: C1"), text.find("visits:") - text.find("  - { id: C1"));
    flats.put(text);
    const json without = flats.report("2027-03-25");
    CHECK(without["visits_left_out"].empty());
    CHECK(station(without, "C1")["in_job"] == false);
    CHECK(without["all"]["henderson_tilton_percent"] == before["all"]["henderson_tilton_percent"]);
}

TEST_CASE("course: the day decides where stations change, and nothing where none does") {
    const Flats flats;
    CHECK(flats.plan("2027-03-02") == flats.plan("2035-01-01"));
    const auto papers = [&](const std::string& day, const std::string& name) {
        const Ran ran = Hall::run({"render", flats.flats, "--on", day, "-o", flats.folder / name,
                                   "--only", "labels,household,placement"});
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
        std::string all;
        for (const auto& file : std::filesystem::directory_iterator(flats.folder / name))
            all += tests::slurp(file.path());
        return all;
    };
    CHECK(papers("2027-03-02", "a") == papers("2035-01-01", "b"));
    flats.put(job_text(", changes: [{ on: 2027-03-10, place: Under the stairs, count: 2 }]"));
    CHECK(papers("2027-03-09", "c") != papers("2027-03-10", "d"));
    CHECK(station(flats.plan("2027-03-09"), "K1")["place"] == "Kitchen, behind the bins");
    CHECK(station(flats.plan("2027-03-10"), "K1")["place"] == "Under the stairs");
    CHECK(station(flats.plan("2027-03-10"), "K1")["container_ids"] ==
          json::array({"K1-1", "K1-2"}));
    const Ran wrong = Hall::run({"plan", flats.flats, "--on", "tomorrow"});
    CHECK(wrong.exit == 2);
    CHECK(wrong.complains("is not a day; write year-month-day, like 2027-03-18"));
}

TEST_CASE("course: check tells what will be wrong, and what was") {
    // From April on an open cup with too much in it stands near children.
    std::string text =
        job_text(", near: [children], changes: [{ on: 2027-04-01, container: tray }]");
    text.insert(text.find("stations:"),
                "  tray: { holds: 60 mL, fill: 45 mL, openings: open top }\n");
    const Flats flats(text);
    const Ran to_come = Hall::run({"check", flats.flats, "--on", "2027-03-05"});
    CHECK(to_come.exit == 1);
    CHECK(to_come.complains("'K1' stands open at the top near children (as from 2027-04-01)"));
    const Ran today = Hall::run({"check", flats.flats, "--on", "2027-04-05"});
    CHECK(today.exit == 1);
    CHECK(today.complains("'K1' stands open at the top near children ["));
    // The papers of today can be had.
    CHECK(Hall::run({"plan", flats.flats, "--on", "2027-03-05"}).exit == 0);
    CHECK(Hall::run({"plan", flats.flats, "--on", "2027-04-05"}).exit == 1);
    // What was wrong before any change is told too.
    const auto open = text.find("openings: 4 side holes of 6 mm");
    text.replace(open, 30, "openings: open top");
    text.replace(text.find("near: [children]"), 16, "near: [pets]");
    text.replace(text.find("openings: open top }\nstations"), 18, "openings: 4 side holes of 6 mm");
    flats.put(text);
    const Ran past = Hall::run({"check", flats.flats, "--on", "2027-04-05"});
    CHECK(past.exit == 1);
    CHECK(past.complains("(until 2027-03-31)"));
}

TEST_CASE("course: the job of another day, as it is served from midnight on") {
    const Flats flats(job_text(", changes: [{ on: 2027-03-10, place: Under the stairs }]"));
    const app::Session session =
        app::open_session(flats.flats, app::find_data(), app::SecretPolicy::only_read,
                          job::Date{std::chrono::year{2027} / 3 / 9});
    REQUIRE(session.good());
    CHECK(session.day == job::Date{std::chrono::year{2027} / 3 / 9});
    CHECK(session.job->stations[0].place->main() == "Kitchen, behind the bins");
    const auto next = app::job_on(session, job::Date{std::chrono::year{2027} / 3 / 10});
    REQUIRE(next);
    CHECK(next->job.stations[0].place->main() == "Under the stairs");
    CHECK(next->plan.stations.size() == 4);
}

TEST_CASE("course: too many days to plan them all is said, from the first that is not") {
    const Flats flats(
        job_text(", changes: [{ on: 2027-03-10, count: 2 }, { on: 2027-03-11, count: 3 }, { on: "
                 "2027-03-12, count: 4 }]"));
    app::Session session =
        app::open_session(flats.flats, app::find_data(), app::SecretPolicy::only_read,
                          job::Date{std::chrono::year{2027} / 3 / 9});
    REQUIRE(session.good());
    app::check_other_days(session, 9);  // two days of four stations
    std::string said;
    for (const auto& each : session.found.in_order())
        if (each.code == "days-not-checked") said = each.message.english();
    CHECK(said.find("2027-03-12") != std::string::npos);
    const std::size_t before = session.found.warnings();
    app::check_other_days(session);
    CHECK(session.found.warnings() == before);
}

TEST_CASE("course: when all is taken up there is a report and no paper") {
    std::string text = job_text(", until: 2027-03-20", ", until: 2027-03-20");
    text.replace(text.find("K3, place: Hall"), 15, "K3, until: 2027-03-20, place: Hall");
    text.replace(text.find("control: true"), 13, "control: true, until: 2027-03-20");
    const Flats flats(text);
    flats.visited();
    CHECK(flats.report("2027-03-25")["outcome"] == "taken up");
    CHECK(flats.plan("2027-03-25")["stations"].empty());
    const Ran ran =
        Hall::run({"render", flats.flats, "--on", "2027-03-25", "-o", flats.folder / "papers"});
    CHECK(ran.exit == 1);
    CHECK(ran.complains("[nothing-stands]"));
    const Ran checked = Hall::run({"check", flats.flats, "--on", "2027-03-25"});
    INFO(checked.err);
    CHECK(checked.exit == 0);
}

}  // namespace
}  // namespace gallipot::cli
