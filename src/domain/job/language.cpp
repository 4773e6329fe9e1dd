#include "domain/job/language.hpp"

#include <algorithm>

namespace gallipot::job {

namespace {

char small(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool is_letter(char c) {
    return small(c) >= 'a' && small(c) <= 'z';
}

/// The four letters right behind the language ("Hant" of "zh-Hant-TW"); empty without a script.
std::string_view script_of(std::string_view tag) {
    constexpr std::size_t script_length = 4;
    const std::size_t language = primary_language(tag).size();
    if (language == tag.size()) return {};
    const std::string_view subtag = primary_language(tag.substr(language + 1));
    const bool letters = std::all_of(subtag.begin(), subtag.end(), is_letter);
    return subtag.size() == script_length && letters ? subtag : std::string_view();
}

}  // namespace

bool is_language_tag(std::string_view tag) {
    constexpr std::size_t longest_subtag = 8;
    const std::string_view primary = primary_language(tag);
    if (primary.size() < 2 || primary.size() > 3) return false;
    const auto small_letter = [](char c) { return c >= 'a' && c <= 'z'; };
    if (!std::all_of(primary.begin(), primary.end(), small_letter)) return false;
    for (std::size_t at = primary.size(); at < tag.size();) {
        const std::string_view subtag = primary_language(tag.substr(at + 1));
        const bool fine = std::all_of(subtag.begin(), subtag.end(), [](char c) {
            return is_letter(c) || (c >= '0' && c <= '9');
        });
        if (!fine || subtag.empty() || subtag.size() > longest_subtag) return false;
        at += 1 + subtag.size();
    }
    return true;
}

std::string_view primary_language(std::string_view tag) {
    return tag.substr(0, tag.find('-'));
}

bool same_tag(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return small(x) == small(y); });
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
