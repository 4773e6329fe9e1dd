#include "cli/values.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <map>
#include <stdexcept>

#include "app/papers.hpp"
#include "cli/scenarios.hpp"
#include "cli/visit_options.hpp"
#include "domain/job/keys.hpp"
#include "domain/reference/pests.hpp"
#include "domain/reference/substances.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::cli {
namespace {

/// "clogged, wet" taken apart.
std::vector<std::string> apart(const std::string& words) {
    std::vector<std::string> all(1);
    for (const char c : words) {
        if (c == ',') {
            all.emplace_back();
        } else if (c != ' ') {
            all.back() += c;
        }
    }
    return all;
}

std::vector<std::string> key_names() {
    std::vector<std::string> names;
    for (const job::Key& key : job::keys()) {
        std::string path;
        for (const char c : key.path)
            if (c != '*') path += c;
        for (auto at = path.find(".."); at != std::string::npos; at = path.find(".."))
            path.erase(at, 1);
        if (path.back() != '.') names.push_back(std::move(path));
    }
    return names;
}

std::vector<std::string> substance_names() {
    std::vector<std::string> names;
    for (const auto& substance : reference::substances()) names.emplace_back(substance.name);
    return names;
}

std::vector<std::string> pest_names() {
    std::vector<std::string> names;
    for (const auto& pest : reference::pests()) names.emplace_back(pest.name);
    return names;
}

/// By the option's own name, or by the command's and the option's where they differ.
const std::map<std::string, Value>& table() {
    static const std::map<std::string, Value> values{
        {"JOB", {"JOB", Offer::jobs}},
        {"STATION", {"STATION", Offer::stations}},
        {"new FILE", {"FILE", Offer::files}},
        {"explain NAME", {"NAME", Offer::words, key_names()}},
        {"pests NAME", {"NAME", Offer::words, pest_names()}},
        {"substances NAME", {"NAME", Offer::words, substance_names()}},
        {"--as-of", {"DAY"}},
        {"--at", {"TIME"}},
        {"--backup", {"FILE", Offer::files}},
        {"--by", {"NAME"}},
        {"--calendar", {"FILE", Offer::files}},
        {"--clear", {"FIELD", Offer::words, apart(clearable_fields())}},
        {"--copies", {"N"}},
        {"--corrects", {"N"}},
        {"--dead", {"N"}},
        {"--did", {"WORD", Offer::words, apart(log::did_words())}},
        {"--feeding", {"YES", Offer::words, {"yes", "no"}}},
        {"--from", {"EXAMPLE", Offer::words, scenarios()}},
        {"--import", {"FILE", Offer::csv_files}},
        {"--ink", {"HOW", Offer::words, {"full", "light"}}},
        {"languages --import", {"FILE", Offer::files}},
        {"languages --output", {"FILE", Offer::files}},
        {"--language", {"LANGUAGE", Offer::languages}},
        {"--level", {"LEVEL", Offer::words, {"full", "3/4", "1/2", "1/4", "empty"}}},
        {"--host", {"NAME"}},
        {"--listen", {"HOST:PORT"}},
        {"--minutes", {"N"}},
        {"--note", {"TEXT"}},
        {"--offset", {"RIGHT,DOWN"}},
        {"--only", {"PAPER", Offer::words, app::paper_names()}},
        {"--on", {"DAY"}},
        {"render --output", {"FOLDER", Offer::folders}},
        {"--po", {"LANGUAGE", Offer::languages}},
        {"--photos", {"FOLDER", Offer::folders}},
        {"report --output", {"FILE", Offer::files}},
        {"--seen", {"N"}},
        {"--show", {"WHAT", Offer::words, {"text", "boxes"}}},
        {"--start-at", {"N"}},
        {"--recipe-was-wrong", {"MIX"}},
        {"round --output", {"FOLDER", Offer::folders}},
        {"--state", {"WORD", Offer::words, apart(log::state_words())}},
        {"--stations", {"STATION", Offer::stations}},
        {"--stock", {"STOCK", Offer::stocks}},
        {"--templates", {"FOLDER", Offer::folders}},
        {"--trap-nights", {"N"}},
        {"--young", {"N"}},
    };
    return values;
}

std::string own_name(const CLI::Option& option) {
    return option.get_positional() ? option.get_name(true)
                                   : fmt::format("--{}", option.get_lnames().front());
}

}  // namespace

const Value* value_of(const CLI::App& command, const CLI::Option& option) {
    if (option.get_items_expected_max() == 0) return nullptr;
    const std::string name = own_name(option);
    for (const std::string& key : {command.get_name() + ' ' + name, name})
        if (const auto found = table().find(key); found != table().end()) return &found->second;
    throw std::logic_error(
        fmt::format("src/cli/values.cpp has no line for {} {}", command.get_name(), name));
}

}  // namespace gallipot::cli
