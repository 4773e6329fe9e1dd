#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "catch_all.hpp"

#include "app/papers.hpp"
#include "cli/help_pages.hpp"
#include "domain/job/bounds.hpp"
#include "domain/job/keys.hpp"
#include "hall.hpp"

using namespace gallipot;
using nlohmann::json;
using tests::Hall;
using tests::Ran;

TEST_CASE("every key is explained by its path and by its last step", "[command][explain]") {
    for (const job::Key& key : job::keys()) {
        INFO(key.path);
        const Ran by_path = Hall::run({"explain", std::string(key.path)});
        CHECK(by_path.exit == 0);
        CHECK(by_path.out.starts_with(std::string(key.path) + '\n'));
        CHECK(by_path.says(std::string(key.description)));
        CHECK(by_path.says(job::type_in_words(key).english()));
        CHECK(by_path.says(std::string(key.example)));
        CHECK(by_path.says(job::bounds_in_words(key)));
        if (key.name() == "*") continue;
        // Several may end in the same step: the others are named.
        const Ran by_name = Hall::run({"explain", std::string(key.name())});
        CHECK(by_name.exit == 0);
        CHECK(by_name.says(std::string(key.path)));
    }
}

TEST_CASE("a key may be written with a name of one's own, or without any", "[command][explain]") {
    for (const std::string way : {"mixes.*.basis", "mixes.syrup.basis", "mixes.basis", "basis"}) {
        INFO(way);
        CHECK(Hall::run({"explain", way}).out.starts_with("mixes.*.basis\n"));
    }
    CHECK(Hall::run({"explain", "title"}).out.starts_with("title\n"));
    CHECK(Hall::run({"explain", "title"}).says("Also: mixes.*.title"));
    CHECK(Hall::run({"explain", "mixes.syrup"}).exit == 2);  // a name is nothing to explain
}

TEST_CASE("a key says what is below it, its bounds and its default", "[command][explain]") {
    const Ran mix = Hall::run({"explain", "spare"});
    CHECK(mix.says("If omitted: 10 %"));
    CHECK(mix.says("Bounds: 0 to 200 %"));
    CHECK(Hall::run({"explain", "containers.body"}).says("containers.*.body.lid"));
    CHECK(Hall::run({"explain", "lasts"}).says("Bounds: 1 hour to 5 years"));
    CHECK(Hall::run({"explain", "form"}).says("one of liquid, dry, paste, spray"));
}

TEST_CASE("a near spelling is offered", "[command][explain]") {
    const Ran ran = Hall::run({"explain", "ingredient"});
    CHECK(ran.exit == 2);
    CHECK(ran.complains(
        "nothing is called 'ingredient': no key, message, pest, paper or word; did you "
        "mean 'ingredients'?"));
    CHECK(Hall::run({"explain", "coarse-scales"}).complains("did you mean 'coarse-scale'?"));
    CHECK(Hall::run({"explain", "zzzzzz"}).complains("gallipot explain lists the keys"));
}

TEST_CASE("a page for every key, paper, message and word", "[command][explain]") {
    const cli::HelpPages pages(app::find_data());
    for (const job::Key& key : job::keys()) {
        INFO(key.path);
        const cli::HelpPage* page = pages.find(cli::HelpKind::key, key.path);
        REQUIRE(page != nullptr);
        CHECK_FALSE(page->changes.empty());
    }
    for (const std::string& name : app::paper_names()) {
        INFO(name);
        const Ran ran = Hall::run({"explain", name});
        CHECK(ran.exit == 0);
        CHECK(ran.says(name + " (paper)\n"));
        CHECK(ran.says("When: "));
    }
    std::set<std::string> seen;
    for (const cli::HelpPage& page : pages.all()) {
        INFO(page.name);
        CHECK(seen.insert(std::to_string(static_cast<int>(page.kind)) + page.name).second);
        if (page.kind == cli::HelpKind::key) {
            CHECK(job::find_key(page.name) != nullptr);  // of no key that is gone
            continue;
        }
        CHECK(page.means.ends_with('.'));
        if (page.kind == cli::HelpKind::message) {
            CHECK(page.why.ends_with('.'));
            CHECK(page.next.ends_with('.'));
        }
        for (const std::string& other : page.also)
            CHECK(pages.find(page.kind, other) == &page);  // no name finds two
    }
}

TEST_CASE("a message, a word and a key of one name are all told", "[command][explain]") {
    const Ran message = Hall::run({"explain", "coarse-scale"});
    CHECK(message.says("coarse-scale (message)\n"));
    CHECK(message.says("Why it matters: "));
    CHECK(message.says("What to do: "));
    const Ran control = Hall::run({"explain", "control"});
    CHECK(control.says("stations.*.control\n"));
    CHECK(control.says("unbaited station (word)\n"));
    CHECK(Hall::run({"explain", "Half in"}).says("half in (word)"));
    const Ran as_json = Hall::run({"explain", "labels", "--json"});
    CHECK(as_json.says("\"keys\""));
    CHECK(as_json.says("\"papers\""));
    // What a key changes, and a line of a real job.
    const Ran lasts = Hall::run({"explain", "lasts"});
    CHECK(lasts.says("It changes: The replace-by date"));
    CHECK(lasts.says("In a job: lasts: 7 d  (hall.yaml, line "));
    CHECK(lasts.says("Example: lasts: 30 d"));
}

TEST_CASE("without a key all are listed, as JSON too", "[command][explain]") {
    const Ran tree = Hall::run({"explain"});
    const auto keys = json::parse(Hall::run({"explain", "--json"}).out)["keys"];
    CHECK(keys.size() == job::keys().size());
    for (const job::Key& key : job::keys()) CHECK(tree.says(std::string(key.description)));
    const auto one = json::parse(Hall::run({"explain", "form", "--json"}).out)["keys"];
    REQUIRE(one.size() == 1);
    CHECK(one[0]["path"] == "mixes.*.form");
    CHECK(one[0]["required"] == true);
    CHECK(one[0]["choices"].size() == 4);
    CHECK(one[0]["default"].is_null());
}
