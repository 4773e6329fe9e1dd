#include "house.hpp"

/// What people type, and when they send it.
namespace gallipot::web {
namespace {

using tests::header;
using tests::House;
using tests::times;

bool has(const std::string& page, const std::string& part) {
    return page.find(part) != std::string::npos;
}

TEST_CASE("no field forgets what was typed when one goes back") {
    House house;
    for (const std::string& page : {house.get(house.station("K1")).body, house.get("/ROUND").body})
        CHECK_FALSE(has(page, "autocomplete=\"off\""));
}

TEST_CASE("counts in the digits of any script, and about so many, are understood and told") {
    House house;
    const std::string path = house.station("K1");
    const auto seen = [&](const std::string& typed) {
        static int token = 0;
        const Response sent =
            house.post(path, "token=t" + std::to_string(++token) + "&seen=" + typed);
        INFO(typed);
        REQUIRE(sent.status == 303);
        return house.recorded("K1").at(0).visit;
    };
    CHECK(seen("%D9%A2%D9%A0").seen == 20);        // Arabic-Indic
    CHECK(seen("%E0%A5%A8%E0%A5%A6").seen == 20);  // Devanagari
    CHECK(seen("%EF%BC%92%EF%BC%90").seen == 20);  // wide
    CHECK(seen("+20+").seen == 20);                // blanks: "+" is one in a form
    CHECK(seen("20").note.empty());
    const visit::Visit about = seen("~20");
    CHECK(about.seen == 20);
    CHECK(about.note == "seen: ~20");
    CHECK(seen("20%2B").note == "seen: 20+");
    CHECK(seen("20%2B&note=by+the+bin").note == "by the bin\nseen: 20+");
    for (const char* wrong : {"a+few", "2+0", "~", "%2B20", "-3", "20%2B5", "1.5", "20-30",
                              "1000001", "~~20", "99999999999999999999"}) {
        INFO(wrong);
        CHECK(house.post(path, std::string("token=w&seen=") + wrong).status == 422);
    }
}

TEST_CASE("a tenfold count is asked about once") {
    House house;
    const std::string path = house.station("K1");
    REQUIRE(house.post(path, "token=a&seen=9").status == 303);
    CHECK(house.post(path, "token=b&seen=89").status == 303);
    REQUIRE(house.post(path, "token=c&seen=8").status == 303);
    const Response asked = house.post(path, "token=d&seen=80&note=many");
    CHECK(asked.status == 422);
    CHECK(has(asked.body, "80 is ten times the last count, 8"));
    CHECK(has(asked.body, "name=\"sure_seen\" value=\"80\""));
    CHECK(has(asked.body, "many"));
    CHECK(house.post(path, "token=d&seen=800&sure_seen=80").status == 422);
    CHECK(house.post(path, "token=d&seen=80&note=many&sure_seen=80").status == 303);
    // Its correction does not ask again.
    CHECK(house.post(path, "token=e&corrects=4&seen=80&note=so+many").status == 303);
    REQUIRE(house.post(path, "token=f&seen=0").status == 303);
    CHECK(house.post(path, "token=g&seen=300").status == 303);  // none is no count to multiply
}

TEST_CASE("a form that was opened long ago is asked when it was seen") {
    House house;  // 2027-03-18 08:05
    const std::string path = house.station("K1");
    CHECK(has(house.get(path).body, "name=\"opened\" value=\"2027-03-18 08:05\""));
    const std::string opened = "&opened=2027-03-18+06%3A05";
    const Response asked = house.post(path, "token=a&seen=9&note=early" + opened);
    CHECK(asked.status == 422);
    CHECK(has(asked.body, "name=\"when\" value=\"2027-03-18 06:05\""));
    CHECK(has(asked.body, "name=\"when\" value=\"now\""));
    CHECK(has(asked.body, "name=\"opened\" value=\"2027-03-18 06:05\""));
    CHECK(has(asked.body, "early"));
    CHECK(house.recorded("K1").empty());
    SECTION("then") {
        REQUIRE(house.post(path, "token=a&seen=9&when=2027-03-18+06%3A05" + opened).status == 303);
        CHECK(log::print_time(house.recorded("K1")[0].visit.time) == "2027-03-18 06:05");
    }
    SECTION("now") {
        REQUIRE(house.post(path, "token=a&seen=9&when=now" + opened).status == 303);
        CHECK(log::print_time(house.recorded("K1")[0].visit.time) == "2027-03-18 08:05");
        // The same form once more, hours later: it is there, and nothing is asked.
        house.now += std::chrono::hours(5);
        CHECK(house.post(path, "token=a&seen=9" + opened).status == 303);
        CHECK(house.recorded("K1").size() == 1);
    }
    SECTION("a time that was typed is what counts") {
        REQUIRE(house.post(path, "token=a&seen=9&time=2027-03-17T20%3A00" + opened).status == 303);
    }
    SECTION("what is no time, or not past, asks nothing") {
        for (const char* odd :
             {"&opened=x", "&opened=2028-01-01+00%3A00", "&opened=", "&opened=2027-03-18+07%3A50"})
            CHECK(house.post(path, std::string("token=b&seen=9") + odd).status == 303);
    }
}

TEST_CASE("all well, same level: one tap records how full it was") {
    House house;
    const std::string path = house.station("K1");
    CHECK(has(house.get(path).body, "name=\"well\" value=\"yes\""));
    // The Enter key must never press it.
    const std::string form = house.get(path).body;
    CHECK(form.find("class=\"enter\"") < form.find("name=\"well\""));
    REQUIRE(house.post(path, "token=a&level=50&seen=3").status == 303);
    CHECK(has(house.get(path).body, "All well, same level (50\u00a0%)"));
    REQUIRE(house.post(path, "token=b&well=yes&seen=4").status == 303);
    CHECK(house.recorded("K1")[0].visit.level_percent == 50);
    CHECK(house.recorded("K1")[0].visit.seen == 4);

    SECTION("containers that differ keep their own levels") {
        REQUIRE(house.post(path, "token=c&station=K1-2&level=25").status == 303);
        CHECK(has(house.get(path).body, "same levels as before"));
        REQUIRE(house.post(path, "token=d&well=yes&seen=2&did=refilled").status == 303);
        REQUIRE(house.post(path, "token=d&well=yes&seen=2&did=refilled").status == 303);
        const auto entries = house.recorded("K1");
        REQUIRE(entries.size() == 6);
        CHECK(entries[0].visit.container == 0);  // what was said of the station, once
        CHECK(entries[0].visit.seen == 2);
        CHECK(entries[0].visit.did.has(visit::Did::refilled));
        CHECK(entries[1].visit.container == 2);
        CHECK(entries[1].visit.level_percent == 25);
        CHECK(entries[2].visit.container == 1);
        CHECK(entries[2].visit.level_percent == 50);
    }
    SECTION("of one container alone") {
        REQUIRE(house.post(path, "token=c&well=yes&station=K1-2").status == 303);
        CHECK(house.recorded("K1")[0].visit.container == 2);
        CHECK(house.recorded("K1")[0].visit.level_percent == 50);
    }
    SECTION("not where something is wrong") {
        CHECK(house.post(path, "token=c&well=yes&state=wet").status == 422);
        REQUIRE(house.post(path, "token=d&station=K1-1&state=missing").status == 303);
        CHECK_FALSE(has(house.get(path).body, "name=\"well\""));
        const Response late = house.post(path, "token=e&well=yes");
        CHECK(late.status == 422);
        CHECK(has(late.body, "does not fit"));
    }
}

TEST_CASE("after saving, one tap leads to the next station") {
    House house;
    const std::string path = house.station("K1");
    const Response sent = house.post(path, "token=a&seen=9");
    const std::string saved = house.get("/S/K1/" + header(sent, "Location")).body;
    CHECK(has(saved, "href=\"../../../../S/C1/" + house.station("C1").substr(6) + "\""));
}

TEST_CASE("what went wrong is in the title, and takes the focus") {
    House house;
    const Response page = house.post(house.station("K1"), "token=a&seen=x");
    CHECK(has(page.body, "<title>Not saved: K1"));
    CHECK(has(page.body, "tabindex=\"-1\" autofocus"));
    const std::string wrong = house.get("/S/K1/0000000000").body;
    CHECK(times(wrong, "<h1>") == 1);
}

TEST_CASE("text in the job's own language is marked where the page has another") {
    House house({}, false, [](std::string& job) {
        const std::string name = "place: { en: \"Kitchen, behind the bins\"";
        const auto at = job.find(name);
        REQUIRE(at != std::string::npos);
        job.replace(at, job.find('}', at) + 1 - at, "place: \"Kitchen, behind the bins\"");
    });
    const std::string german = house.get(house.station("K1"), "de").body;
    CHECK(has(german, "<span lang=\"en\">Kitchen, behind the bins</span>"));
    CHECK_FALSE(has(house.get(house.station("K1"), "en").body, "<span lang"));
    CHECK(has(german,
              "<textarea name=\"note\" id=\"note\" rows=\"2\" maxlength=\"1000\" dir=\"auto\""));
}

}  // namespace
}  // namespace gallipot::web
