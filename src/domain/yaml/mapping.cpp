#include "domain/yaml/mapping.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace gallipot::yaml {

Mapping::Mapping(const Node& node, diag::Text who, const std::vector<std::string>& known,
                 std::string_view example, diag::Diagnostics& out)
    : node_(node), who_(std::move(who)), out_(out) {
    if (node.kind != Kind::mapping) {
        const diag::Text is = node.kind == Kind::null       ? "empty"
                              : node.kind == Kind::sequence ? "a list"
                                                            : "one text";
        out.error(node.kind == Kind::null ? "empty-value" : "wrong-type", node.place,
                  diag::say("{} is {}; keys with values were expected", who_, is),
                  example.empty()
                      ? diag::say("write each key on a line of its own, with a colon and a blank "
                                  "behind it")
                      : diag::say("write it like {}", example));
        return;
    }
    for (const auto& [key, value] : node.entries) {
        if (key.text != "*" && std::find(known.begin(), known.end(), key.text) != known.end())
            continue;
        std::string near = nearest_key(key.text, known, out);
        const bool taken = !near.empty() && find(near) != nullptr;
        out.error("unknown-key", key.place, diag::say("unknown key '{}' in {}", key.text, who_),
                  near.empty() ? diag::say("take it out, or use one of: {}", fmt::join(known, ", "))
                  : taken      ? diag::say("take it out; '{}' is there already", near)
                               : diag::say("did you mean '{}'?", near));
        if (!near.empty() && !taken) meant_.push_back(std::move(near));
    }
}

bool Mapping::misspelt(std::string_view key) const {
    return std::find(meant_.begin(), meant_.end(), key) != meant_.end();
}

const Node* Mapping::require(std::string_view key, diag::Text hint) const {
    const Node* found = find(key);
    if (found == nullptr && node_.kind == Kind::mapping && !misspelt(key))
        out_.error("missing-key", node_.place, diag::say("{} needs '{}'", who_, key),
                   std::move(hint));
    return found;
}

bool is_scalar(const Node& node, const diag::Text& name, const diag::Text& takes, diag::Text hint,
               diag::Diagnostics& out) {
    if (node.kind == Kind::scalar) return true;
    if (node.kind == Kind::null)
        out.error("empty-value", node.place, diag::say("{} has no value", name), std::move(hint));
    else
        out.error("wrong-type", node.place,
                  diag::say("{} takes {}, not {}", name, takes,
                            node.kind == Kind::sequence ? "a list" : "a mapping"),
                  std::move(hint));
    return false;
}

std::string nearest_key(std::string_view word, const std::vector<std::string>& known,
                        const diag::Diagnostics& out) {
    constexpr std::size_t enough_errors = 1000;
    return out.errors() > enough_errors ? std::string() : diag::nearest(word, known);
}

diag::Text did_you_mean(std::string_view word, const std::vector<std::string>& known,
                        diag::Text otherwise, const diag::Diagnostics& out) {
    const std::string near = nearest_key(word, known, out);
    return near.empty() ? otherwise : diag::say("did you mean '{}'?", near);
}

}  // namespace gallipot::yaml
