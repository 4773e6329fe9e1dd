#include "cli/manual.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "cli/help.hpp"
#include "cli/terminal.hpp"

namespace gallipot::cli {
namespace {

/// Text as roff takes it: hyphens that can be copied, no line that looks like a request.
std::string plain(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\\') {
            out += "\\e";
        } else if (c == '-') {
            out += "\\-";
        } else if ((c == '.' || c == '\'') && out.empty()) {
            out += "\\&";
            out += c;
        } else if (c == '\n') {
            out += ' ';
        } else {
            out += c;
        }
    }
    return out;
}

/// A paragraph in lines that are easy to compare.
std::string prose(std::string_view text) {
    constexpr std::size_t width = 76;
    std::string out;
    for (const std::string& line : wrapped(text, width, "en")) out += plain(line) + '\n';
    return out;
}

std::string bold(std::string_view text) {
    return fmt::format("\\fB{}\\fR", plain(text));
}

std::string options_text(const CLI::App& command) {
    std::string out;
    for (const CLI::Option* option : command.get_options()) {
        const std::string name = names(command, *option);
        const auto blank = name.find(' ');
        out += fmt::format(".TP\n{}", bold(name.substr(0, blank)));
        if (blank != std::string::npos)
            out += fmt::format(" \\fI{}\\fR", plain(name.substr(blank + 1)));
        out += fmt::format("\n{}", prose(description(command, *option) + '.'));
    }
    return out;
}

std::string examples_text(const CLI::App& command) {
    std::string out;
    for (const Example& example : examples_of(command.get_name()))
        out += fmt::format(".TP\n{}\n{}.\n", bold(example.line), plain(example.what));
    return out;
}

std::string command_text(const CLI::App& command) {
    std::string out = fmt::format(".SS \"{}\"\n", usage(command));
    out += prose(command.get_description() + '.');
    out += options_text(command);
    return out + ".PP\nExamples:\n" + examples_text(command);
}

struct Entry {
    std::string_view name, what;
};

constexpr Entry environment[] = {
    {"LC_ALL, LC_MESSAGES, LANG",
     "The first that is set chooses the language of what stands in the terminal: tables, verdicts, "
     "next steps, and messages that point into a file. Where there are no texts in it, a job's "
     "first language is taken, or English; messages are English then, as this page and --help "
     "always are. JSON, CSV and the papers never depend on it"},
    {"NO_COLOR",
     "Any value but the empty one: no colours. There are none either where TERM is dumb "
     "or the output is no terminal"},
    {"COLUMNS", "How wide tables may be in a terminal, in place of the window's own width"},
    {"GALLIPOT_FONTS", "A folder that is searched for the fonts' files before the system's"},
};

constexpr Entry files[] = {
    {"job.yaml", "The job, written by hand. gallipot never changes it"},
    {"job.secret",
     "Beside the job: what the keys in the codes are made from. Whoever has it can write "
     "to the log; without it, labels that are out open nothing any more"},
    {"job.visits.sqlite", "Beside the job: the visit log. Nothing in it is changed or deleted"},
    {"../share/gallipot",
     "From the program: texts, label sheets and designs, fonts' names, examples. A "
     "folder of your own goes before it with --templates"},
};

template <std::size_t N>
std::string entries(const Entry (&all)[N]) {
    std::string out;
    for (const Entry& entry : all)
        out += fmt::format(".TP\n{}\n{}", bold(entry.name), prose(std::string(entry.what) + '.'));
    return out;
}

std::string pages_of(const HelpPages& pages, HelpKind kind) {
    std::string out;
    for (const HelpPage& page : pages.all()) {
        if (page.kind != kind) continue;
        std::string text = page.means;
        for (const std::string& more : {page.next, page.when})
            if (!more.empty()) text += ' ' + more;
        out += fmt::format(".TP\n{}\n{}", bold(page.name), prose(text));
    }
    return out;
}

}  // namespace

std::string manual(const CLI::App& app, const std::string& version, const HelpPages& pages) {
    // The page is the same whenever it is built: its date is that of its form.
    std::string about = app.get_description();
    std::replace(about.begin(), about.end(), '\n', ' ');
    std::string out =
        fmt::format(".TH GALLIPOT 1 2026-11-25 \"gallipot {}\" \"User Commands\"\n", version);
    out +=
        ".SH NAME\ngallipot \\- mixing cards, labels, sheets and a visit log for baits mixed at "
        "home\n";
    out += ".SH SYNOPSIS\n.nf\n";
    for (const CLI::App* command : commands(app)) out += bold(usage(*command)) + '\n';
    out += ".fi\n.SH DESCRIPTION\n" + prose(about);
    out +=
        ".PP\n" + prose(
                      "Follow the packet's own label, ask what your local rules allow, and call a "
                      "licensed professional for a heavy or returning infestation.");
    out += options_text(app);
    out += ".SH COMMANDS\n";
    for (const CLI::App* command : commands(app)) out += command_text(*command);
    out += ".SH EXIT STATUS\n" + prose(std::string(exit_codes) + '.');
    out += ".SH ENVIRONMENT\n" + entries(environment);
    out += ".SH FILES\n" + entries(files);
    out += ".SH WORDS\n" + pages_of(pages, HelpKind::word);
    out += ".SH PAPERS\n" + pages_of(pages, HelpKind::paper);
    out += ".SH MESSAGES\n" +
           prose(
               "By the code in brackets behind each; gallipot explain CODE also tells why it "
               "matters.") +
           pages_of(pages, HelpKind::message);
    return out;
}

}  // namespace gallipot::cli
