#pragma once

#include <CLI/CLI.hpp>
#include <cstddef>
#include <string>

#include "cli/examples.hpp"

/// What --help and the manual page share.
namespace gallipot::cli {

/// --help in one style: names of values after the options, descriptions wrapped to the terminal,
/// examples at the end.
class Help : public CLI::Formatter {
  public:
    Help(const CLI::App& command, std::size_t width) : command_(command), width_(width) {}

    std::string make_description(const CLI::App* app) const override;
    std::string make_usage(const CLI::App* app, std::string name) const override;
    std::string make_subcommand(const CLI::App* command) const override;
    std::string make_option(const CLI::Option* option, bool positional) const override;
    std::string make_help(const CLI::App* app, std::string name,
                          CLI::AppFormatMode mode) const override;

    /// Gives this style to the program and every command of it.
    static void give(CLI::App& app, std::size_t width);

  private:
    [[nodiscard]] std::string examples(const CLI::App* app) const;
    [[nodiscard]] std::string two_columns(const std::string& name, const std::string& what,
                                          std::size_t column) const;
    const CLI::App& command_;
    std::size_t width_;  ///< 0: lines as long as they are
};

/// Every command, in the order in which they were added.
std::vector<const CLI::App*> commands(const CLI::App& app);

/// "gallipot plan [OPTIONS] JOB".
std::string usage(const CLI::App& command);

/// "--only PAPER", "JOB", "-o,--output FOLDER".
std::string names(const CLI::App& command, const CLI::Option& option);

/// Its description, its default, and the words there are to choose from.
std::string description(const CLI::App& command, const CLI::Option& option);

inline constexpr const char* exit_codes =
    "0 done, 1 the job or the data has errors, 2 wrong usage, 3 the system failed (disk full, no "
    "font)";

}  // namespace gallipot::cli
