#include <algorithm>
#include <iterator>

#include "catch_all.hpp"

#include "job_rows.hpp"

using namespace gallipot;
using namespace gallipot::tests;

namespace {

/// What is wrong with how the program takes these files; empty when nothing is.
std::string faults(const std::vector<Hostile>& rows, const std::vector<std::string>& arguments) {
    std::string all;
    for (const Hostile& hostile : rows) {
        const Folder folder;
        write(folder / "job.yaml", hostile.make());
        const Ended ended = run_limited(folder / "", arguments);
        std::string fault = ended.fault();
        if (!ended.tells("job.yaml", hostile.place, hostile.code))
            fault += "not told: " + hostile.place + " [" + hostile.code + "]";
        if (!fault.empty())
            all += arguments.front() + " " + hostile.name + ": " + fault + "\n" +
                   ended.err.substr(0, 600) + "\n";
        if (std::getenv("GALLIPOT_FIGURES") != nullptr)
            std::printf("%s %s: %.2f s, %.0f MB\n", arguments.front().c_str(), hostile.name.c_str(),
                        ended.seconds, ended.megabytes);
    }
    return all;
}

const std::vector<std::string> check{"check", "job.yaml"};
const std::vector<std::string> render{"render", "job.yaml", "-o", "papers"};

}  // namespace

TEST_CASE("a hostile job file is a clear error with its place, and nothing is written",
          "[hostile]") {
    CHECK(faults(bytes_that_are_no_text(), check) == "");
    CHECK(faults(numbers_of_every_wrong_kind(), check) == "");
    CHECK(faults(dates_and_places_out_of_this_world(), check) == "");
    CHECK(faults(texts_that_deceive(), check) == "");
    CHECK(faults(names_that_look_like_paths(), check) == "");
}

TEST_CASE("too much of everything costs no more than five seconds and 300 MB", "[hostile]") {
    CHECK(faults(too_much_of_everything(), check) == "");
}

TEST_CASE("rendering a hostile job file writes nothing", "[hostile]") {
    CHECK(faults(bytes_that_are_no_text(), render) == "");
    CHECK(faults(texts_that_deceive(), render) == "");
    CHECK(faults(names_that_look_like_paths(), render) == "");
    const auto large = too_much_of_everything();
    const auto bomb = std::find_if(large.begin(), large.end(),
                                   [](const auto& row) { return row.code == "too-many-values"; });
    REQUIRE(bomb != large.end());
    CHECK(faults({*bomb}, render) == "");
}

TEST_CASE("odd but lawful: taken as it is meant, and files get none but our own names",
          "[hostile]") {
    struct Change {
        std::string was, now;
    };
    for (const auto& [was, now] :
         std::vector<Change>{{"", "\xEF\xBB\xBF"},
                             {"id: K1,", "id: CON,"},
                             {"id: K1,", "id: nul,"},
                             {"Apartment 4B", "../../etc/passwd"},
                             {"Apartment 4B", "\"<script>alert(1)</script>\""},
                             {"Apartment 4B", "\"%s%n{title} <b>&amp;\\\\\""},
                             {"  syrup:", "  syrup: &a"},
                             {"by: Tenant", "by: CON"}}) {
        const Folder folder;
        write(folder / "job.yaml", flat(was, now));
        const Ended ended = run_limited(folder / "", render);
        INFO(now << "\n" << ended.err);
        CHECK(ended.exit == 0);
        CHECK(ended.left.size() > 5);
        for (const std::string& file : ended.left) {
            INFO(file);
            CHECK(file.starts_with("papers/"));
            CHECK(file.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", 7) == file.rfind('.'));
        }
    }
}

TEST_CASE("a job that is no file at all", "[hostile]") {
    const Folder folder;
    write(folder / "a/job.yaml", "");
    CHECK(run_limited(folder / "", {"check", "a"}).exit == 2);
    CHECK(run_limited(folder / "", {"check", "not there"}).exit == 2);
    CHECK(run_limited(folder / "", {"check", ""}).exit != 0);
    CHECK(run_limited(folder / "", {"check", "a/job.yaml/x"}).exit == 2);
    CHECK(run_limited(folder / "", {"check", std::string(5000, 'x')}).exit == 3);
    CHECK(run_limited(folder / "", {"check", "/dev/null"}).exit != 0);
    // More than is ever read of one file.
    write(folder / "large.yaml", repeated("a: b\n", 14'000'000));
    CHECK(run_limited(folder / "", {"check", "large.yaml"}).exit == 3);
    const Ended endless = run_limited(folder / "", {"check", "/dev/zero"});
    CHECK(endless.exit == 2);
    CHECK(endless.left.empty());
}
