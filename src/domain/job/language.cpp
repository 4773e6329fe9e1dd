#include "domain/job/language.hpp"

#include <algorithm>

#include "base/strings/ascii.hpp"

namespace gallipot::job {

namespace {

/// The four letters right behind the language ("Hant" of "zh-Hant-TW"); empty without a script.
std::string_view script_of(std::string_view tag) {
    constexpr std::size_t script_length = 4;
    const std::size_t language = primary_language(tag).size();
    if (language == tag.size()) return {};
    const std::string_view subtag = primary_language(tag.substr(language + 1));
    const bool letters = std::all_of(subtag.begin(), subtag.end(), strings::is_letter);
    return subtag.size() == script_length && letters ? subtag : std::string_view();
}

}  // namespace

bool is_language_tag(std::string_view tag) {
    constexpr std::size_t longest_subtag = 8;
    const std::string_view primary = primary_language(tag);
    if (primary.size() < 2 || primary.size() > 3) return false;
    if (!std::all_of(primary.begin(), primary.end(), strings::is_lower)) return false;
    for (std::size_t at = primary.size(); at < tag.size();) {
        const std::string_view subtag = primary_language(tag.substr(at + 1));
        const bool fine = std::all_of(subtag.begin(), subtag.end(), strings::is_letter_or_digit);
        if (!fine || subtag.empty() || subtag.size() > longest_subtag) return false;
        at += 1 + subtag.size();
    }
    return true;
}

std::string_view primary_language(std::string_view tag) {
    return tag.substr(0, tag.find('-'));
}

bool same_tag(std::string_view a, std::string_view b) {
    return strings::same_letters(a, b);
}

bool same_language(std::string_view a, std::string_view b) {
    if (!same_tag(primary_language(a), primary_language(b))) return false;
    const std::string_view one = script_of(a);
    const std::string_view other = script_of(b);
    return one.empty() || other.empty() || same_tag(one, other);
}

std::string_view wider_tag(std::string_view tag) {
    const auto cut = [](std::string_view whole) {
        const auto hyphen = whole.rfind('-');
        return hyphen == std::string_view::npos ? std::string_view() : whole.substr(0, hyphen);
    };
    tag = cut(tag);
    // A single letter or digit only announces what stood behind it.
    if (const auto hyphen = tag.rfind('-');
        hyphen != std::string_view::npos && hyphen + 2 == tag.size())
        tag = cut(tag);
    return tag;
}

}  // namespace gallipot::job
