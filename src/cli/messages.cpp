#include "cli/messages.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>
#include <vector>

#include "base/diag/paint.hpp"
#include "base/system/files.hpp"
#include "cli/person.hpp"
#include "cli/terminal.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::cli {
namespace {

namespace fs = std::filesystem;

/// An English pattern and what stands for it.
using Patterns = std::map<std::string, std::string, std::less<>>;

/// Adds what a file says that `patterns` does not say yet. A file that is not there, or is none of
/// this kind, says nothing: the messages themselves must come through.
void add_patterns(const fs::path& file, Patterns& patterns) {
    std::optional<std::string> text;
    try {
        text = system::read_if_there(file);
    } catch (const system::SystemError&) {
    }
    if (!text) return;
    const auto source =
        std::make_shared<const diag::Source>(diag::Source{file.string(), std::move(*text)});
    diag::Diagnostics found;
    const yaml::Node root = yaml::read(source, found);
    for (const auto& [pattern, translation] : root.entries)
        if (!translation.text.empty()) patterns.emplace(pattern.text, translation.text);
}

}  // namespace

diag::Translator translator(const app::DataFolders& data, const Environment& environment) {
    std::vector<fs::path> folders;
    if (data.own_templates) folders.push_back(*data.own_templates / "messages");
    folders.push_back(data.templates / "messages");
    const std::string language = language_of_person(environment, [&](const std::string& name) {
        return name == "en" || std::ranges::any_of(folders, [&](const fs::path& folder) {
                   std::error_code ignored;
                   return fs::exists(folder / (name + ".yaml"), ignored);
               });
    });
    if (language.empty() || language == "en") return {};
    auto patterns = std::make_shared<Patterns>();
    for (const fs::path& folder : folders) add_patterns(folder / (language + ".yaml"), *patterns);
    if (patterns->empty()) return {};
    return [patterns](std::string_view pattern) -> std::string_view {
        const auto found = patterns->find(pattern);
        return found == patterns->end() ? std::string_view() : std::string_view(found->second);
    };
}

std::string print(const diag::Diagnostics& found, const app::DataFolders& data,
                  const Environment& environment) {
    if (found.errors() + found.warnings() == 0) return {};
    return diag::print(found, paint_of_errors(environment), translator(data, environment));
}

}  // namespace gallipot::cli
