#include "papers/text/tags.hpp"

#include <algorithm>
#include <unicode/locid.h>

#include "base/strings/ascii.hpp"
#include "papers/text/icu.hpp"

namespace gallipot::text {

namespace {

bool letters(const std::string& text, std::size_t minimum, std::size_t maximum) {
    return text.size() >= minimum && text.size() <= maximum &&
           std::all_of(text.begin(), text.end(), strings::is_letter);
}

constexpr std::size_t script_length = 4;

/// The script that the language is written in by most.
std::string likely_script(const Tag& tag) {
    icu::Locale locale(tag.language.c_str(), tag.region.c_str());
    UErrorCode status = U_ZERO_ERROR;
    locale.addLikelySubtags(status);
    require(status, "looking up the script of a language");
    return locale.getScript();
}

}  // namespace

Tag split_tag(const std::string& tag) {
    auto dash = tag.find('-');
    Tag parts{tag.substr(0, dash), {}, {}};
    while (dash != std::string::npos && parts.region.empty()) {
        const auto next = tag.find('-', dash + 1);
        const std::string subtag = tag.substr(dash + 1, next - dash - 1);
        if (letters(subtag, 2, 2)) parts.region = subtag;
        if (letters(subtag, script_length, script_length)) parts.script = subtag;
        dash = next;
    }
    if (!parts.script.empty()) {
        parts.script = strings::to_lower(parts.script);
        parts.script.front() = static_cast<char>(parts.script.front() - 'a' + 'A');
    }
    return parts;
}

std::string catalog_for(const std::string& tag,
                        const std::function<bool(const std::string&)>& there) {
    const Tag parts = split_tag(tag);
    if (!letters(parts.language, 2, 3)) return {};
    const std::string likely = likely_script(parts);
    const std::string& script = parts.script.empty() ? likely : parts.script;
    if (const std::string name = parts.language + "-" + script; there(name)) return name;
    if ((parts.script.empty() || parts.script == likely) && there(parts.language))
        return parts.language;
    return {};
}

bool is_catalog_name(const std::string& name) {
    const Tag parts = split_tag(name);
    const std::string in_full =
        parts.script.empty() ? parts.language : parts.language + "-" + parts.script;
    return letters(parts.language, 2, 3) && in_full == name;
}

}  // namespace gallipot::text
