#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "base/diag/diagnostic.hpp"
#include "base/diag/utf8.hpp"
#include "cli/figure.hpp"
#include "cli/help_pages.hpp"
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

std::string near_name(const std::string& written, const HelpPages& pages) {
    std::vector<std::string> known;
    for (const HelpKind kind : {HelpKind::message, HelpKind::word, HelpKind::paper})
        for (std::string& name : pages.names(kind)) known.push_back(std::move(name));
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

Json json(const Key& key, const HelpPages& pages) {
    Json below = Json::array();
    for (const Key* each : keys_below(key)) below.push_back(each->path);
    return {{"path", key.path},
            {"what", key.description},
            {"changes", pages.find(HelpKind::key, key.path)->changes},
            {"write", job::type_in_words(key).english()},
            {"required", key.required},
            {"bounds", job::bounds_in_words(key)},
            {"choices", key.words()},
            {"default", key.default_value.empty() ? Json(nullptr) : Json(key.default_value)},
            {"example", key.example},
            {"below", std::move(below)}};
}

Json json(const HelpPage& page) {
    Json out{{"name", page.name}, {"means", page.means}};
    if (!page.why.empty()) out["why"] = page.why;
    if (!page.next.empty()) out["do"] = page.next;
    if (!page.when.empty()) out["when"] = page.when;
    return out;
}

class Explanation {
  public:
    Explanation(const text::Catalog& words, const Terminal& terminal, const HelpPages& pages,
                const app::DataFolders& data)
        : words_(words), terminal_(terminal), pages_(pages), data_(data) {}

    /// A message, a word or a paper.
    std::string of(const HelpPage& page) {
        const char* kind = page.kind == HelpKind::message ? "message"
                           : page.kind == HelpKind::paper ? "paper"
                                                          : "word";
        std::string out =
            painted(terminal_, Paint::heading, page.name) + fmt::format(" ({})\n", kind);
        out += fit(fmt::format("  {}\n", page.means));
        if (!page.why.empty()) out += fit(fmt::format("\n  Why it matters: {}\n", page.why));
        if (!page.next.empty()) out += fit(fmt::format("\n  What to do: {}\n", page.next));
        if (!page.when.empty()) out += fit(fmt::format("\n  When: {}\n", page.when));
        return out;
    }

    /// One key with all that is known of it.
    std::string of(const Key& key, const std::vector<const Key*>& also) {
        std::string out = painted(terminal_, Paint::heading, key.path) + '\n';
        const HelpPage& page = *pages_.find(HelpKind::key, key.path);
        out += fit(fmt::format("  {}.\n", key.description));
        if (!page.about.empty()) out += fit(fmt::format("  {}\n", page.about));
        out += fit(fmt::format("  It changes: {}\n\n", page.changes));
        const auto line = [&](const char* head, const std::string& value) {
            if (value.empty()) return;
            out += fit(fmt::format("  {}: {}\n", say(head), value));
        };
        line("write", job::type_in_words(key).english());
        line("bounds", job::bounds_in_words(key));
        line("needed", say(key.required ? "needed_yes" : "needed_no"));
        line("left_out", std::string(key.default_value));
        line("example", key.name() == "*" ? std::string(key.example)
                                          : fmt::format("{}: {}", key.name(), key.example));
        if (const auto used = used_in_examples(data_, key.path))
            out += fit(fmt::format("  In a job: {}  ({})\n", used->line, used->where));
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
            rows.row({std::string(deeper ? 2 * depth : 0, ' ') + name,
                      job::type_in_words(*key).english(), std::string(key->description)});
        }
        return rows.text(terminal_, words_.language());
    }
    const text::Catalog& words_;
    const Terminal& terminal_;
    const HelpPages& pages_;
    const app::DataFolders& data_;
};

ExitCode unknown(const std::string& written, const HelpPages& pages, Environment& environment) {
    const std::string near = near_name(written, pages);
    complain(environment) << fmt::format(
        "nothing is called '{}': no key, message, pest, paper or word; {}\n",
        diag::printable(written),
        near.empty() ? std::string("gallipot explain lists the keys")
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
    const app::DataFolders data = app::find_data();
    const HelpPages pages(data);
    const std::vector<const Key*> found = find_keys(written);
    std::vector<const HelpPage*> others;
    for (const HelpKind kind : {HelpKind::message, HelpKind::word, HelpKind::paper})
        if (const HelpPage* page = pages.find(kind, written)) others.push_back(page);
    if (!written.empty() && found.empty() && others.empty()) {
        const reference::Pest* pest = reference::find_pest(written);
        return pest != nullptr ? explain_pest(*pest, as_json, environment)
                               : unknown(written, pages, environment);
    }
    if (as_json) {
        Json out{{"keys", Json::array()}};
        if (written.empty())
            for (const Key& key : job::keys()) out["keys"].push_back(json(key, pages));
        for (const Key* key : found) out["keys"].push_back(json(*key, pages));
        for (const HelpPage* page : others)
            out[page->kind == HelpKind::message ? "messages"
                : page->kind == HelpKind::paper ? "papers"
                                                : "words"]
                .push_back(json(*page));
        environment.out << out.dump(2) << '\n';
        return ExitCode::ok;
    }
    diag::Diagnostics ours;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(data, environment, ours);
    const Terminal terminal = terminal_of_results(environment);
    Explanation explanation(words, terminal, pages, data);
    std::string out;
    if (written.empty()) out = explanation.tree();
    if (!found.empty()) out = explanation.of(*found.front(), found);
    for (const HelpPage* page : others) out += (out.empty() ? "" : "\n") + explanation.of(*page);
    environment.out << out;
    return ExitCode::ok;
}

}  // namespace

void add_explain(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string key;
        bool json = false;
    };
    auto* command = app.add_subcommand(
        "explain", "What a key, a message, a pest, a paper or a word of the report means");
    auto options = std::make_shared<Options>();
    command->add_option("NAME", options->key,
                        "A key by its path or last step, the code in brackets behind a message, a "
                        "pest, a paper or a word; left out, all keys");
    command->add_flag("--json", options->json, "As JSON, for programs");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            return explain(options->key, options->json, environment);
        };
    });
}

}  // namespace gallipot::cli
