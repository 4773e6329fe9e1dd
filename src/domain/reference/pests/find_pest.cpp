#include <algorithm>
#include <cstddef>
#include <string>
#include <unordered_map>
#include <utility>

#include "base/diag/utf8.hpp"
#include "domain/reference/pests.hpp"
#include "domain/reference/pests/fold_case.hpp"
#include "domain/reference/pests/pest_names.hpp"

namespace gallipot::reference {

namespace {

/// A letter or digit of a word. Punctuation and blanks outside ASCII that people type are named.
bool in_word(char32_t c) {
    if (c < 0x80)
        return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') || (c >= U'0' && c <= U'9');
    const bool latin_1_sign = c < 0xC0 && c != 0xAA && c != 0xB5 && c != 0xBA;
    const bool general_punctuation = c >= 0x2000 && c <= 0x206F;
    const bool ideographic_space_or_stop = c >= 0x3000 && c <= 0x3003;
    return !latin_1_sign && !general_punctuation && !ideographic_space_or_stop;
}

bool is_apostrophe(char32_t c) {
    return c == U'\'' || c == 0x2019 || c == 0x02BC;
}

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    bool open = false;
    const std::string folded = fold_case(text);
    for (std::size_t at = 0; at < folded.size();) {
        const diag::Character character = diag::character_at(folded, at);
        // "pharaoh's" is one word, with or without its apostrophe.
        if (open && is_apostrophe(character.code)) {
            at += character.bytes;
            continue;
        }
        const bool part = character.valid && in_word(character.code);
        if (part && !open) words.emplace_back();
        if (part) words.back() += folded.substr(at, character.bytes);
        open = part;
        at += character.bytes;
    }
    return words;
}

struct Phrase {
    std::vector<std::string> words;
    const Pest* pest = nullptr;
};

/// All phrases, those that are whole words by their first one.
struct Index {
    std::unordered_map<std::string, std::vector<Phrase>> by_first_word;
    std::vector<Phrase> compounds;  ///< one word each, that may end a longer one
};

std::vector<std::string_view> parts_of(std::string_view list) {
    std::vector<std::string_view> parts;
    while (!list.empty()) {
        const std::size_t end = std::min(list.find('|'), list.size());
        parts.push_back(list.substr(0, end));
        list.remove_prefix(std::min(end + 1, list.size()));
    }
    return parts;
}

const Index& index() {
    static const Index all = [] {
        Index made;
        for (const PestNames& names : pest_names()) {
            const Pest* pest = pest_named(names.pest);
            for (const std::string_view part : parts_of(names.phrases)) {
                Phrase phrase{words_of(part), pest};
                made.by_first_word[phrase.words.front()].push_back(std::move(phrase));
            }
            for (const std::string_view part : parts_of(names.compounds))
                made.compounds.push_back({words_of(part), pest});
        }
        return made;
    }();
    return all;
}

struct Match {
    const Pest* pest = nullptr;
    std::size_t word_count = 0;
    std::size_t letters = 0;  ///< bytes of the phrase

    void keep_longer(const Phrase& phrase) {
        std::size_t size = 0;
        for (const std::string& word : phrase.words) size += word.size();
        if (pest != nullptr &&
            std::pair(phrase.words.size(), size) <= std::pair(word_count, letters))
            return;
        *this = {phrase.pest, phrase.words.size(), size};
    }
};

/// The longest phrase that begins at a word; without a pest when none does.
Match match_at(const std::vector<std::string>& words, std::size_t at) {
    Match best;
    if (const auto known = index().by_first_word.find(words[at]);
        known != index().by_first_word.end()) {
        for (const Phrase& phrase : known->second) {
            const bool fits = at + phrase.words.size() <= words.size() &&
                              std::equal(phrase.words.begin(), phrase.words.end(),
                                         words.begin() + static_cast<std::ptrdiff_t>(at));
            if (fits) best.keep_longer(phrase);
        }
    }
    for (const Phrase& phrase : index().compounds)
        if (words[at].ends_with(phrase.words.front())) best.keep_longer(phrase);
    return best;
}

/// Higher calls for more caution.
int caution(const Pest& pest) {
    return (pest.lives_in_wood ? 10 : 0) + static_cast<int>(pest.support.value);
}

}  // namespace

std::vector<const Pest*> all_pests_in(std::string_view text) {
    const std::vector<std::string> words = words_of(text);
    std::vector<const Pest*> found;
    for (std::size_t at = 0; at < words.size();) {
        const Match match = match_at(words, at);
        if (match.pest != nullptr && std::ranges::find(found, match.pest) == found.end())
            found.push_back(match.pest);
        at += match.pest != nullptr ? match.word_count : 1;
    }
    std::ranges::stable_sort(
        found, [](const Pest* a, const Pest* b) { return caution(*a) > caution(*b); });
    return found;
}

const Pest* find_pest(std::string_view text) {
    const auto found = all_pests_in(text);
    return found.empty() ? nullptr : found.front();
}

std::vector<std::string_view> names_of(const Pest& pest) {
    std::vector<std::string_view> all;
    for (const PestNames& names : pest_names()) {
        if (names.pest != pest.name) continue;
        for (const std::string_view list : {names.phrases, names.compounds})
            for (const std::string_view name : parts_of(list)) all.push_back(name);
    }
    return all;
}

}  // namespace gallipot::reference
