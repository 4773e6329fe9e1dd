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
                  diag::say("'{}' has the arguments {} but in {} it has {}", key,
                            listed(ours.arguments), reference.tag(), listed(theirs.arguments)),
                  "use each of those, spelt the same");
    }
    std::vector<std::string> words;
    std::set_difference(ours.counts.begin(), ours.counts.end(), theirs.counts.begin(),
                        theirs.counts.end(), std::back_inserter(words));
    if (!words.empty()) {
        out.error("catalog-arguments", ours.place,
                  diag::say("'{}' chooses or writes by the number {}, which in {} is simply put in",
                            key, listed(words), reference.tag()),
                  diag::say("write {{{}}} alone", words.front()));
    }
    const auto needed = other.plural_categories();
    for (const auto& cases : ours.plurals) {
        std::vector<std::string> missing;
        std::set_difference(needed.begin(), needed.end(), cases.begin(), cases.end(),
                            std::back_inserter(missing));
        if (missing.empty()) continue;
        out.error("catalog-plural", ours.place,
                  diag::say("a plural in '{}' lacks the case {}", key, listed(missing)),
                  diag::say("write a text for each of {}", listed(needed)));
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
                      diag::say("{} lacks '{}' of {}", other.tag(), key, reference.tag()),
                      diag::say("add it to text/{}.yaml", other.language()));
        } else {
            compare_message(key, reference, other, out);
        }
    }
    for (const std::string& key : keys) {
        if (reference.has(key)) continue;
        out.error("catalog-key", other.shape(key).place,
                  diag::say("'{}' is not in {}, so nothing uses it", key, reference.tag()),
                  diag::say("take it out, or add it to text/{}.yaml first", reference.language()));
    }
}

}  // namespace gallipot::text
