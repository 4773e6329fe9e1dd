#include "papers/document/caretaker_sheet.hpp"

#include <algorithm>

#include "catch_all.hpp"

#include "languages.hpp"
#include "papers/document/plain_text.hpp"
#include "scenario.hpp"

using namespace gallipot;

namespace {

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

// The poison centre asks how much was in it, whether or not there is a log on the web.
TEST_CASE("the caretaker's doses are there without the log's address, and nothing of the log") {
    const auto hall = tests::hall();
    for (const std::string& language : tests::languages()) {
        const auto words = tests::words_in(language);
        const auto with = plain_text(document::caretaker_sheet(
            hall.job, hall.plan, "HTTP://192.168.1.20:8017/ALL/K", words));
        const auto without = plain_text(document::caretaker_sheet(hall.job, hall.plan, "", words));
        INFO(without);
        const auto table = [&](const std::string& text) {
            const auto from = text.find(document::as_shown(words("caretaker.dose.intro")));
            const auto to = text.find(document::as_shown(words("caretaker.dose.note")));
            REQUIRE(from < to);
            return text.substr(from, to - from);
        };
        CHECK(table(with) == table(without));
        CHECK(has(without, words("caretaker.dose.mg_per_kg", {{"n", std::string("31")}})));
        CHECK(has(with, "gallipot serve"));
        CHECK_FALSE(has(without, "gallipot serve"));
        CHECK_FALSE(has(without, "[code]"));
        CHECK_FALSE(has(without, words("caretaker.private")));
    }
}

TEST_CASE("where only wood is treated no container holds a dose to state") {
    auto plan = tests::hall().plan;
    CHECK(document::states_doses(plan));
    for (auto& station : plan.stations) station.containers = 0;
    CHECK_FALSE(document::states_doses(plan));
}
