#pragma once

#include <string_view>

/// Language tags as BCP 47 writes them, compared subtag by subtag without regard to letter case.
namespace gallipot::job {

/// Whether a job may use the tag: a language of two or three small letters, then subtags of one to
/// eight letters or digits ("en", "pt-BR", "zh-Hant").
bool is_language_tag(std::string_view tag);

/// The first subtag: "de" of "de-AT".
std::string_view primary_language(std::string_view tag);

/// Whether both are one language in one script, whatever the region: "en" and "en-US" are, "fi" and
/// "fil" or "zh-Hans" and "zh-Hant" are not. A tag without a script goes with any.
bool same_language(std::string_view a, std::string_view b);

/// Whether two tags are equal but for letter case.
bool same_tag(std::string_view a, std::string_view b);

/// The tag to try when nothing matches `tag` (lookup of RFC 4647, section 3.4): "de" after
/// "de-AT", "zh-Hant" after "zh-Hant-x-old"; empty after "de".
std::string_view wider_tag(std::string_view tag);

}  // namespace gallipot::job
