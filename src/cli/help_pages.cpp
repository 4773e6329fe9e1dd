#include "cli/help_pages.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <memory>
#include <stdexcept>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"
#include "base/system/files.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::cli {
namespace {

yaml::Node read_yaml(const std::filesystem::path& file) {
    diag::Diagnostics found;
    const auto source = std::make_shared<const diag::Source>(
        diag::Source{file.filename().string(), system::read_file(file)});
    yaml::Node root = yaml::read(source, found);
    if (found.has_errors()) throw std::logic_error(diag::print(found));
    return root;
}

std::string text_of(const yaml::Node& entry, std::string_view key) {
    const yaml::Node* value = entry.find(key);
    return value == nullptr ? std::string() : value->text;
}

/// The first value that `path` leads to from here; null where it leads nowhere.
const yaml::Node* follow(const yaml::Node& node, std::string_view path, const yaml::Node& key) {
    if (path.empty()) return &key;
    const auto dot = std::min(path.find('.'), path.size());
    const std::string_view step = path.substr(0, dot);
    const std::string_view rest = path.substr(std::min(dot + 1, path.size()));
    if (step != "*") {
        const yaml::Node* next = node.find(step);
        return next == nullptr ? nullptr : follow(*next, rest, *node.find_key(step));
    }
    for (const yaml::Node& item : node.items)
        if (const yaml::Node* found = follow(item, rest, item)) return found;
    for (const auto& [name, value] : node.entries)
        if (const yaml::Node* found = follow(value, rest, name)) return found;
    return nullptr;
}

/// The entry that begins there, up to the end of its line or, inside brackets, to its own end.
std::string entry_at(const std::string& text, const diag::Place& place) {
    std::size_t at = 0;
    for (int line = 1; line < place.line; ++line) at = text.find('\n', at) + 1;
    for (int column = 1; column < place.column; ++column) at += diag::character_at(text, at).bytes;
    std::string entry = text.substr(at, text.find('\n', at) - at);
    if (const auto comment = entry.find(" #"); comment != std::string::npos) entry.resize(comment);
    int depth = 0;
    std::size_t own_end = entry.size();
    for (std::size_t i = 0; i < entry.size() && depth >= 0; ++i) {
        const char c = entry[i];
        if (c == '{' || c == '[') ++depth;
        if (c == '}' || c == ']') --depth;
        if ((depth == 0 && c == ',') || depth < 0) own_end = std::min(own_end, i);
    }
    // Only inside brackets does a comma end an entry.
    if (depth < 0) entry.resize(own_end);
    return std::string(strings::trimmed(entry));
}

std::string section(const HelpPages& pages, HelpKind kind) {
    std::string out;
    for (const HelpPage& page : pages.all()) {
        if (page.kind != kind) continue;
        out += fmt::format("### {}\n\n{}", page.name, page.means);
        for (const std::string& more : {page.why, page.next, page.when})
            if (!more.empty()) out += ' ' + more;
        out += "\n\n";
    }
    return out;
}

}  // namespace

HelpPages::HelpPages(const app::DataFolders& data) {
    const std::string folder = (data.templates / "help").string();
    read(folder + "/messages.yaml", HelpKind::message);
    read(folder + "/words.yaml", HelpKind::word);
    read(folder + "/papers.yaml", HelpKind::paper);
    read(folder + "/keys.yaml", HelpKind::key);
}

void HelpPages::read(const std::string& file, HelpKind kind) {
    const yaml::Node root = read_yaml(file);
    for (const auto& [name, entry] : root.entries) {
        HelpPage page{kind,
                      name.text,
                      text_of(entry, "means"),
                      text_of(entry, "why"),
                      text_of(entry, "do"),
                      text_of(entry, "when"),
                      text_of(entry, "about"),
                      text_of(entry, "changes"),
                      {}};
        if (const yaml::Node* also = entry.find("also"))
            for (const yaml::Node& other : also->items) page.also.push_back(other.text);
        pages_.push_back(std::move(page));
    }
}

const HelpPage* HelpPages::find(HelpKind kind, std::string_view name) const {
    const auto is = [&](const std::string& other) { return strings::same_letters(name, other); };
    const auto found = std::ranges::find_if(pages_, [&](const HelpPage& page) {
        return page.kind == kind && (is(page.name) || std::ranges::any_of(page.also, is));
    });
    return found == pages_.end() ? nullptr : &*found;
}

std::vector<std::string> HelpPages::names(HelpKind kind) const {
    std::vector<std::string> all;
    for (const HelpPage& page : pages_) {
        if (page.kind != kind) continue;
        all.push_back(page.name);
        all.insert(all.end(), page.also.begin(), page.also.end());
    }
    return all;
}

std::optional<Used> used_in_examples(const app::DataFolders& data, std::string_view path) {
    const std::array files{data.examples / "hall.yaml", data.examples / "flat.yaml",
                           data.examples / "workshop.yaml",
                           data.templates / "jobs" / "starter.yaml"};
    for (const auto& file : files) {
        const yaml::Node root = read_yaml(file);
        const yaml::Node* found = follow(root, path, root);
        if (found == nullptr || found->place.line == 0) continue;
        return Used{entry_at(found->place.source->text, found->place),
                    fmt::format("{}, line {}", file.filename().string(), found->place.line)};
    }
    return std::nullopt;
}

std::string reference_page(const HelpPages& pages) {
    std::string out =
        "# Messages, words and papers\n\n"
        "Made of [templates/help](../../templates/help), as `gallipot explain NAME` and the manual "
        "are; `gallipot __pages` prints it, and ctest's `docs_messages` compares. Keys have [a "
        "page "
        "of their own](../domain/job/README.md).\n\n"
        "## Words\n\nOne word for one thing, on paper, phone and command line.\n\n";
    out += section(pages, HelpKind::word);
    out += "## Papers\n\nThe names that `render --only` takes.\n\n";
    out += section(pages, HelpKind::paper);
    out +=
        "## Messages\n\nEach stands by the code in brackets behind it: what it means, why it "
        "matters, what to do. "
        "In a terminal a message comes in the language that LC_ALL, LC_MESSAGES or LANG names, "
        "where [templates/messages](../../templates/README.md#messages) has it; the code is the "
        "same in all.\n\n";
    out += section(pages, HelpKind::message);
    out.pop_back();
    return out;
}

}  // namespace gallipot::cli
