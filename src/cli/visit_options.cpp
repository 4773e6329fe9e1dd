#include "cli/visit_options.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>

#include "tracking/log/fields.hpp"
#include "tracking/log/zone.hpp"

namespace gallipot::cli {
namespace {

struct Field {
    const char* name;
    Change clear;
};

const std::vector<Field>& clearable() {
    static const std::vector<Field> fields{
        {"container", [](visit::Visit& visit) { visit.container = 0; }},
        {"by", [](visit::Visit& visit) { visit.by.clear(); }},
        {"seen", [](visit::Visit& visit) { visit.seen.reset(); }},
        {"dead", [](visit::Visit& visit) { visit.dead.reset(); }},
        {"level", [](visit::Visit& visit) { visit.level_percent.reset(); }},
        {"state", [](visit::Visit& visit) { visit.state = {}; }},
        {"did", [](visit::Visit& visit) { visit.did = {}; }},
        {"note", [](visit::Visit& visit) { visit.note.clear(); }},
        {"minutes", [](visit::Visit& visit) { visit.minutes.reset(); }},
        {"young", [](visit::Visit& visit) { visit.young.reset(); }},
        {"trap_nights", [](visit::Visit& visit) { visit.trap_nights.reset(); }},
        {"feeding", [](visit::Visit& visit) { visit.feeding.reset(); }}};
    return fields;
}

[[noreturn]] void refuse(const std::string& option, const std::string& value,
                         const std::string& instead) {
    throw CLI::ValidationError(option, "'" + value + "' is not understood; " + instead);
}

int read_count(const std::string& option, const std::string& text, int minimum = 0) {
    const auto count = log::parse_count(text);
    if (!count || *count < minimum)
        refuse(option, text,
               fmt::format("give a whole number, {} to {}", minimum, log::maximum_counted));
    return *count;
}

std::string read_text(const std::string& option, const std::string& text, std::size_t longest,
                      bool lines) {
    std::string tidied = log::tidy(text);
    if (log::find_fault(tidied, longest, lines) != log::TextFault::none)
        refuse(
            option, "this text",
            fmt::format("give at most {} characters of text, none that cannot be shown", longest));
    return tidied;
}

std::string joined(const std::vector<std::string>& words) {
    return fmt::format("{}", fmt::join(words, " "));
}

/// Reads the options one by one, those left out aside.
class OptionReader {
  public:
    explicit OptionReader(const VisitOptions& options) : options_(options) {}

    std::vector<Change> read() {
        clear();
        count("seen", options_.seen, &visit::Visit::seen, 0);
        count("dead", options_.dead, &visit::Visit::dead, 0);
        if (given("level", options_.level)) {
            const auto level = log::parse_level(options_.level);
            if (!level)
                refuse("--level", options_.level, "give percent, or full, 3/4, 1/2, 1/4 or empty");
            changes_.emplace_back([level](visit::Visit& visit) { visit.level_percent = level; });
        }
        marks();
        if (given("note", options_.note)) {
            const std::string note = read_text("--note", options_.note, log::longest_note, true);
            changes_.emplace_back([note](visit::Visit& visit) { visit.note = note; });
        }
        if (given("by", options_.by)) {
            const std::string by = read_text("--by", options_.by, log::longest_name, false);
            changes_.emplace_back([by](visit::Visit& visit) { visit.by = by; });
        }
        count("minutes", options_.minutes, &visit::Visit::minutes, 1);
        count("young", options_.young, &visit::Visit::young, 0);
        count("trap_nights", options_.trap_nights, &visit::Visit::trap_nights, 1);
        if (given("feeding", options_.feeding)) {
            const auto feeding = log::parse_yes_no(options_.feeding);
            if (!feeding) refuse("--feeding", options_.feeding, "give yes or no");
            changes_.emplace_back([feeding](visit::Visit& visit) { visit.feeding = feeding; });
        }
        return changes_;
    }

  private:
    void clear() {
        if (!options_.clear.empty() && options_.corrects == 0)
            throw CLI::ValidationError("--clear", "say of which entry, with --corrects NUMBER");
        for (const std::string& name : options_.clear) {
            const auto& fields = clearable();
            const auto field = std::find_if(fields.begin(), fields.end(),
                                            [&](const Field& known) { return name == known.name; });
            if (field == fields.end())
                refuse("--clear", name, "give any of: " + clearable_fields());
            changes_.push_back(field->clear);
        }
    }
    bool given(const std::string& name, const std::string& text) {
        if (text.empty()) return false;
        if (std::find(options_.clear.begin(), options_.clear.end(), name) != options_.clear.end())
            refuse("--clear", name, "it is also given anew");
        return true;
    }
    void count(const std::string& name, const std::string& text,
               std::optional<int> visit::Visit::*field, int minimum) {
        if (!given(name, text)) return;
        std::string option = "--" + name;
        std::replace(option.begin(), option.end(), '_', '-');
        const int value = read_count(option, text, minimum);
        changes_.emplace_back([field, value](visit::Visit& visit) { visit.*field = value; });
    }
    void marks() {
        std::string stranger;
        if (given("state", joined(options_.state))) {
            const auto states = log::parse_states(joined(options_.state), stranger);
            if (!states) refuse("--state", stranger, "give any of: " + log::state_words());
            changes_.emplace_back([states](visit::Visit& visit) { visit.state = *states; });
        }
        if (given("did", joined(options_.did))) {
            const auto dids = log::parse_dids(joined(options_.did), stranger);
            if (!dids) refuse("--did", stranger, "give any of: " + log::did_words());
            changes_.emplace_back([dids](visit::Visit& visit) { visit.did = *dids; });
        }
    }

    const VisitOptions& options_;
    std::vector<Change> changes_;
};

}  // namespace

void apply_all(const std::vector<Change>& changes, visit::Visit& visit) {
    for (const Change& change : changes) change(visit);
}

std::string clearable_fields() {
    std::string names;
    for (const Field& field : clearable())
        names += (names.empty() ? "" : ", ") + std::string(field.name);
    return names;
}

void add_options(CLI::App& command, VisitOptions& options) {
    command.add_option("JOB", options.job, "The job file")->required();
    command.add_option("STATION", options.station, "Its id, or one container of it: K1 or K1-2")
        ->required();
    command.add_option("--seen", options.seen,
                       "Pests counted alive; the first time before anything is set down");
    command.add_option("--dead", options.dead, "Dead pests counted");
    command.add_option("--level", options.level,
                       "Bait left: percent, or full, 3/4, 1/2, 1/4, empty");
    command.add_option("--state", options.state, "Any of: " + log::state_words())->delimiter(',');
    command.add_option("--did", options.did, "Any of: " + log::did_words())->delimiter(',');
    command.add_option("--note", options.note, "A note");
    command.add_option("--by", options.by, "Who was there");
    command.add_option("--minutes", options.minutes,
                       "How many minutes the count took; counts are compared by the minute");
    command.add_option("--young", options.young, "How many of those seen were young");
    command.add_option("--trap-nights", options.trap_nights,
                       "Traps times the nights they were out; counts are compared by it");
    command.add_option("--feeding", options.feeding, "Whether any fed on the bait: yes or no");
    command.add_option("--at", options.at, "When, like '2027-03-18 08:05'; left out: now");
    command
        .add_option("--corrects", options.corrects,
                    "The number of an entry to correct; what is not given anew stays as it was")
        ->check(CLI::PositiveNumber);
    command
        .add_option("--clear", options.clear,
                    "Of the entry to correct, empty any of: " + clearable_fields())
        ->delimiter(',');
    command.add_flag("--withdraw", options.withdraw, "Take the entry to correct out instead");
}

std::vector<Change> read_options(const VisitOptions& options) {
    std::vector<Change> changes = OptionReader(options).read();
    if (!options.at.empty() && !log::parse_time(options.at, log::Zone::of_machine()))
        refuse("--at", options.at, "write it like 2027-03-18 08:05");
    if (options.withdraw && options.corrects == 0)
        throw CLI::ValidationError("--withdraw", "say which entry, with --corrects NUMBER");
    if (options.corrects != 0) return changes;
    visit::Visit visit;
    apply_all(changes, visit);
    if (!log::says_something(visit))
        throw CLI::ValidationError("visit",
                                   "it says nothing; give --seen, --dead, --level, "
                                   "--state, --did, --young, --feeding or --note");
    return changes;
}

}  // namespace gallipot::cli
