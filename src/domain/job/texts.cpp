#include <fmt/format.h>

#include "domain/job/language.hpp"
#include "domain/job/values.hpp"

namespace gallipot::job {

std::optional<At<LocalText>> read_local_text(const yaml::Node& node, const Key& key,
                                             ReadContext& context) {
    if (node.kind != yaml::Kind::mapping) {
        const auto text = read_text(node, key, context);
        if (!text) return {};
        return At<LocalText>{LocalText(**text), text->place};
    }
    if (node.entries.empty()) {
        context.out.error("empty-value", node.place,
                          diag::say("'{}' says nothing in any language", key.name()),
                          write_example(key));
        return {};
    }
    std::vector<std::pair<std::string, std::string>> all;
    for (const auto& [tag, value] : node.entries) {
        const auto text = read_text(value, key, context);
        if (!is_language_tag(tag.text)) {
            context.out.error("bad-language", tag.place,
                              diag::say("'{}' is no language tag", tag.text),
                              node.entries.size() == 1 && text
                                  ? diag::say("write {0}: {1}, or a tag as in {0}: {{ en: {1} }}",
                                              key.name(), **text)
                                  : "write a tag like en, es or pt-BR in its place");
        } else if (text) {
            all.emplace_back(tag.text, **text);
        }
    }
    // What was wrong in it has been said.
    if (all.size() < node.entries.size()) return {};
    return At<LocalText>{LocalText(std::move(all), context.main_language), node.place};
}

}  // namespace gallipot::job
