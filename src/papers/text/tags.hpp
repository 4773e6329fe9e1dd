#pragma once

#include <functional>
#include <string>

/// Which file of texts a language tag is written in (BCP 47).
namespace gallipot::text {

/// What of a tag chooses texts. What else it says ("es-419") chooses none.
struct Tag {
    std::string language;  ///< "fil" of "fil-PH"
    std::string script;    ///< "Hans" of "zh-Hans"; empty where the tag has none
    std::string region;    ///< "PH" of "fil-PH"; empty likewise
};
Tag split_tag(const std::string& tag);

/// The name of the catalog for a tag, of those that are `there`: "de" for "de-AT", "zh-Hans" for
/// "zh-Hans", "zh" and "zh-CN", as most who read that language read that script (Unicode's likely
/// subtags). None for "zh-Hant" then: it is not read by all who read the other. Empty: none.
std::string catalog_for(const std::string& tag,
                        const std::function<bool(const std::string&)>& there);

/// Whether a file of texts may be called that: "fil", "zh-Hans".
bool is_catalog_name(const std::string& name);

}  // namespace gallipot::text
