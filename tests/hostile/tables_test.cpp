#include <algorithm>

#include "catch_all.hpp"

#include "limited.hpp"

using namespace gallipot;
using namespace gallipot::tests;

namespace {

const std::string head = "id,place,mix,container,near,visits\n";

std::string job_with_table() {
    const std::string text = flat("", "");
    const auto from = text.find("stations:\n");
    return text.substr(0, from) + "stations: { from: stations.csv }\n" +
           text.substr(text.find("floor_plan:"));
}

/// What is wrong with how the program takes these tables of stations; empty when nothing is.
std::string table_faults(const std::vector<Hostile>& rows) {
    std::string all;
    for (const Hostile& hostile : rows) {
        const Folder folder;
        write(folder / "job.yaml", job_with_table());
        write(folder / "stations.csv", hostile.make());
        const Ended ended = run_limited(folder / "", {"check", "job.yaml"});
        std::string fault = ended.fault();
        const std::string file = hostile.code == "no-table" ? "job.yaml" : "stations.csv";
        if (!ended.tells(file, hostile.place, hostile.code))
            fault += "not told: " + hostile.place + " [" + hostile.code + "]";
        if (!fault.empty())
            all += hostile.name + ": " + fault + "\n" + ended.err.substr(0, 600) + "\n";
        if (std::getenv("GALLIPOT_FIGURES") != nullptr)
            std::printf("table %s: %.2f s, %.0f MB\n", hostile.name.c_str(), ended.seconds,
                        ended.megabytes);
    }
    return all;
}

}  // namespace

TEST_CASE("a hostile table of stations is a clear error with its place", "[hostile]") {
    using namespace std::string_literals;
    CHECK(table_faults({
              row("nothing", "1:1", "empty-file", ""),
              row("a picture", "1:1", "not-utf8", "\x89PNG\r\n\x1A\n\0\0\0\rIHDR"s),
              row("NUL", "2:4", "control-character", head + "K1,\0,syrup,cup,,\n"s),
              row("UTF-16", "1:1", "not-utf8", "\xFF\xFEi\0d\0"s),
              row("lines of an old Macintosh", "1:3", "control-character", "id\rK1\r"),
              row("an escape sequence", "2:5", "control-character",
                  head + "K1,a\x1B[31m,syrup,cup,,\n"),
              row("a direction", "2:5", "control-character", head + "K1,a\u202Eb,syrup,cup,,\n"),
              row("an open quote", "2:4", "csv-quote", head + "K1,\"never"),
              row("a path for a mix", "2:10", "unknown-mix", head + "K1,Range,../x,cup,,\n"),
              row("a path for an id", "2:1", "bad-id", head + "../x,Range,syrup,cup,,\n"),
              row("a formula for an id", "2:1", "bad-id", head + "=1+1,Range,syrup,cup,,\n"),
              row("no such column", "1:36", "unknown-key",
                  head.substr(0, head.size() - 1) + ",../x\nK1,Range,syrup,cup,,\n"),
          }) == "");
}

TEST_CASE("too much of everything in a table costs no more than five seconds and 300 MB",
          "[hostile]") {
    const auto times = [](const std::string& line, std::size_t count) {
        return [line, count] { return head + repeated(line, count); };
    };
    CHECK(
        table_faults({
            {"34 MB", "?", "no-table", [] { return repeated("x", 34u << 20); }},
            {"30 MB on a line", "1:1", "line-too-long", [] { return repeated("x", 30'000'000); }},
            {"2 MB of one cell", "1:1", "csv-quote",
             [] { return "\"" + repeated("x\n", 1'000'000); }},
            {"a cell of 2 MB", "2:4", "text-too-long",
             [] { return head + "K1,\"" + repeated("long\n", 400'000) + "\",syrup,cup,,\n"; }},
            {"30 MB of nothing", "?", "too-many-values", [] { return repeated("\n", 30'000'000); }},
            {"a row of 400,000 cells", "?", "csv-columns",
             [] { return head + repeated("\"\n\",", 400'000); }},
            {"a head of 40,000 columns", "1:1", "too-many",
             [] { return repeated("x,", 40'000) + "\n"; }},
            {"100,000 wrong rows", "2:10", "unknown-mix",
             times("K1,Range,syrap,cop,foot,\n", 100'000)},
            {"120,000 rows", "1:1", "too-many", times("K1,R,syrup,cup,,\n", 120'000)},
            {"lists without end", "?", "too-many-values",
             times("K1,Range,syrup,cup," + repeated("sun;", 900) + "\n", 5'000)},
            {"400,000 quotes", "?", "csv-quote",
             [] { return head + repeated("K\"1,R\"\n", 400'000); }},
        }) == "");
}
