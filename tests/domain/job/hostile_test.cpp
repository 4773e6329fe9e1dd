#include <random>
#include <string>
#include <vector>

#include "catch_all.hpp"

#include "job_text.hpp"

using namespace gallipot;
using namespace gallipot::tests;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t start = 0; start < text.size();) {
        const auto end = std::min(text.find('\n', start), text.size());
        lines.push_back(text.substr(start, end - start));
        start = end + 1;
    }
    return lines;
}

}  // namespace

TEST_CASE("whatever is changed in a job, there is a job or an error, never a crash") {
    const std::vector<std::string> words = {
        "",         "~",      "[]",          "{}",       "-1",
        "0",        "1e9",    "010",         "1,5 mL",   "rest",
        "true",     "'1'",    "999999999",   "[[1, 2]]", "60 mL",
        "{ a: b }", "10 %",   "K1-1",        "borax",    "percent w/v",
        "\"\"",     "parts",  "2027-02-30",  "8 C",      "spray",
        "open top", "null",   "&a x",        "*a",       "- x",
        "? x",      "\u00BD", "\"\\u0000\"", "<<",       "http://{station}",
        "6 m2",     "1/0",    "[1 d, 1 d]"};
    const auto original = lines_of(full_job);
    std::mt19937 random(20270302);  // fixed: the same jobs each time
    int good = 0;
    for (int i = 0; i < 3000; ++i) {
        auto lines = original;
        for (int edits = 1 + static_cast<int>(random() % 3); edits > 0; --edits) {
            std::string& line = lines[random() % lines.size()];
            const std::string& word = words[random() % words.size()];
            const auto colon = line.find(": ", random() % (line.size() + 1));
            switch (random() % 4) {
                case 0:  // another value
                    if (colon != std::string::npos) line = line.substr(0, colon + 2) + word;
                    break;
                case 1: {  // another value inside
                    const auto end =
                        colon == std::string::npos ? colon : line.find_first_of(",}]", colon);
                    if (end != std::string::npos) line.replace(colon + 2, end - colon - 2, word);
                    break;
                }
                case 2:
                    line.clear();
                    break;
                default:
                    line = lines[random() % lines.size()];
            }
        }
        std::string text;
        for (const std::string& line : lines) text += line + "\n";
        const ReadJob got = read(text);
        INFO(text);
        CHECK(got.job.has_value() != got.found.has_errors());
        CHECK(diag::print(got.found).size() < 100'000);
        if (got.job) ++good;
    }
    CHECK(good > 100);  // or the changes would test nothing but the YAML
}

TEST_CASE("large and wrong: each ends in errors, in a time that does not grow with the square") {
    std::string names;
    for (int i = 0; i < 30'000; ++i) names += "  n" + std::to_string(i) + ": { a: 1 }\n";
    std::string stations;
    for (int i = 0; i < 12'000; ++i) {
        stations += "  - { id: X" + std::to_string(i) + ", place: P, mix: m" + std::to_string(i) +
                    ", contaner: c, near: [fod] }\n";
    }
    for (const char* section : {"mixes:\n", "containers:\n", "supplies:\n"}) {
        const auto got = read(changed(small_job, section, section + names));
        CHECK_FALSE(got.job);
        CHECK(got.found.in_order().front().code == "too-many");
    }
    const auto many = read(changed(small_job, "visits:", stations + "visits:"));
    // Key, container or area, mix, near; while near spellings are looked for (1,000 errors, three
    // of each station), 'contaner' is one slip and not a container that is missing too.
    CHECK(many.found.errors() == 4 * 12'000 - 334);
    const auto both = read(changed(changed(small_job, "visits:", stations + "visits:"), "mixes:\n",
                                   "mixes:\n" + names));
    CHECK_FALSE(both.job);
    std::string keys;
    for (int i = 0; i < 48'000; ++i) keys += "titl" + std::to_string(i) + ": 1\n";
    CHECK(read(keys + small_job).found.errors() == 48'000);
}
