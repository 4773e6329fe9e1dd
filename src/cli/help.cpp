#include "cli/help.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <utility>

#include "cli/terminal.hpp"
#include "cli/values.hpp"

namespace gallipot::cli {
namespace {

constexpr std::size_t option_column = 26;
constexpr const char* language = "en";

}  // namespace

std::vector<const CLI::App*> commands(const CLI::App& app) {
    return app.get_subcommands([](const CLI::App*) { return true; });
}

std::string usage(const CLI::App& command) {
    if (command.get_parent() == nullptr) return "gallipot COMMAND [OPTIONS]";
    std::string out = "gallipot " + command.get_name() + " [OPTIONS]";
    for (const CLI::Option* option : command.get_options()) {
        if (!option->get_positional()) continue;
        const std::string name = option->get_name(true);
        out += fmt::format(fmt::runtime(option->get_required() ? " {}" : " [{}]"), name);
    }
    return out;
}

std::string names(const CLI::App& command, const CLI::Option& option) {
    if (option.get_positional()) return option.get_name(true);
    const std::string all = option.get_name(false, true);
    const Value* value = value_of(command, option);
    return value == nullptr ? all : fmt::format("{} {}", all, value->name);
}

std::string description(const CLI::App& command, const CLI::Option& option) {
    std::string out = option.get_description();
    std::replace(out.begin(), out.end(), '\n', ' ');
    // So many words are no help; a list of them is a command of its own.
    constexpr std::size_t few = 12;
    if (const Value* value = value_of(command, option);
        value != nullptr && !value->words.empty() && value->words.size() <= few &&
        out.find(value->words.front()) == std::string::npos)
        out += fmt::format(". One of {}", fmt::join(value->words, ", "));
    if (!option.get_default_str().empty() && option.get_items_expected_max() != 0)
        out += fmt::format(" [{}]", option.get_default_str());
    return out;
}

void Help::give(CLI::App& app, std::size_t width) {
    app.formatter(std::make_shared<Help>(app, width));
    for (CLI::App* command : app.get_subcommands([](CLI::App*) { return true; })) {
        command->formatter(std::make_shared<Help>(*command, width));
        command->group("Commands");
    }
}

std::string Help::two_columns(const std::string& name, const std::string& what,
                              std::size_t column) const {
    std::string out = fmt::format("  {}", name);
    const bool beside = out.size() + 2 <= column;
    if (beside) {
        out.append(column - out.size(), ' ');
    } else {
        out.append("\n").append(column, ' ');
    }
    const std::size_t room = width_ == 0 ? 0 : std::max<std::size_t>(width_, column + 20) - column;
    bool first = true;
    for (const std::string& line : wrapped(what, room, language)) {
        if (!first) out.append(column, ' ');
        out += line + '\n';
        first = false;
    }
    return out;
}

std::string Help::make_usage(const CLI::App* app, std::string) const {
    return "Usage: " + usage(*app) + '\n';
}

std::string Help::make_subcommand(const CLI::App* command) const {
    constexpr std::size_t column = 14;
    return two_columns(command->get_name(), command->get_description(), column);
}

std::string Help::make_option(const CLI::Option* option, bool) const {
    return two_columns(names(command_, *option), description(command_, *option), option_column);
}

std::string Help::make_description(const CLI::App* app) const {
    return paragraphs(app->get_description() + '\n', Terminal{false, width_}, language);
}

std::string Help::make_help(const CLI::App* app, std::string name, CLI::AppFormatMode mode) const {
    std::string out = CLI::Formatter::make_help(app, std::move(name), mode);
    // How many blank lines end it depends on the library's version.
    out.erase(out.find_last_not_of('\n') + 1);
    return out + "\n\n" + examples(app);
}

std::string Help::examples(const CLI::App* app) const {
    const bool whole = app->get_parent() == nullptr;
    const auto& examples = examples_of(whole ? "" : app->get_name());
    std::size_t longest = 0;
    std::size_t longest_what = 0;
    for (const Example& example : examples) {
        longest = std::max(longest, example.line.size());
        longest_what = std::max(longest_what, example.what.size());
    }
    constexpr std::size_t between = 6;  // the indent, and two blanks, a # and a blank
    const bool beside = width_ == 0 || longest + longest_what + between <= width_;
    std::string out = "Examples:\n";
    for (const Example& example : examples)
        out += beside ? fmt::format("  {:<{}}  # {}\n", example.line, longest, example.what)
                      : fmt::format("  # {}\n  {}\n", example.what, example.line);
    if (!whole) return out;
    out += fmt::format(
        "\nExit codes: {}.\n'gallipot COMMAND --help' tells of one command, 'man gallipot' of "
        "all.\n",
        exit_codes);
    return paragraphs(out, Terminal{false, width_}, language, 2);
}

}  // namespace gallipot::cli
