#include "papers/text/messages.hpp"

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <utility>
#include <vector>

#include "base/system/files.hpp"
#include "domain/yaml/node.hpp"
#include "papers/text/compiled_catalog.hpp"

namespace gallipot::text {

namespace {

class Reader {
  public:
    Reader(Messages& messages, bool overrides, diag::Diagnostics& out)
        : messages_(messages), overrides_(overrides), out_(out) {}

    void read(const yaml::Node& node, const std::string& key, const diag::Place& key_place) {
        switch (node.kind) {
            case yaml::Kind::mapping:
                for (const auto& [name, value] : node.entries) {
                    if (name.text.empty() || name.text.find('.') != std::string::npos) {
                        out_.error("catalog-key", name.place,
                                   diag::say("the key '{}' is empty or has a dot in it", name.text),
                                   "write the part before the dot as a mapping of its own");
                        continue;
                    }
                    read(value, key.empty() ? name.text : key + "." + name.text, name.place);
                }
                return;
            case yaml::Kind::scalar:
                add(key, key_place, node);
                return;
            case yaml::Kind::null:
            case yaml::Kind::sequence:
                out_.error("catalog-text", node.place, diag::say("expected a text under '{}'", key),
                           "write the message, in quotes where it begins with { or holds ': '");
                return;
        }
    }

  private:
    void add(const std::string& key, const diag::Place& key_place, const yaml::Node& node) {
        if (key.empty() || node.text.empty()) {
            out_.error("catalog-text", node.place, diag::say("expected a text under '{}'", key),
                       "write the message after the key");
            return;
        }
        const auto known = messages_.find(key);
        if (overrides_ && known == messages_.end()) {
            out_.error("catalog-key", key_place,
                       diag::say("'{}' is not in the language's own file, so nothing uses it", key),
                       suggestion(key));
            return;
        }
        messages_.insert_or_assign(key, Message{node.text, node.place});
    }

    [[nodiscard]] diag::Text suggestion(const std::string& key) const {
        std::vector<std::string> names;
        for (const auto& [name, message] : messages_) names.push_back(name);
        const std::string near = diag::nearest(key, names);
        return near.empty()
                   ? diag::say("take the key out, or add it to the language's own file first")
                   : diag::say("did you mean '{}'?", near);
    }

    Messages& messages_;
    bool overrides_;
    diag::Diagnostics& out_;
};

void read_texts(const diag::SourcePtr& source, bool overrides, Messages& messages,
                diag::Diagnostics& out) {
    diag::Diagnostics found;
    const yaml::Node root = yaml::read(source, found);
    out.append(found);
    if (found.has_errors()) return;
    if (root.kind != yaml::Kind::mapping) {
        out.error("catalog-text", root.place, "expected a mapping of keys to texts",
                  "begin with a group, as 'card:', and indent its messages under it");
        return;
    }
    Reader(messages, overrides, out).read(root, "", root.place);
}

}  // namespace

Messages read_messages(const std::vector<std::string>& folders, const std::string& language,
                       const std::string& region, diag::Diagnostics& out) {
    Messages messages;
    bool there = false;  // the language's own file was, readable or not
    const auto read = [&](const std::filesystem::path& path, const std::string& compiled = {}) {
        auto text = system::read_if_there(path);
        if (!text) return false;
        const auto source =
            std::make_shared<const diag::Source>(diag::Source{path.string(), std::move(*text)});
        const auto catalog = compiled.empty() ? std::nullopt : system::read_if_there(compiled);
        if (auto known = catalog ? read_compiled(*catalog, source) : std::nullopt)
            messages = std::move(*known);
        else
            read_texts(source, there, messages, out);
        return true;
    };
    for (const std::string& folder : folders) {
        const auto texts = std::filesystem::path(folder) / "text";
        const auto path = texts / (language + ".yaml");
        if (read(path, there ? std::string() : compiled_path(folder, language))) there = true;
        if (there && !region.empty()) {
            std::string name = language;
            name += '-';
            name += region;
            name += ".yaml";
            read(texts / name);
        }
    }
    if (!there) {
        const std::string first = folders.empty() ? "templates" : folders.front();
        throw system::SystemError{"cannot find the texts of the language '" + language + "' in '" +
                                  first + "'; add text/" + language + ".yaml or choose another"};
    }
    return messages;
}

const Message& message(const Messages& messages, std::string_view key) {
    const auto found = messages.find(key);
    if (found == messages.end())
        throw std::logic_error("there is no message '" + std::string(key) + "'");
    return found->second;
}

}  // namespace gallipot::text
