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
        out.error("unknown-key", key.place, fmt::format("unknown key '{}' in {}", key.text, who_),
                  did_you_mean(
                      key.text, known,
                      fmt::format("take it out, or use one of: {}", fmt::join(known, ", ")), out));
    }
}

const Node* Mapping::require(std::string_view key, std::string hint) const {
    const Node* found = find(key);
    if (found == nullptr && node_.kind == Kind::mapping)
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

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known,
                         std::string otherwise, const diag::Diagnostics& out) {
    constexpr std::size_t enough_errors = 1000;
    if (out.errors() > enough_errors) return otherwise;
    const std::string near = diag::nearest(word, known);
    return near.empty() ? otherwise : fmt::format("did you mean '{}'?", near);
}

}  // namespace gallipot::yaml
