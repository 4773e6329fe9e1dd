#include <algorithm>
#include <fmt/format.h>
#include <set>

#include "papers/text/catalog.hpp"

namespace gallipot::text {

namespace {

std::string listed(const std::vector<std::string>& words) {
    return words.empty() ? "none" : fmt::format("{}", fmt::join(words, ", "));
}

void compare_message(const std::string& key, const Catalog& reference, const Catalog& other,
                     diag::Diagnostics& out) {
    const auto theirs = reference.shape(key);
    const auto ours = other.shape(key);
    if (ours.arguments != theirs.arguments) {
        out.error("catalog-arguments", ours.place,
                  "'" + key + "' has the arguments " + listed(ours.arguments) + " but in " +
                      reference.tag() + " it has " + listed(theirs.arguments),
                  "use each of those, spelt the same");
    }
    std::vector<std::string> words;
    std::set_difference(ours.counts.begin(), ours.counts.end(), theirs.counts.begin(),
                        theirs.counts.end(), std::back_inserter(words));
    if (!words.empty()) {
        out.error("catalog-arguments", ours.place,
                  "'" + key + "' chooses or writes by the number " + listed(words) + ", which in " +
                      reference.tag() + " is simply put in",
                  "write {" + words.front() + "} alone");
    }
    const auto needed = other.plural_categories();
    for (const auto& cases : ours.plurals) {
        std::vector<std::string> missing;
        std::set_difference(needed.begin(), needed.end(), cases.begin(), cases.end(),
                            std::back_inserter(missing));
        if (missing.empty()) continue;
        out.error("catalog-plural", ours.place,
                  "a plural in '" + key + "' lacks the case " + listed(missing),
                  "write a text for each of " + listed(needed));
    }
}

}  // namespace

void compare(const Catalog& reference, const Catalog& other, diag::Diagnostics& out) {
    const auto keys = other.keys();
    const diag::Place file{keys.empty() ? nullptr : other.shape(keys.front()).place.source, 0, 0,
                           1};
    for (const std::string& key : reference.keys()) {
        if (!other.has(key)) {
            out.error("catalog-missing", file,
                      other.tag() + " lacks '" + key + "' of " + reference.tag(),
                      "add it to text/" + other.language() + ".yaml");
        } else {
            compare_message(key, reference, other, out);
        }
    }
    for (const std::string& key : keys) {
        if (reference.has(key)) continue;
        out.error("catalog-key", other.shape(key).place,
                  "'" + key + "' is not in " + reference.tag() + ", so nothing uses it",
                  "take it out, or add it to text/" + reference.language() + ".yaml first");
    }
}

}  // namespace gallipot::text
