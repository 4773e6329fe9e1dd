#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>

#include "catch_all.hpp"

#include "cli/complete.hpp"
#include "cli/examples.hpp"
#include "cli/help.hpp"
#include "cli/help_pages.hpp"
#include "cli/manual.hpp"
#include "golden.hpp"
#include "hall.hpp"

// Every command and every option is told of in --help, on the manual page and by the completions,
// and something runs it: a test, a script, or a line of README.

using namespace gallipot;
using tests::Hall;
using tests::Ran;
namespace fs = std::filesystem;

namespace {

/// The parser of the whole program.
class Program {
  public:
    Program() { cli::add_commands(app, task_, environment_); }
    CLI::App app;

  private:
    std::ostringstream out_;
    cli::Environment environment_{out_, out_,
                                  [](const char*) { return std::optional<std::string>(); }};
    cli::Command task_;
};

/// Where `command` is run in a file, and what follows up to the end of that call: "gallipot
/// render",
/// "\"$gallipot\" render", {"render", .. and hall.visit(.. A line of a script ends with the line,
/// a call in a program with a semicolon.
void add_runs(const std::string& text, const std::string& command, bool script,
              std::vector<std::string>& runs) {
    constexpr std::size_t longest = 400;
    for (auto at = text.find(command); at != std::string::npos; at = text.find(command, at + 1)) {
        const std::string before =
            text.substr(at < 10 ? 0 : at - 10, std::min<std::size_t>(at, 10));
        const char after = at + command.size() < text.size() ? text[at + command.size()] : ' ';
        const bool called = (before.ends_with("gallipot ") || before.ends_with("gallipot\" "))
                                ? after == ' ' || after == '\n' || after == '`'
                            : before.ends_with("{\"") || before.ends_with("(\"") ? after == '"'
                            : before.ends_with('.')                              ? after == '('
                                                                                 : false;
        if (!called) continue;
        const auto end = text.find(script ? '\n' : ';', at);
        runs.push_back(text.substr(at, std::min(end - at, longest)));
    }
}

/// Where a command is run by tests, scripts and README.
std::vector<std::string> runs_of(const std::string& command) {
    const fs::path top = GALLIPOT_SOURCE_DIR;
    std::vector<std::string> runs;
    for (const char* page : {"README.md", "src/GUIDE.md", "src/TUTORIAL.md"})
        add_runs(tests::slurp((top / page).string()), command, true, runs);
    for (const char* folder : {"tests", "examples"})
        for (const auto& entry : fs::recursive_directory_iterator(top / folder)) {
            const std::string ending = entry.path().extension().string();
            const bool script = ending == ".sh";
            if (script || ending == ".cpp" || ending == ".hpp" || ending == ".py" ||
                ending == ".js" || ending == ".mjs")
                add_runs(tests::slurp(entry.path().string()), command, script, runs);
        }
    return runs;
}

bool has_word(const std::string& text, const std::string& word) {
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        const auto end = at + word.size();
        const char after = end < text.size() ? text[end] : ' ';
        const bool starts = at == 0 || (text[at - 1] != '-' && std::isalnum(text[at - 1]) == 0);
        if (starts && after != '-' && std::isalnum(static_cast<unsigned char>(after)) == 0)
            return true;
    }
    return false;
}

/// As roff writes it: hyphens with a backslash.
std::string on_page(const std::string& name) {
    std::string out;
    for (const char c : name) {
        if (c == '-') out += '\\';
        out += c;
    }
    return out;
}

}  // namespace

TEST_CASE("every option is documented", "[command][options]") {
    const Program program;
    const std::string page = cli::manual(program.app, "1", cli::HelpPages(app::find_data()));
    const std::string offered = cli::complete(program.app, {""});
    CHECK(cli::commands(program.app).size() >= 13);
    for (const CLI::App* one : cli::commands(program.app)) {
        const std::string& name = one->get_name();
        INFO(name);
        CHECK_FALSE(one->get_description().empty());
        CHECK(page.find(".SS \"gallipot " + name + " ") != std::string::npos);
        CHECK(Hall::run({"--help"}).says("  " + name + " "));
        CHECK(offered.find('\n' + name + '\t') != std::string::npos);
        const std::string with_dash = cli::complete(program.app, {name, "-"});
        const std::string help = Hall::run({name, "--help"}).out;
        const std::string own = page.substr(page.find(".SS \"gallipot " + name + " "));
        const std::string section = own.substr(0, own.find(".SS", 3));
        for (const CLI::Option* option : one->get_options()) {
            const std::string names = cli::names(*one, *option);
            INFO(names);
            CHECK_FALSE(option->get_description().empty());
            CHECK((help.find("  " + names + " ") != std::string::npos ||
                   help.find("  " + names + "\n") != std::string::npos));
            CHECK(section.find("\\fB" + on_page(names.substr(0, names.find(' ')))) !=
                  std::string::npos);
            for (const std::string& spelling : option->get_lnames())
                CHECK(with_dash.find("\n--" + spelling + '\t') != std::string::npos);
        }
    }
}

TEST_CASE("every option is run by some test, script or line of README", "[command][options]") {
    const Program program;
    for (const CLI::App* one : cli::commands(program.app)) {
        const std::string& name = one->get_name();
        INFO("command " << name);
        const auto runs = runs_of(name);
        CHECK_FALSE(runs.empty());
        for (const CLI::Option* option : one->get_options()) {
            if (option->get_positional() || option->get_lnames().front() == "help") continue;
            std::vector<std::string> spellings{"--" + option->get_lnames().front()};
            for (const std::string& letter : option->get_snames())
                spellings.push_back("-" + letter);
            const bool used = std::any_of(runs.begin(), runs.end(), [&](const std::string& run) {
                return std::any_of(spellings.begin(), spellings.end(),
                                   [&](const std::string& each) { return has_word(run, each); });
            });
            INFO("no test runs gallipot " << name << " with " << spellings.front());
            CHECK(used);
        }
    }
}

TEST_CASE("the search for runs can fail", "[command][options]") {
    std::vector<std::string> runs;
    add_runs("x(); Hall::run({\"render\", job, \"--only\", \"labels\"}); \"--copies\"", "render",
             false, runs);
    add_runs("gallipot render job.yaml --stock a4\ngallipot check job.yaml --all", "render", true,
             runs);
    REQUIRE(runs.size() == 2);
    CHECK(has_word(runs[0], "--only"));
    CHECK_FALSE(has_word(runs[0], "--on"));
    CHECK_FALSE(has_word(runs[0], "--copies"));
    CHECK(has_word(runs[1], "--stock"));
    CHECK_FALSE(has_word(runs[1], "--all"));
    CHECK_FALSE(has_word("--only-this", "--only"));
    runs.clear();
    add_runs("the render of it", "render", false, runs);
    CHECK(runs.empty());
}

TEST_CASE("every command has examples of its own, and --help shows them", "[command][options]") {
    const Program program;
    for (const CLI::App* one : cli::commands(program.app)) {
        INFO(one->get_name());
        const auto& examples = cli::examples_of(one->get_name());
        CHECK_FALSE(examples.empty());
        const auto help = Hall::run({one->get_name(), "--help"});
        CHECK(help.exit == 0);
        CHECK(help.says("Usage: gallipot " + one->get_name()));
        CHECK(help.says("\nExamples:\n"));
        for (const auto& example : examples) {
            CHECK(example.line.starts_with("gallipot " + one->get_name()));
            CHECK(help.says("  " + std::string(example.line)));
        }
    }
}

TEST_CASE("a language that the job has not is wrong usage, with those it has",
          "[command][options]") {
    const Hall hall;
    for (const std::string one : {"render", "report"}) {
        const auto ran = Hall::run({one, hall.job, "--language", "fr"});
        CHECK(ran.exit == 2);
        CHECK(ran.complains("--language fr: the job's languages are en, es, de, fil, uk"));
    }
}

TEST_CASE("texts of one's own are read before ours by whatever says something",
          "[command][options]") {
    const Hall hall;
    fs::create_directories(hall.folder / "mine/text");
    static_cast<void>(hall.write("mine/text/en.yaml",
                                 "terminal: { check: { good: 'All is well. {command}' } }\n"
                                 "report: { kicker: '{job} as it stood on {day}' }\n"));
    const std::string mine = hall.folder / "mine";
    CHECK(Hall::run({"check", hall.job, "--templates", mine}).says("All is well."));
    CHECK(Hall::run({"report", hall.job, "--templates", mine}).says("as it stood on"));
    CHECK(Hall::run({"serve", hall.job, "--templates", hall.folder / "none"}).exit == 2);
}

TEST_CASE("gallipot says which it is", "[command][options]") {
    CHECK(Hall::run({"--version"}).out.starts_with("gallipot "));
    CHECK(Hall::run({}).exit == 2);
    CHECK(Hall::run({"rendr"}).exit == 2);
    CHECK(Hall::run({"render", "job.yaml", "--onyl", "labels"}).exit == 2);
}

TEST_CASE("a word that is no command, and what is asked of one", "[command][options]") {
    const Ran near = Hall::run({"chekc", "x.yaml"});
    CHECK(near.exit == 2);
    CHECK(near.err == "gallipot: no command 'chekc'; did you mean 'check'?\n");
    CHECK(Hall::run({"frobnicate"}).complains("no command 'frobnicate'; gallipot --help lists"));
    CHECK(Hall::run({"hall.yaml"}).complains("gallipot check hall.yaml looks for mistakes in it"));
    // A name cannot drive the terminal.
    CHECK(Hall::run({"a\x1b[31m"}).err.find('\x1b') == std::string::npos);
    CHECK(Hall::run({"help", "check"}).out == Hall::run({"check", "--help"}).out);
    CHECK(Hall::run({"help", "check"}).exit == 0);
    CHECK(Hall::run({"help"}).out == Hall::run({"--help"}).out);
    CHECK(Hall::run({"help", "chekc"}).complains("did you mean 'check'?"));
    const Ran nothing = Hall::run({});
    CHECK(nothing.exit == 2);
    CHECK(nothing.out.empty());
    CHECK(nothing.err == Hall::run({"--help"}).out);
    const Ran option = Hall::run({"report", "x.yaml", "--summery"});
    CHECK(option.exit == 2);
    CHECK(option.complains("report has no option --summery; did you mean --summary?"));
    CHECK(option.complains("See 'gallipot help report'."));
}

TEST_CASE("warnings are told by check, and counted by all others", "[command][options]") {
    const Hall hall;
    const Ran check = Hall::run({"check", hall.job});
    CHECK(check.complains("'K1' is near food [near-food]"));
    const Ran plan = Hall::run({"plan", hall.job});
    CHECK(plan.exit == 0);
    CHECK_FALSE(plan.complains("'K1' is near food"));
    // By their codes, so that one that is new is seen.
    CHECK(
        plan.complains("4 warnings (licence, coarse-scale, near-food); read them with: gallipot "
                       "check " +
                       hall.job + "\n"));
    const Ran render = Hall::run({"render", hall.job, "-o", hall.folder / "p", "--only", "labels"});
    CHECK(render.complains("label-leaves-out"));
    CHECK_FALSE(render.complains("[label-leaves-out]"));
    // What comes of a command's own options check does not show: it is told in full.
    const Ran own = Hall::run(
        {"render", hall.job, "-o", hall.folder / "p", "--only", "labels", "--stock", "a4-2x2"});
    CHECK(own.complains("[label-in-each-language]"));
    CHECK(own.complains("4 more warnings (licence, coarse-scale, near-food)"));
    // Errors are told in full everywhere; and with an option, the command has it too.
    const std::string bad = hall.write("bad.yaml", tests::slurp(hall.job) + "colour: red\n");
    CHECK(Hall::run({"plan", bad}).complains("unknown key 'colour'"));
    CHECK(Hall::run({"plan", hall.job, "--on", "2027-03-20"})
              .complains(hall.job + " --on 2027-03-20"));
}

TEST_CASE("render --show prints what the pages hold and writes nothing", "[command][options]") {
    const Hall hall;
    const auto shown = [&](const char* what) {
        return Hall::run({"render", hall.job, "-o", hall.folder / "p", "--only", "cards",
                          "--language", "en", "--show", what});
    };
    const Ran text = shown("text");
    CHECK(text.exit == 0);
    CHECK(text.says("== cards-en.pdf, page 1 of "));
    CHECK(text.says("Sweet liquid bait"));
    const Ran boxes = shown("boxes");
    CHECK(boxes.says(" x "));
    CHECK(boxes.says("text "));
    CHECK(boxes.says(" pt bold \""));
    CHECK_FALSE(fs::exists(hall.folder / "p"));
    CHECK(shown("pictures").exit == 2);
    CHECK(Hall::run({"render", hall.job, "--only", "labels", "--offset", "1,1", "--show", "text"})
              .says("NOT FOOD"));
}
