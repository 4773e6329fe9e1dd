// Every key of the table has a case in which it is wrong: a rule of tests/domain/job that ends in
// an error at its value, at its name, or about its being left out.
#include <fmt/format.h>
#include <map>
#include <memory>
#include <set>

#include "catch_all.hpp"

#include "domain/job/keys.hpp"
#include "domain/yaml/node.hpp"
#include "marked.hpp"

using namespace gallipot;
using namespace gallipot::tests;

namespace {

using Place = std::pair<int, int>;

/// The key of the table that stands at each place of a file.
void collect(const yaml::Node& node, const std::string& path, std::map<Place, std::string>& at) {
    if (!path.empty()) at.emplace(Place(node.place.line, node.place.column), path);
    const auto below = [&](const std::string& key) {
        const std::string whole = path.empty() ? key : fmt::format("{}.{}", path, key);
        return job::find_key(whole) != nullptr ? whole : fmt::format("{}.*", path);
    };
    for (const yaml::Node& item : node.items) collect(item, below("*"), at);
    for (const auto& [key, value] : node.entries) {
        const std::string whole = below(key.text);
        at[Place(key.place.line, key.place.column)] = whole;
        collect(value, whole, at);
    }
}

/// The key that an error is about.
std::string key_of(const diag::Diagnostic& error, const std::map<Place, std::string>& at) {
    const auto found = at.find({error.place.line, error.place.column});
    const std::string path = found == at.end() ? std::string() : found->second;
    if (error.code != "missing-key") return path;
    // "the mix 'syrup' needs 'form'": at the name of what lacks it, or at its first key.
    const auto end = error.message.english().rfind('\'');
    const auto begin = error.message.english().rfind('\'', end - 1);
    const std::string name = error.message.english().substr(begin + 1, end - begin - 1);
    for (std::string from = path;; from.erase(from.find_last_of('.'))) {
        const std::string whole = fmt::format("{}.{}", from, name);
        if (job::find_key(whole) != nullptr) return whole;
        if (from.find('.') == std::string::npos)
            return job::find_key(name) != nullptr ? name : path;
    }
}

}  // namespace

TEST_CASE("every key has a case in which it is wrong") {
    std::set<std::string> wrong;
    for (const auto* rules : all_rules()) {
        for (const Rule& rule : *rules) {
            const Marked job = job_for(rule);
            diag::Diagnostics unread;
            const yaml::Node root = yaml::read(
                std::make_shared<const diag::Source>(diag::Source{"job.yaml", job.text}), unread);
            std::map<Place, std::string> at;
            collect(root, "", at);
            for (const diag::Diagnostic& found : read(job.text).found.in_order())
                if (found.severity == diag::Severity::error) wrong.insert(key_of(found, at));
        }
    }
    for (const job::Key& key : job::keys()) {
        INFO(key.path);
        CHECK(wrong.count(std::string(key.path)) == 1);
    }
}
