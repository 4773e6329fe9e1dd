#include "rules.hpp"

#include <fstream>
#include <set>

#include "catch_all.hpp"

#include "golden.hpp"
#include "job_text.hpp"
#include "marked.hpp"

using namespace gallipot;
using namespace gallipot::tests;

namespace {

void check(const std::vector<Rule>& rules) {
    for (const Rule& rule : rules) {
        const Marked job = job_for(rule);
        const ReadJob got = read(job.text);
        const auto found = got.found.in_order();
        INFO(job.text);
        INFO(diag::print(got.found));
        CHECK(found.size() == rule.codes.size());
        CHECK(got.job.has_value() == !got.found.has_errors());
        const std::size_t last_place = job.places.empty() ? 0 : job.places.size() - 1;
        for (std::size_t i = 0; i < std::min(found.size(), rule.codes.size()); ++i) {
            CHECK(found[i].code == rule.codes[i]);
            CHECK_FALSE(found[i].hint.english().empty());
            if (job.places.empty()) {
                CHECK(found[i].place.line == 0);
                continue;
            }
            // Several findings may stand at the last mark.
            const auto& [line, column] = job.places[std::min(i, last_place)];
            CHECK(found[i].place.line == line);
            CHECK(found[i].place.column == column);
        }
        if (!rule.hint.empty() && !found.empty()) CHECK(found[0].hint.english() == rule.hint);
    }
}

/// The codes in a source: the texts in the first argument of each call of error() and warning().
std::vector<std::string> codes_in(const std::string& source) {
    std::vector<std::string> codes;
    for (const std::string call : {".error(", ".warning("}) {
        for (auto at = source.find(call); at != std::string::npos; at = source.find(call, at + 1)) {
            int depth = 0;
            for (auto i = at + call.size(); i < source.size() && (depth > 0 || source[i] != ',');
                 ++i) {
                if (source[i] == '(') ++depth;
                if (source[i] == ')') --depth;
                if (source[i] != '"') continue;
                const auto end = source.find('"', i + 1);
                const std::string text = source.substr(i + 1, end - i - 1);
                if (text.find('{') == std::string::npos) codes.push_back(text);
                i = end;
            }
        }
    }
    return codes;
}

}  // namespace

TEST_CASE("values, wherever they stand") {
    check(rules_of_form());
}
TEST_CASE("help, log, measures, supplies, containers and the floor plan") {
    check(rules_of_sections());
}
TEST_CASE("mixes, ingredients and limits") {
    check(rules_of_mixes());
}
TEST_CASE("stations") {
    check(rules_of_stations());
}
TEST_CASE("each key on its own") {
    check(rules_of_keys());
}
TEST_CASE("what is lawful but unwise") {
    check(rules_of_advice());
}

TEST_CASE("every code that the reader can give is given in a test") {
    std::set<std::string> given;
    for (const auto* rules : all_rules()) {
        for (const Rule& rule : *rules) given.insert(rule.codes.begin(), rule.codes.end());
    }
    // Those with a test of their own, below, in read_job_test.cpp and in table_test.cpp.
    given.insert({"csv-columns", "no-table", "not-utf8", "text-too-long", "line-too-long",
                  "file-too-large", "too-many-values", "empty-file", "accepts-nothing",
                  "far-from-usual", "no-published-support", "advised-against", "termite-food-bait",
                  "report-first", "old-point", "outside-rooms"});
    const auto domain = std::filesystem::path(GALLIPOT_SOURCE_DIR) / "src/domain";
    std::vector<std::filesystem::path> sources{domain / "yaml/mapping.cpp"};
    for (const auto& entry : std::filesystem::directory_iterator(domain / "job"))
        if (entry.path().extension() == ".cpp") sources.push_back(entry.path());
    int seen = 0;
    for (const auto& source : sources) {
        for (const std::string& code : codes_in(slurp(source))) {
            ++seen;
            INFO(source.filename() << ": " << code);
            CHECK(given.count(code) == 1);
        }
    }
    CHECK(seen > 50);
}

TEST_CASE("what is no job at all") {
    struct Case {
        std::string text, code;
        int line, column;
        std::string hint;
    };
    const auto c = GENERATE(values<Case>({
        {"", "empty-file", 1, 1, "write a starter job with `gallipot new`, then edit it"},
        {"# nothing\n", "empty-file", 1, 1,
         "write a starter job with `gallipot new`, then edit it"},
        {"---\n", "empty-file", 1, 1, "write a starter job with `gallipot new`, then edit it"},
        {"hello\n", "wrong-type", 1, 1,
         "write each key on a line of its own, with a colon and a blank behind it"},
        {"title:x\n", "wrong-type", 1, 1,
         "write each key on a line of its own, with a colon and a blank behind it"},
        {"- a\n", "wrong-type", 1, 1,
         "write each key on a line of its own, with a colon and a blank behind it"},
        {"title: [a\n", "yaml-syntax", 1, 8,
         "close it with ], part its entries with commas, and put quotes around a text with "
         "brackets"},
    }));
    INFO(c.text);
    const auto got = read(c.text);
    CHECK_FALSE(got.job);
    const auto found = got.found.in_order();
    REQUIRE(found.size() == 1);
    CHECK(found[0].code == c.code);
    CHECK(found[0].place.line == c.line);
    CHECK(found[0].place.column == c.column);
    CHECK(found[0].hint.english() == c.hint);
}

TEST_CASE("what is wrong in the YAML and in the job is reported in one run") {
    const auto got = read(changed(changed(small_job, "prepared:", "title: again\nprepared:"),
                                  "fill: 45 mL", "fill: 45"));
    const auto found = got.found.in_order();
    REQUIRE(found.size() == 2);
    CHECK(found[0].code == "duplicate-key");
    CHECK(found[1].code == "missing-unit");
}

TEST_CASE(
    "many stations: counts are bounded, ids are compared in a time that does not grow with "
    "their square") {
    const auto with_stations = [](int stations, int count) {
        std::string text = changed(small_job, "  - { id: C1, place: Yard, control: true }\n", "");
        std::string more = "  - { id: C1, place: Yard, control: true }\n";
        for (int i = 0; i < stations; ++i) {
            more += "  - { id: X" + std::to_string(i) +
                    ", place: P, mix: syrup, container: cup, count: " + std::to_string(count) +
                    " }\n";
        }
        return changed(text, "visits:", more + "visits:");
    };
    CHECK(read(with_stations(199, 1000)).job);
    const auto too_many = read(with_stations(200, 1000));
    REQUIRE(too_many.found.errors() == 1);
    CHECK(too_many.found.in_order()[0].code == "too-many");
    const auto large = read(with_stations(20'000, 2));
    CHECK(large.job);
    CHECK(large.found.warnings() == 0);
    // The same file with each id twice.
    std::string doubled = with_stations(5'000, 1);
    doubled = changed(doubled, "visits:", "stop:");
    const auto from = doubled.find("  - { id: X0");
    doubled =
        changed(doubled, "stop:", doubled.substr(from, doubled.find("stop:") - from) + "visits:");
    CHECK(read(doubled).found.errors() == 5'000);
}
