#pragma once

#include <set>
#include <span>
#include <string>

#include "tracking/visit/visit.hpp"
#include "web/pages.hpp"

namespace gallipot::web {

/// The fields of one form. Those that carry a fault are marked, and named by the text that says
/// what it is. Of a page with several rows each has a `prefix` before its names.
class Fields {
  public:
    Fields(const Page& page, const FormErrors& errors, std::string prefix = {})
        : page_(page), errors_(errors), prefix_(std::move(prefix)) {}

    /// Never "autocomplete=off": browsers then forget what was typed when one goes back.
    [[nodiscard]] Html count(const std::string& name, const std::string& value) const;
    [[nodiscard]] Html line(const std::string& name, const std::string& value,
                            const char* autocomplete, const char* type, std::size_t longest) const;
    [[nodiscard]] Html lines(const std::string& name, const std::string& value,
                             std::size_t longest) const;
    /// Several photos, from the camera or from what the phone has.
    [[nodiscard]] Html photos(const std::string& name) const;
    /// One button to press. `value` is what it sends.
    [[nodiscard]] Html choice(const char* type, const std::string& name, const std::string& value,
                              bool on, const std::string& text) const;
    [[nodiscard]] Html group(const std::string& name, const std::string& heading,
                             const Html& choices) const;
    /// A list to choose one from: value and text.
    [[nodiscard]] Html list(const std::string& name,
                            const std::vector<std::pair<std::string, std::string>>& options,
                            const std::string& chosen) const;

    template <class Mark>
    [[nodiscard]] Html ticks(const std::string& name, std::span<const Mark> all,
                             const std::set<std::string>& on, const std::string& words) const {
        Html choices;
        for (const Mark mark : all) {
            const std::string word(visit::word(mark));
            choices += choice("checkbox", name, word, on.contains(word), page_.words(words + word));
        }
        return group(name, page_.words("web.form." + name), choices);
    }

    [[nodiscard]] bool faulty(const std::string& name) const;
    /// As the form sends it: with the prefix.
    [[nodiscard]] Html hidden(const std::string& name, const std::string& value) const;

  private:
    [[nodiscard]] Html label(const std::string& name) const;
    void mark(Attributes& attributes, const std::string& name) const;
    [[nodiscard]] Html fault_note(const std::string& name) const;

    const Page& page_;
    const FormErrors& errors_;
    std::string prefix_;
};

Html hidden(const std::string& name, const std::string& value);

/// What is rarely needed, folded away; open when `open` says that something is in it.
Html fold(const std::string& heading, bool open, const Html& content);

}  // namespace gallipot::web
