#include "cli/complete.hpp"

#include "catch_all.hpp"

#include "cli/command.hpp"
#include "golden.hpp"
#include "hall.hpp"

namespace gallipot::tests {
namespace {

std::string offered(const std::vector<std::string>& words) {
    std::vector<std::string> all{"__complete"};
    all.insert(all.end(), words.begin(), words.end());
    const Ran ran = Hall::run(all);
    CHECK(ran.err.empty());
    return ran.out;
}

}  // namespace

TEST_CASE("commands and options are offered with what they are for", "[cli][complete]") {
    CHECK(offered({"ren"}) == "words\nrender\tThe papers of a job as PDF files\n");
    CHECK(offered({"render", "job.yaml", "--start"}) ==
          "words\n--start-at\tFirst free label of a part-used sheet\n");
    CHECK(offered({}).find("\nnew\t") != std::string::npos);
}

TEST_CASE("a value is offered after its option, and in its place", "[cli][complete]") {
    CHECK(offered({"render", "job.yaml", "--stock", "a4-3x7"}) == "words\na4-3x7\n");
    // zsh and fish hand one word over, bash three
    CHECK(offered({"render", "job.yaml", "--stock=a4-3x7"}) == "words\n--stock=a4-3x7\n");
    CHECK(offered({"render", "job.yaml", "--stock", "=", "a4-3x7"}) == "words\na4-3x7\n");
    CHECK(offered({"render", "job.yaml", "--only", "cards,la"}) == "words\ncards,labels\n");
    CHECK(offered({"render", "--copies", "2", ""}) == "yaml\n");
    CHECK(offered({"log", "job.yaml", "--import", ""}) == "csv\n");
    CHECK(offered({"render", "job.yaml", "-o", ""}) == "folders\n");
    CHECK(offered({"new", ""}) == "files\n");
}

TEST_CASE("stations are those of the job that was typed", "[cli][complete]") {
    const Hall hall;
    CHECK(offered({"visit", hall.job, "K"}).find("words\nK1\n") == 0);
    CHECK(offered({"visit", "no-such-file.yaml", ""}).empty());
    CHECK(offered({"render", hall.job, "--stations", "K"}) == "words\nK1\nK2\n");
    CHECK(offered({"render", hall.job, "--stations", "K2,E"}) == "words\nK2,E1\n");
    CHECK(offered({"render", hall.job, "--stations=Y"}) == "words\n--stations=Y1\n");
}

TEST_CASE("nothing is offered where nothing can stand", "[cli][complete]") {
    CHECK(offered({"render", "job.yaml", "more", ""}) == "words\n");
    CHECK(offered({"no-such-command", "x", ""}).find("words\n") == 0);
    CHECK(offered({"render", "job.yaml", "--no-such=x"}) == "words\n");
    CHECK(offered({"visit", "job.yaml", "K1", "--seen", ""}) == "words\n");
}

}  // namespace gallipot::tests
