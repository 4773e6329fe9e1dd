#include <fmt/format.h>

#include "catch_all.hpp"

#include "limited.hpp"

using namespace gallipot;
using namespace gallipot::tests;

namespace {

const std::string heading = "station,time,by,seen,dead,level_percent,state,did,note\r\n";

std::string visit(const std::string& fields) {
    return heading + fields + "\r\n";
}

/// What is wrong with how these are imported; empty when nothing is.
std::string import_faults(const std::vector<Hostile>& rows) {
    std::string all;
    for (const Hostile& hostile : rows) {
        const Folder folder;
        write(folder / "job.yaml", flat("", ""));
        write(folder / "visits.csv", hostile.make());
        const Ended ended = run_limited(folder / "", {"log", "job.yaml", "--import", "visits.csv"});
        std::string fault = ended.fault();
        if (!ended.tells("visits.csv", hostile.place, hostile.code))
            fault += "not told: " + hostile.place + " [" + hostile.code + "]";
        if (!fault.empty())
            all += hostile.name + ": " + fault + "\n" + ended.err.substr(0, 600) + "\n";
        if (std::getenv("GALLIPOT_FIGURES") != nullptr)
            std::printf("import %s: %.2f s, %.0f MB\n", hostile.name.c_str(), ended.seconds,
                        ended.megabytes);
    }
    return all;
}

/// The same for a file of the user's own templates at `path`, which the job uses.
std::string template_faults(const std::string& path, const std::vector<Hostile>& rows) {
    std::string all;
    for (const Hostile& hostile : rows) {
        const Folder folder;
        const bool stock = path.starts_with("stocks/");
        write(folder / "job.yaml", stock ? flat("letter-2x5", "own") : flat("", ""));
        write(folder / ("mine/" + path), hostile.make());
        const Ended ended =
            run_limited(folder / "", {"render", "job.yaml", "-o", "papers", "--templates", "mine"});
        std::string fault = ended.fault();
        if (!ended.tells("mine/" + path, hostile.place, hostile.code))
            fault += "not told: " + hostile.place + " [" + hostile.code + "]";
        if (!fault.empty())
            all +=
                path + " " + hostile.name + ": " + fault + "\n" + ended.err.substr(0, 600) + "\n";
    }
    return all;
}

std::vector<Hostile> no_yaml(const std::string& nothing) {
    using namespace std::string_literals;
    return {
        row("nothing", "1:1", nothing, ""),
        row("a picture", "", "not-text", "\x89PNG\r\n\x1A\n\0\0\0\rIHDR"s),
        row("NUL", "1:4", "control-character", "a: \0"s),
        row("a direction", "1:4", "control-character", "a: \u202Eb\n"),
        row("a tab", "2:1", "tab", "a:\n\tb: c\n"),
        {"100,000 brackets", "1:1001", "too-deep", [] { return repeated("[", 100'000); }},
        {"a line of 5 MB", "", "file-too-large", [] { return "a: " + repeated("x", 5'000'000); }},
        {"a line of 3 MB", "1:1", "line-too-long", [] { return "a: " + repeated("x", 3'000'000); }},
        row("an anchor in itself", "1:8", "alias", "a: &a [*a]\n"),
    };
}

}  // namespace

TEST_CASE("a hostile CSV is a clear error with its place, and no visit is recorded", "[hostile]") {
    using namespace std::string_literals;
    CHECK(
        import_faults({
            row("nothing", "1:1", "csv-heading", ""),
            row("blank lines", "1:1", "csv-heading", "\n\n\n"),
            row("a picture", "1:1", "not-utf8", "\x89PNG\r\n\x1A\n\0\0\0\rIHDR"s),
            row("NUL", "2:21", "control-character", visit("K1,2027-05-20 08:05,a\0b,1,,,,,"s)),
            row("UTF-16", "1:1", "not-utf8", "\xFF\xFEs\0t\0"s),
            row("another table", "1:1", "csv-heading", "name,price\nborax,3.20\n"),
            row("an open quote", "2:29", "csv-quote", visit("K1,2027-05-20 08:05,x,1,,,,,\"never")),
            row("no such station", "2:1", "unknown-station",
                visit("../x,2027-05-20 08:05,x,1,,,,,")),
            row("no such container", "2:1", "unknown-station",
                visit("K1-999999999999999999999,2027-05-20 08:05,x,1,,,,,")),
            row("no such day", "2:4", "bad-time", visit("K1,2027-02-30 08:05,x,1,,,,,")),
            row("a day far off", "2:4", "bad-time", visit("K1,99999-02-01 08:05,x,1,,,,,")),
            row("too few fields", "2:1", "csv-columns", visit("K1,2027-05-20 08:05")),
            row("a visit of nothing", "2:1", "empty-visit", visit("K1,2027-05-20 08:05,x,,,,,,")),
            row("a word unknown", "2:27", "bad-word", visit("K1,2027-05-20 08:05,x,1,,,soggy,,")),
            row("an escape sequence", "2:29", "control-character",
                visit("K1,2027-05-20 08:05,x,1,,,,,a\x1B[31m")),
            row("a direction", "2:29", "control-character",
                visit("K1,2027-05-20 08:05,x,1,,,,,a\u202Eb")),
            {"a note of a million letters", "2:29", "too-long",
             [] { return visit("K1,2027-05-20 08:05,x,1,,,,," + repeated("x", 1'000'000)); }},
            {"a million fields", "2:1", "csv-columns",
             [] { return visit(repeated("K1,", 1'000'000)); }},
            {"a million wrong lines", "2:1", "unknown-station",
             [] { return heading + repeated("K9,2027-05-20 08:05,x,1,,,,,\n", 1'000'000); }},
            {"a million quotes", "1:1", "csv-heading", [] { return repeated("\"", 1'000'000); }},
            {"5 MB on a line", "1:1", "csv-heading", [] { return repeated("x", 5'000'000); }},
            {"100 MB of one field", "1:1", "csv-quote",
             [] { return "\"" + repeated("x\n", 50'000'000); }},
            {"100 MB of nothing", "1:1", "csv-heading", [] { return repeated("\n", 100'000'000); }},
        }) == "");
    std::vector<Hostile> counts;
    for (const char* count : {"-1", "1.5", "1e3", "nan", "0x10", "1_000", "1000001", "+1",
                              "99999999999999999999", "\u0663", "one", "1 2"})
        counts.push_back(row(count, "2:23", "bad-count",
                             visit(fmt::format("K1,2027-05-20 08:05,x,{},,,,,", count))));
    for (const char* level : {"-1", "101", "2/3", "nan", "1e1", "halve"})
        counts.push_back(row(level, "2:26", "bad-level",
                             visit(fmt::format("K1,2027-05-20 08:05,x,1,,{},,,", level))));
    CHECK(import_faults(counts) == "");
}

TEST_CASE("hostile stock, designs and texts of the user's own", "[hostile]") {
    const std::string stock =
        "about: x\nlabel: { width: 100 mm, height: 62 mm }\ndesign: standard\n";
    const auto with = [](std::string text, const std::string& from, const std::string& to) {
        return text.replace(text.find(from), from.size(), to);
    };
    CHECK(template_faults("stocks/own.yaml", no_yaml("empty-value")) == "");
    CHECK(template_faults("labels/standard.yaml", no_yaml("empty-value")) == "");
    CHECK(template_faults("text/es.yaml", no_yaml("catalog-text")) == "");
    std::vector<Hostile> stocks;
    for (const char* width : {"nan mm", "inf mm", "1e3 mm", "-1 mm", "0x10 mm", "1_0 mm"})
        stocks.push_back(row(width, "2:17", "bad-number", with(stock, "100 mm", width)));
    stocks.push_back(row("no width", "2:17", "out-of-range", with(stock, "100 mm", "0 mm")));
    stocks.push_back(row("a kilometre", "2:17", "unknown-unit", with(stock, "100 mm", "1 km")));
    stocks.push_back(row("a path", "1:1", "unknown-design", with(stock, "standard", "../x")));
    CHECK(template_faults("stocks/own.yaml", stocks) == "");
    CHECK(template_faults(
              "text/en.yaml",
              {row("unknown argument", "2:10", "catalog-arguments",
                   "paper:\n  cards: \"{nosuch}\"\n"),
               row("unclosed", "2:10", "catalog-message", "paper:\n  cards: \"{nosuch\"\n"),
               row("unknown markup", "2:10", "catalog-message",
                   "paper:\n  cards: <script>x</script>\n"),
               row("a key of its own", "2:3", "catalog-key", "paper:\n  nosuch: x\n")}) == "");
}

TEST_CASE("a language of the user's own that lacks texts is told, not met half-way", "[hostile]") {
    const Folder folder;
    write(folder / "job.yaml", flat("[en, es]", "[cy]"));
    write(folder / "mine/text/cy.yaml", "paper: { cards: Cardiau }\n");
    const Ended ended =
        run_limited(folder / "", {"render", "job.yaml", "-o", "papers", "--templates", "mine"});
    INFO(ended.err);
    CHECK(ended.fault() == "");
    CHECK(ended.tells("mine/text/cy.yaml", "", "catalog-missing"));
}

TEST_CASE("a secret that is none is told, and kept as it is", "[hostile]") {
    using namespace std::string_literals;
    for (const std::string& secret : {""s, "\0\0\0"s, repeated("A", 100'000), "\x89PNG"s}) {
        const Folder folder;
        write(folder / "job.yaml",
              flat("currency: USD", "log: { address: http://192.168.1.20:8017 }"));
        write(folder / "job.secret", secret);
        const Ended ended = run_limited(folder / "", {"render", "job.yaml", "-o", "papers"});
        INFO(ended.err);
        CHECK(ended.fault() == "");
        CHECK(ended.err.find("job.secret") != std::string::npos);
    }
}
