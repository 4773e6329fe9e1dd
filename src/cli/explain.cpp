#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "base/diag/diagnostic.hpp"
#include "base/diag/utf8.hpp"
#include "cli/figure.hpp"
#include "cli/person.hpp"
#include "cli/pest_words.hpp"
#include "cli/table.hpp"
#include "domain/job/bounds.hpp"
#include "domain/job/keys.hpp"
#include "domain/reference/pests.hpp"

namespace gallipot::cli {
namespace {

using job::Key;

std::vector<std::string_view> steps_of(std::string_view path) {
    std::vector<std::string_view> steps;
    while (true) {
        const auto dot = path.find('.');
        steps.push_back(path.substr(0, dot));
        if (dot == std::string_view::npos) return steps;
        path.remove_prefix(dot + 1);
    }
}

/// Whether `path` ("stations.*.count") is meant by `written`: "count", "stations.count", the path
/// itself, or one with a name in a star's place ("stations.K1.count").
bool means(std::string_view written, std::string_view path) {
    const auto asked = steps_of(written);
    const auto steps = steps_of(path);
    const auto fits = [](std::string_view word, std::string_view step) {
        return step == "*" || word == step;
    };
    if (steps.back() != "*" && asked.size() == steps.size() &&
        std::equal(asked.begin(), asked.end(), steps.begin(), fits))
        return true;
    if (written == path) return true;
    std::vector<std::string_view> named = steps;
    std::erase(named, "*");
    return path.back() != '*' && asked.size() <= named.size() &&
           std::equal(asked.rbegin(), asked.rend(), named.rbegin());
}

std::vector<const Key*> find_keys(std::string_view written) {
    std::vector<const Key*> found;
    for (const Key& key : job::keys())
        if (means(written, key.path)) found.push_back(&key);
    // The path itself is meant before another that ends in it: `title`, not `mixes.*.title`.
    std::stable_partition(found.begin(), found.end(),
                          [&](const Key* key) { return key->path == written; });
    return found;
}

std::string without_stars(std::string_view path) {
    std::string out;
    for (const std::string_view step : steps_of(path))
        if (step != "*") out.append(out.empty() ? "" : ".").append(step);
    return out;
}

std::string near_key(const std::string& written) {
    std::vector<std::string> known;
    for (const Key& key : job::keys()) {
        if (key.name() != "*") known.emplace_back(key.name());
        known.push_back(without_stars(key.path));
    }
    return diag::nearest(written, known);
}

std::vector<const Key*> keys_below(const Key& above) {
    std::vector<const Key*> found;
    for (const Key& key : job::keys())
        if (key.path.size() > above.path.size() && key.path.starts_with(above.path) &&
            key.path[above.path.size()] == '.' &&
            key.path.find('.', above.path.size() + 1) == std::string_view::npos)
            found.push_back(&key);
    return found;
}

Json json(const Key& key) {
    Json below = Json::array();
    for (const Key* each : keys_below(key)) below.push_back(each->path);
    return {{"path", key.path},
            {"what", key.description},
            {"write", job::type_in_words(key)},
            {"required", key.required},
            {"bounds", job::bounds_in_words(key)},
            {"choices", key.words()},
            {"default", key.default_value.empty() ? Json(nullptr) : Json(key.default_value)},
            {"example", key.example},
            {"below", std::move(below)}};
}

class Explanation {
  public:
    Explanation(const text::Catalog& words, const Terminal& terminal)
        : words_(words), terminal_(terminal) {}

    /// One key with all that is known of it.
    std::string of(const Key& key, const std::vector<const Key*>& also) {
        std::string out = painted(terminal_, Paint::heading, key.path) + '\n';
        out += fit(fmt::format("  {}.\n\n", key.description));
        const auto line = [&](const char* head, const std::string& value) {
            if (value.empty()) return;
            out += fit(fmt::format("  {}: {}\n", say(head), value));
        };
        line("write", job::type_in_words(key));
        line("bounds", job::bounds_in_words(key));
        line("needed", say(key.required ? "needed_yes" : "needed_no"));
        line("left_out", std::string(key.default_value));
        line("example", key.name() == "*" ? std::string(key.example)
                                          : fmt::format("{}: {}", key.name(), key.example));
        if (const auto below = keys_below(key); !below.empty()) {
            out += fmt::format("\n  {}:\n", say("below"));
            out += table(below);
        }
        std::vector<std::string> others;
        for (const Key* other : also)
            if (other != &key) others.emplace_back(other->path);
        if (!others.empty())
            out += fmt::format("\n{}",
                               fit(fmt::format("  {}: {}\n", say("also"), words_.list(others))));
        return out;
    }

    /// Every key in a line, deeper ones further in.
    std::string tree() {
        std::vector<const Key*> all;
        for (const Key& key : job::keys()) all.push_back(&key);
        return table(all, true) + '\n' + fit(say("star") + '\n');
    }

  private:
    [[nodiscard]] std::string say(const char* key) const {
        return words_(std::string("terminal.explain.") + key);
    }
    [[nodiscard]] std::string fit(const std::string& text) const {
        return paragraphs(text, terminal_, words_.language(), 2);
    }
    [[nodiscard]] std::string table(const std::vector<const Key*>& keys,
                                    bool deeper = false) const {
        Table rows({{say("key"), false, true}, {say("write")}, {say("what")}});
        for (const Key* key : keys) {
            const auto depth =
                static_cast<std::size_t>(std::count(key->path.begin(), key->path.end(), '.'));
            const std::string name(deeper ? key->name() : key->path);
            rows.row({std::string(deeper ? 2 * depth : 0, ' ') + name, job::type_in_words(*key),
                      std::string(key->description)});
        }
        return rows.text(terminal_, words_.language());
    }
    const text::Catalog& words_;
    const Terminal& terminal_;
};

ExitCode unknown(const std::string& written, Environment& environment) {
    const std::string near = near_key(written);
    complain(environment) << fmt::format(
        "a job file has no key '{}'; {}\n", diag::printable(written),
        near.empty() ? std::string("see gallipot explain for those it has")
                     : fmt::format("did you mean '{}'?", near));
    return ExitCode::wrong_usage;
}

/// A pest is explained as `gallipot pests` does.
ExitCode explain_pest(const reference::Pest& pest, bool as_json, Environment& environment) {
    diag::Diagnostics ours;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(app::find_data(), environment, ours);
    if (as_json)
        environment.out << Json{{"pests", Json::array({pest_json(pest, words)})}}.dump(2) << '\n';
    else
        environment.out << pest_in_words(pest, words, terminal_of_results(environment));
    return ExitCode::ok;
}

ExitCode explain(const std::string& written, bool as_json, Environment& environment) {
    const std::vector<const Key*> found = find_keys(written);
    if (!written.empty() && found.empty()) {
        const reference::Pest* pest = reference::find_pest(written);
        return pest != nullptr ? explain_pest(*pest, as_json, environment)
                               : unknown(written, environment);
    }
    if (as_json) {
        Json keys = Json::array();
        if (written.empty())
            for (const Key& key : job::keys()) keys.push_back(json(key));
        for (const Key* key : found) keys.push_back(json(*key));
        environment.out << Json{{"keys", std::move(keys)}}.dump(2) << '\n';
        return ExitCode::ok;
    }
    diag::Diagnostics ours;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(app::find_data(), environment, ours);
    const Terminal terminal = terminal_of_results(environment);
    Explanation explanation(words, terminal);
    environment.out << (written.empty() ? explanation.tree()
                                        : explanation.of(*found.front(), found));
    return ExitCode::ok;
}

}  // namespace

void add_explain(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string key;
        bool json = false;
    };
    auto* command = app.add_subcommand(
        "explain", "What a key of the job file means, or what is known of a pest");
    auto options = std::make_shared<Options>();
    command->add_option("KEY", options->key,
                        "A key by its path or its last step, or a pest; left out, all keys");
    command->add_flag("--json", options->json, "As JSON, for programs");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            return explain(options->key, options->json, environment);
        };
    });
}

}  // namespace gallipot::cli
