#include <filesystem>

#include "catch_all.hpp"

#include "cli/scenarios.hpp"
#include "golden.hpp"
#include "hall.hpp"

// gallipot new: a job that is right as it stands. That each also renders: tests/examples/papers.sh.

using namespace gallipot;
using tests::Hall;
using tests::Ran;

TEST_CASE("every starter passes check as it is written", "[command][new]") {
    const tests::Folder folder;
    std::vector<std::vector<std::string>> ways{{"new", folder / "starter.yaml"}};
    for (const std::string& name : cli::scenarios())
        ways.push_back({"new", folder / (name + ".yaml"), "--from", name});
    for (const auto& way : ways) {
        INFO(way[1]);
        const Ran made = Hall::run(way);
        REQUIRE(made.exit == 0);
        CHECK(made.err.empty());
        CHECK(made.says("gallipot check " + way[1]));
        CHECK(made.says("gallipot render " + way[1]));
        // Commented: whoever opens it finds a sentence at its head.
        CHECK(tests::slurp(way[1]).starts_with("# "));
        const Ran checked = Hall::run({"check", way[1]});
        INFO(checked.err);
        CHECK(checked.exit == 0);
    }
}

TEST_CASE("a file that is there is never replaced", "[command][new]") {
    const Hall hall;
    const std::string before = tests::slurp(hall.job);
    const Ran ran = Hall::run({"new", hall.job, "--from", "flat"});
    CHECK(ran.exit == 2);
    CHECK(ran.complains("is there already; give another name"));
    CHECK(tests::slurp(hall.job) == before);
}

TEST_CASE("an example that is not there is wrong usage, with those that are", "[command][new]") {
    const tests::Folder folder;
    const Ran ran = Hall::run({"new", folder / "a.yaml", "--from", "barn"});
    CHECK(ran.exit == 2);
    for (const std::string& name : cli::scenarios()) CHECK(ran.complains(name));
    CHECK_FALSE(std::filesystem::exists(folder / "a.yaml"));
}

TEST_CASE("what is to be typed next can be pasted into a shell", "[command][new]") {
    const tests::Folder folder;
    const Ran ran = Hall::run({"new", folder / "Kim's job.yaml"});
    CHECK(ran.exit == 0);
    CHECK(ran.says("gallipot check '" + folder.operator/("Kim'\\''s job.yaml").string() + "'"));
}
