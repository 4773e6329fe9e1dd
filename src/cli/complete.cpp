#include "cli/complete.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "app/session.hpp"
#include "app/tables.hpp"
#include "base/system/files.hpp"
#include "cli/help.hpp"
#include "cli/values.hpp"
#include "domain/job/reader.hpp"
#include "papers/templates/library.hpp"

namespace gallipot::cli {
namespace {

struct Candidate {
    std::string word, about = {};
};
using Candidates = std::vector<Candidate>;

/// "-o" and "--output"; none for a positional argument.
std::vector<std::string> spellings(const CLI::Option& option) {
    std::vector<std::string> all;
    if (option.get_positional()) return all;
    for (const std::string& name : option.get_snames()) all.push_back("-" + name);
    for (const std::string& name : option.get_lnames()) all.push_back("--" + name);
    return all;
}

const CLI::Option* find_option(const CLI::App& command, const std::string& spelling) {
    for (const CLI::Option* option : command.get_options()) {
        const auto all = spellings(*option);
        if (std::find(all.begin(), all.end(), spelling) != all.end()) return option;
    }
    return nullptr;
}

const CLI::Option* positional(const CLI::App& command, std::size_t place) {
    for (const CLI::Option* option : command.get_options())
        if (option->get_positional() && place-- == 0) return option;
    return nullptr;
}

Candidates options_of(const CLI::App& command) {
    Candidates all;
    for (const CLI::Option* option : command.get_options())
        for (const std::string& spelling : spellings(*option))
            all.push_back({spelling, option->get_description()});
    return all;
}

Candidates plain(const std::vector<std::string>& words) {
    Candidates all;
    for (const std::string& word : words) all.push_back({word});
    return all;
}

/// The ids of the stations in a job, also in one that has errors elsewhere.
std::vector<std::string> station_ids(const std::string& job_file) {
    diag::Diagnostics ignored;
    const auto source = std::make_shared<const diag::Source>(
        diag::Source{job_file, system::read_named_file(job_file)});
    std::vector<std::string> ids;
    if (const auto job = job::read_job(source, ignored, app::tables_beside(job_file)))
        for (const auto& station : job->stations) ids.push_back(*station.id);
    return ids;
}

/// The words of a value; `job_file` is the job that stands before it.
Candidates words_for(const Value& value, const std::string& job_file) {
    switch (value.offer) {
        case Offer::words:
            return plain(value.words);
        case Offer::stations:
            return plain(station_ids(job_file));
        case Offer::stocks:
            return plain(templates::Library({app::find_data().templates}).stock_names());
        case Offer::languages: {
            const auto there = app::languages_there(app::find_data());
            return plain({there.begin(), there.end()});
        }
        default:
            return {};
    }
}

/// What the shell itself looks for; empty where the words are ours to give.
std::string files_for(Offer offer) {
    switch (offer) {
        case Offer::jobs:
            return "yaml";
        case Offer::csv_files:
            return "csv";
        case Offer::files:
            return "files";
        case Offer::folders:
            return "folders";
        default:
            return {};
    }
}

/// `stem` stands before each word, as in "cards,labels"; only words that go on as `typed` does.
std::string in_lines(const Candidates& all, const std::string& stem, const std::string& typed) {
    std::string out = "words\n";
    for (const auto& [word, about] : all)
        if (word.starts_with(typed))
            out += stem + word + (about.empty() ? "" : '\t' + about.substr(0, about.find('\n'))) +
                   '\n';
    return out;
}

/// What was typed, up to the last word.
struct CommandLine {
    const CLI::App* command = nullptr;
    const CLI::Option* option = nullptr;  ///< the one whose value stands next
    std::size_t arguments = 0;            ///< positional ones, finished
    std::string job_file;                 ///< the first of them

    CommandLine(const CLI::App& app, const std::vector<std::string>& words) {
        for (std::size_t i = 0; i + 1 < words.size(); ++i) take(app, words[i]);
    }

  private:
    void take(const CLI::App& app, const std::string& word) {
        if (command == nullptr) {
            for (const CLI::App* one : commands(app))
                if (one->get_name() == word) command = one;
        } else if (option != nullptr) {
            option = nullptr;  // this was its value
        } else if (word.starts_with('-')) {
            const CLI::Option* found = find_option(*command, word);
            if (found != nullptr && value_of(*command, *found) != nullptr) option = found;
        } else if (arguments++ == 0) {
            job_file = word;
        }
    }
};

/// bash hands "--stock=a4" over as three words: the sign between them says nothing.
void leave_out_equals(std::vector<std::string>& words) {
    if (words.back() == "=") words.back().clear();
    std::erase(words, "=");
}

std::string complete_value(const CLI::App& command, const CLI::Option& option,
                           const std::string& before, const std::string& typed,
                           const std::string& job_file) {
    const Value* value = value_of(command, option);
    if (value == nullptr) return in_lines({}, {}, {});
    if (const std::string kind = files_for(value->offer); !kind.empty()) return kind + '\n';
    const bool list = option.get_delimiter() == ',';
    const auto comma = list ? typed.rfind(',') : std::string::npos;
    const std::size_t begin = comma == std::string::npos ? 0 : comma + 1;
    return in_lines(words_for(*value, job_file), before + typed.substr(0, begin),
                    typed.substr(begin));
}

}  // namespace

std::string complete(const CLI::App& app, std::vector<std::string> words) {
    if (words.empty()) words.emplace_back();
    leave_out_equals(words);
    const CommandLine line(app, words);
    const std::string& typed = words.back();
    if (line.command == nullptr) {
        Candidates all;
        for (const CLI::App* command : commands(app))
            all.push_back({command->get_name(), command->get_description()});
        std::ranges::move(options_of(app), std::back_inserter(all));
        return in_lines(all, {}, typed);
    }
    if (line.option != nullptr)
        return complete_value(*line.command, *line.option, {}, typed, line.job_file);
    if (typed.starts_with("--") && typed.find('=') != std::string::npos) {
        const auto end = typed.find('=') + 1;
        const CLI::Option* option = find_option(*line.command, typed.substr(0, end - 1));
        if (option == nullptr) return in_lines({}, {}, {});
        return complete_value(*line.command, *option, typed.substr(0, end), typed.substr(end),
                              line.job_file);
    }
    if (typed.starts_with('-')) return in_lines(options_of(*line.command), {}, typed);
    const CLI::Option* next = positional(*line.command, line.arguments);
    if (next == nullptr) return in_lines({}, {}, {});
    return complete_value(*line.command, *next, {}, typed, line.job_file);
}

}  // namespace gallipot::cli
