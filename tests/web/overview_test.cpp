#include <regex>

#include "catch_all.hpp"

#include "house.hpp"

/// The overview in parts.
namespace gallipot::web {
namespace {

using tests::House;

std::string overview(House& house, const std::string& name = {}, const std::string& value = {},
                     const std::string& language = "en") {
    Request asked = House::request("GET", "/ALL", language);
    if (!name.empty()) asked.query.emplace(name, value);
    const Response answer = house.app().answer(asked);
    CHECK(answer.status == 200);
    return answer.body;
}

/// The stations that a page lists, in its order, each once a list.
std::vector<std::string> stations(const std::string& page) {
    std::vector<std::string> ids;
    const std::string before = "href=\"S/";
    for (auto at = page.find(before); at != std::string::npos; at = page.find(before, at + 1)) {
        const auto from = at + before.size();
        ids.push_back(page.substr(from, page.find('/', from) - from));
    }
    return ids;
}

bool shows(const std::string& page, const std::string& id) {
    return std::ranges::count(stations(page), id) > 0;
}

std::string current(const std::string& page) {
    const auto at = page.find("aria-current=\"page\"");
    if (at == std::string::npos) return {};
    const auto from = page.find('>', at) + 1;
    return page.substr(from, page.find('<', from) - from);
}

}  // namespace

TEST_CASE("overview: what is due, what to look at") {
    House house;
    house.post(house.station("K1"), "token=a&seen=9&state=clogged");
    const auto evidence = house.context().evidence_now();
    const analysis::Day today = analysis::day_of(house.context().local_now());
    const std::string due = overview(house, "show", "due");
    const std::string flagged = overview(house, "show", "flagged");
    std::size_t due_count = 0;
    std::size_t flagged_count = 0;
    for (const auto& station : house.context().job.stations) {
        const Place place = place_of(house.context(), *station.id);
        const auto& report = evidence->report.stations.at(place.index);
        const bool is_due = report.due && (report.due->overdue || report.due->on <= today);
        INFO(*station.id);
        CHECK(shows(due, *station.id) == is_due);
        CHECK(shows(flagged, *station.id) == !report.flags.empty());
        due_count += is_due ? 1 : 0;
        flagged_count += report.flags.empty() ? 0 : 1;
    }
    REQUIRE(flagged_count > 0);
    REQUIRE(due_count > 0);
    CHECK(current(due) == "Due (" + std::to_string(due_count) + ")");
    CHECK(current(flagged) == "To look at (" + std::to_string(flagged_count) + ")");
    CHECK(current(overview(house)).starts_with("All ("));
}

TEST_CASE("overview: one floor") {
    House house({}, false, [](std::string& job) {
        job = std::regex_replace(job, std::regex(", outline:"), ", floor: Ground, outline:");
        job = std::regex_replace(job, std::regex("at: \\[3.8, 3.6\\]"), "floor: A & B");  // K2
        job = std::regex_replace(job, std::regex(", at: \\["), ", floor: Ground, at: [");
        const std::string rooms = "  rooms:\n";
        job.insert(job.find(rooms) + rooms.size(),
                   "    - { name: Vault, floor: A & B, outline: [[0, 0], [2, 0], [2, 2]] }\n");
    });
    const std::string all = overview(house);
    CHECK(all.find("?floor=A%20%26%20B") != std::string::npos);
    const std::string page = overview(house, "floor", "A & B");
    CHECK(shows(page, "K2"));
    CHECK_FALSE(shows(page, "K1"));
    CHECK(current(page) == "A &amp; B");
}

TEST_CASE("a floor's name says its language where it is not the page's") {
    House house({}, false, [](std::string& job) {
        job = std::regex_replace(job, std::regex(", outline:"),
                                 ", floor: { en: Ground, de: Erdgeschoss }, outline:");
        job = std::regex_replace(job, std::regex("at: \\[3.8, 3.6\\]"), "floor: Loft");  // K2
        job = std::regex_replace(job, std::regex(", at: \\["), ", floor: Ground, at: [");
        const std::string rooms = "  rooms:\n";
        job.insert(job.find(rooms) + rooms.size(),
                   "    - { name: Vault, floor: Loft, outline: [[0, 0], [2, 0], [2, 2]] }\n");
    });
    const std::string english = overview(house), german = overview(house, "", "", "de"),
                      spanish = overview(house, "", "", "es");
    CHECK_FALSE(english.find("<span lang=\"en\">Ground</span>") != std::string::npos);
    CHECK(english.find(">Ground</a>") != std::string::npos);
    CHECK(german.find(">Erdgeschoss</a>") != std::string::npos);
    CHECK(german.find("<span lang=\"en\">Loft</span>") != std::string::npos);
    CHECK(spanish.find("<h2><span lang=\"en\">Ground</span> · Cocina</h2>") != std::string::npos);
    CHECK(house.get("/ROUND", "es").body.find("<h2><span lang=\"en\">Ground</span></h2>") !=
          std::string::npos);
}

TEST_CASE("overview: where there is nothing it says so, and nonsense is all") {
    House house;
    for (const char* show : {"photos", "told"}) {
        const std::string page = overview(house, "show", show);
        CHECK(stations(page).empty());
        CHECK(page.find("There is nothing of this kind.") != std::string::npos);
    }
    CHECK(overview(house, "floor", "<b>").find("There is nothing of this kind.") !=
          std::string::npos);
    CHECK(overview(house, "floor", "<b>").find("<b>&") == std::string::npos);
    CHECK(stations(overview(house, "show", "<b>")) == stations(overview(house)));
}

}  // namespace gallipot::web
