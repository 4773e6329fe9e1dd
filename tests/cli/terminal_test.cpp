#include "cli/terminal.hpp"

#include <algorithm>
#include <sstream>

#include "catch_all.hpp"

#include "cli/person.hpp"
#include "cli/table.hpp"
#include "hall.hpp"

using namespace gallipot;
using cli::Table;
using cli::Terminal;
using tests::Hall;
using tests::Ran;

namespace {

const cli::Terminals both{true, true, 200};

bool has_escapes(const std::string& text) {
    return text.find('\x1b') != std::string::npos;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// The words of a text in order, whatever stands between them.
std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> words;
    std::istringstream in(text);
    for (std::string word; in >> word;) words.push_back(word);
    std::sort(words.begin(), words.end());
    return words;
}

Table animals() {
    Table table({{"Station"}, {"What was seen there"}, {"Seen", true}});
    table.row({"K1", "a trail from the window to the sink", "9"});
    table.row({"K2", "слід від вікна до мийки", "12"});
    table.row({"E1", "窓から流しまで", "3"});
    return table;
}

cli::Locale locale(const Hall::Variables& variables) {
    std::ostringstream out;
    const cli::Environment environment{out, out,
                                       [&](const char* name) -> std::optional<std::string> {
                                           const auto found = variables.find(name);
                                           if (found == variables.end()) return std::nullopt;
                                           return found->second;
                                       }};
    return cli::locale_of(environment);
}

}  // namespace

TEST_CASE("colours only on a terminal that wants them", "[command][terminal]") {
    const Hall hall;
    const std::vector<std::string> plan{"plan", hall.job};
    CHECK(has_escapes(Hall::run(plan, {{"TERM", "xterm"}}, both).out));
    CHECK_FALSE(has_escapes(Hall::run(plan, {{"TERM", "xterm"}}).out));  // no terminal
    CHECK_FALSE(has_escapes(Hall::run(plan, {}, both).out));             // nobody knows which
    CHECK_FALSE(has_escapes(Hall::run(plan, {{"TERM", "dumb"}}, both).out));
    // https://no-color.org: present and not an empty string, whatever its value.
    for (const std::string value : {"1", "0", "no"})
        CHECK_FALSE(
            has_escapes(Hall::run(plan, {{"TERM", "xterm"}, {"NO_COLOR", value}}, both).out));
    CHECK(has_escapes(Hall::run(plan, {{"TERM", "xterm"}, {"NO_COLOR", ""}}, both).out));
    // Each stream for itself: results into a file, errors before somebody's eyes.
    const Ran wrong = Hall::run({"plan", hall.write("bad.yaml", "titel: x\n")}, {{"TERM", "xterm"}},
                                {false, true, 0});
    CHECK(wrong.exit == 1);
    CHECK(wrong.complains(":1:1: \x1b[1;31merror:\x1b[0m unknown key 'titel'"));
    CHECK(Hall::run({"plan", hall.folder / "bad.yaml"}).complains(":1:1: error: unknown key"));
}

TEST_CASE("without its colours a text is the same", "[command][terminal]") {
    const Hall hall;
    std::string coloured = Hall::run({"plan", hall.job}, {{"TERM", "xterm"}}, {true, true, 0}).out;
    for (auto at = coloured.find('\x1b'); at != std::string::npos; at = coloured.find('\x1b'))
        coloured.erase(at, coloured.find('m', at) - at + 1);
    CHECK(coloured == Hall::run({"plan", hall.job}).out);
}

TEST_CASE("a table is as wide as its terminal and loses nothing", "[command][terminal]") {
    const std::string whole = animals().text({}, "en");
    CHECK(lines_of(whole).size() == 4);
    CHECK(lines_of(whole)[1] == "  K1       a trail from the window to the sink     9");
    for (std::size_t width = 30; width < 60; ++width) {
        INFO(width);
        const std::string text = animals().text(Terminal{false, width}, "en");
        for (const std::string& line : lines_of(text)) CHECK(cli::display_width(line) <= width);
        // Broken between its characters, as the language may be, it still has each of them.
        std::string joined = text;
        joined.erase(std::remove_if(joined.begin(), joined.end(),
                                    [](char c) { return c == ' ' || c == '\n'; }),
                     joined.end());
        for (const std::string word : {"trail", "window", "слід", "вікна", "12"})
            CHECK(joined.find(word) != std::string::npos);
    }
    CHECK(words_of(animals().text(Terminal{false, 45}, "en")) == words_of(whole));
}

TEST_CASE("a table that is too wide even in words is a list of blocks", "[command][terminal]") {
    const std::string text = animals().text(Terminal{false, 15}, "en");
    CHECK(lines_of(text).front() == "  Station: K1");
    for (const char* word : {"trail", "window", "sink"})
        CHECK(text.find(word) != std::string::npos);
    // What is wider than the terminal breaks where it may, and is all there.
    Table table({{"Address"}});
    table.row({"HTTP://192.168.1.20:8017/S/K1/7Q2MX4KD9A"});
    std::string joined = table.text(Terminal{false, 20}, "en");
    std::erase_if(joined, [](char c) { return c == ' ' || c == '\n'; });
    CHECK(joined.find("HTTP://192.168.1.20:8017/S/K1/7Q2MX4KD9A") != std::string::npos);
    // What is typed or copied as it stands is never broken.
    Table whole({{"Address", false, true}});
    whole.row({"HTTP://192.168.1.20:8017/S/K1/7Q2MX4KD9A"});
    CHECK(whole.text(Terminal{false, 20}, "en").find("HTTP://192.168.1.20:8017/S/K1/7Q2MX4KD9A") !=
          std::string::npos);
}

TEST_CASE("columns are counted as a terminal shows them", "[command][terminal]") {
    CHECK(cli::display_width("abc") == 3);
    CHECK(cli::display_width("слід") == 4);
    CHECK(cli::display_width("窓から") == 6);     // wide: Unicode Standard Annex 11
    CHECK(cli::display_width("e\u0301") == 1);    // a letter and its accent
    CHECK(cli::display_width("12\u00A0%") == 4);  // a no-break space
    CHECK(cli::wrapped("12\u00A0% of it", 4, "en") ==
          std::vector<std::string>{"12\u00A0%", "of", "it"});
    CHECK(cli::wrapped("one two", 0, "en") == std::vector<std::string>{"one two"});
}

TEST_CASE("COLUMNS goes before the window, and neither counts in a file", "[command][terminal]") {
    const Hall hall;
    const auto widest = [](const std::string& text) {
        std::size_t maximum = 0;
        for (const std::string& line : lines_of(text))
            maximum = std::max(maximum, cli::display_width(line));
        return maximum;
    };
    const std::vector<std::string> stocks{"stocks"};
    CHECK(widest(Hall::run(stocks, {}, {true, true, 100}).out) <= 100);
    CHECK(widest(Hall::run(stocks, {{"COLUMNS", "80"}}, {true, true, 100}).out) <= 80);
    CHECK(widest(Hall::run(stocks, {{"COLUMNS", "wide"}}, {true, true, 100}).out) <= 100);
    CHECK(widest(Hall::run(stocks, {{"COLUMNS", "80"}}).out) > 100);
    for (const std::vector<std::string>& arguments : {std::vector<std::string>{"plan", hall.job},
                                                      {"report", hall.job},
                                                      {"substances"},
                                                      {"explain"},
                                                      {"languages"},
                                                      {"check", hall.job},
                                                      {"render", "--help"},
                                                      {"--help"}}) {
        INFO(arguments.front());
        CHECK(widest(Hall::run(arguments, {}, {true, true, 79}).out) <= 79);
    }
}

TEST_CASE("the machine's language is read as POSIX has it", "[command][terminal]") {
    // POSIX.1-2017, Base Definitions 8.2: LC_ALL, then LC_MESSAGES, then LANG; empty counts as
    // unset.
    CHECK(locale({{"LANG", "uk_UA.UTF-8"}}).language == "uk");
    CHECK(locale({{"LANG", "uk_UA.UTF-8"}}).region == "UA");
    CHECK(locale({{"LANG", "uk"}, {"LC_MESSAGES", "es_MX"}}).language == "es");
    CHECK(locale({{"LANG", "uk"}, {"LC_MESSAGES", "es_MX"}, {"LC_ALL", "de@euro"}}).language ==
          "de");
    CHECK(locale({{"LANG", "uk"}, {"LC_ALL", ""}}).language == "uk");
    CHECK(locale({{"LANG", "C.UTF-8"}}).language.empty());
    CHECK(locale({{"LANG", "POSIX"}}).language.empty());
    CHECK(locale({}).language.empty());
}

TEST_CASE("the terminal speaks the person's language, files do not", "[command][terminal]") {
    const Hall hall;
    const Hall::Variables german{{"LANG", "de_DE.UTF-8"}};
    CHECK(Hall::run({"plan", hall.job}).says("Share by weight"));
    CHECK(Hall::run({"plan", hall.job}, german).says("Gewichtsanteil"));
    CHECK(Hall::run({"check", hall.job}, german).says("Keine Fehler."));
    CHECK(Hall::run({"check", hall.job}, german).complains("Warnung: '"));
    CHECK(Hall::run({"plan", hall.job}, german).complains("; zu lesen mit: gallipot check"));
    CHECK(Hall::run({"check", hall.job}, {{"LC_ALL", "../messages/de"}}).complains("warning: '"));
    CHECK(Hall::run({"stocks"}, german).says("Auf einer Seite"));
    CHECK(Hall::run({"report", hall.job}, german).says("Bericht"));
    CHECK(Hall::run({"report", hall.job, "--language", "en"}, german).says("report of"));
    CHECK(Hall::run({"new", hall.folder / "new.yaml"}, german).says("Als Nächstes"));
    const Hall::Variables chinese{{"LC_ALL", "zh_CN.UTF-8"}}, taiwan{{"LC_ALL", "zh_TW.UTF-8"}};
    CHECK(Hall::run({"check", hall.job}, chinese).complains("警告:"));
    CHECK(Hall::run({"check", hall.job}, taiwan).complains("warning: '"));
    // Nobody has written texts in it: the job's first language, or English.
    const Hall::Variables welsh{{"LC_ALL", "cy_GB.UTF-8"}};
    CHECK(Hall::run({"plan", hall.job}, welsh).says("Share by weight"));
    CHECK(Hall::run({"stocks"}, welsh).says("On a page"));
    for (const std::vector<std::string>& arguments :
         {std::vector<std::string>{"plan", hall.job, "--json"},
          {"report", hall.job, "--json"},
          {"log", hall.job, "--csv"},
          {"stocks", "--json"},
          {"substances", "--json"},
          {"languages", "--json"},
          {"fonts", "--json"},
          {"explain", "--json"},
          {"--help"}}) {
        INFO(arguments.front());
        CHECK(Hall::run(arguments, german).out == Hall::run(arguments).out);
    }
}
