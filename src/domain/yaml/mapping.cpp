#include "domain/yaml/mapping.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace gallipot::yaml {

Mapping::Mapping(const Node& node, std::string who, const std::vector<std::string>& known,
                 std::string_view example, diag::Diagnostics& out)
    : node_(node), who_(std::move(who)), out_(out) {
    if (node.kind != Kind::mapping) {
        const std::string_view is = node.kind == Kind::null       ? "empty"
                                    : node.kind == Kind::sequence ? "a list"
                                                                  : "one text";
        out.error(node.kind == Kind::null ? "empty-value" : "wrong-type", node.place,
                  fmt::format("{} is {}; keys with values were expected", who_, is),
                  example.empty()
                      ? "write each key on a line of its own, with a colon and a blank behind it"
                      : fmt::format("write it like {}", example));
        return;
    }
    for (const auto& [key, value] : node.entries) {
        if (key.text != "*" && std::find(known.begin(), known.end(), key.text) != known.end())
            continue;
        std::string near = nearest_key(key.text, known, out);
        const bool taken = !near.empty() && find(near) != nullptr;
        out.error("unknown-key", key.place, fmt::format("unknown key '{}' in {}", key.text, who_),
                  near.empty()
                      ? fmt::format("take it out, or use one of: {}", fmt::join(known, ", "))
                  : taken ? fmt::format("take it out; '{}' is there already", near)
                          : fmt::format("did you mean '{}'?", near));
        if (!near.empty() && !taken) meant_.push_back(std::move(near));
    }
}

bool Mapping::misspelt(std::string_view key) const {
    return std::find(meant_.begin(), meant_.end(), key) != meant_.end();
}

const Node* Mapping::require(std::string_view key, std::string hint) const {
    const Node* found = find(key);
    if (found == nullptr && node_.kind == Kind::mapping && !misspelt(key))
        out_.error("missing-key", node_.place, fmt::format("{} needs '{}'", who_, key),
                   std::move(hint));
    return found;
}

bool is_scalar(const Node& node, std::string_view name, std::string_view takes, std::string hint,
               diag::Diagnostics& out) {
    if (node.kind == Kind::scalar) return true;
    if (node.kind == Kind::null)
        out.error("empty-value", node.place, fmt::format("{} has no value", name), std::move(hint));
    else
        out.error("wrong-type", node.place,
                  fmt::format("{} takes {}, not {}", name, takes,
                              node.kind == Kind::sequence ? "a list" : "a mapping"),
                  std::move(hint));
    return false;
}

std::string nearest_key(std::string_view word, const std::vector<std::string>& known,
                        const diag::Diagnostics& out) {
    constexpr std::size_t enough_errors = 1000;
    return out.errors() > enough_errors ? std::string() : diag::nearest(word, known);
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known,
                         std::string otherwise, const diag::Diagnostics& out) {
    const std::string near = nearest_key(word, known, out);
    return near.empty() ? otherwise : fmt::format("did you mean '{}'?", near);
}

}  // namespace gallipot::yaml
