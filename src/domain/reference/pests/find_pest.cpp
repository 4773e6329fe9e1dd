#include <algorithm>
#include <string>

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

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    bool open = false;
    const std::string folded = fold_case(text);
    for (std::size_t at = 0; at < folded.size();) {
        const diag::Character character = diag::character_at(folded, at);
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
    bool compound = false;
};

void add_phrases(std::string_view list, const Pest* pest, bool compound,
                 std::vector<Phrase>& phrases) {
    while (!list.empty()) {
        const std::size_t end = std::min(list.find('|'), list.size());
        phrases.push_back({words_of(list.substr(0, end)), pest, compound});
        list.remove_prefix(std::min(end + 1, list.size()));
    }
}

const std::vector<Phrase>& phrases() {
    static const std::vector<Phrase> all = [] {
        std::vector<Phrase> list;
        for (const PestNames& names : pest_names()) {
            add_phrases(names.phrases, pest_named(names.pest), false, list);
            add_phrases(names.compounds, pest_named(names.pest), true, list);
        }
        return list;
    }();
    return all;
}

struct Match {
    const Pest* pest = nullptr;
    std::size_t first_word = 0;
    std::size_t word_count = 0;
    std::size_t letters = 0;  ///< bytes of the phrase
    [[nodiscard]] bool longer_than(const Match& other) const {
        return word_count != other.word_count ? word_count > other.word_count
                                              : letters > other.letters;
    }
};

bool same_word(const std::string& word, const std::string& name, bool compound) {
    return compound ? word.ends_with(name) : word == name;
}

/// The longest phrase that begins at a word; without a pest when none does.
Match match_at(const std::vector<std::string>& words, std::size_t at) {
    Match best;
    for (const Phrase& phrase : phrases()) {
        const std::size_t count = phrase.words.size();
        if (at + count > words.size()) continue;
        Match match{phrase.pest, at, count, 0};
        bool same = true;
        for (std::size_t i = 0; i < count && same; ++i) {
            same = same_word(words[at + i], phrase.words[i], phrase.compound);
            match.letters += phrase.words[i].size();
        }
        if (same && (best.pest == nullptr || match.longer_than(best))) best = match;
    }
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
        for (std::string_view list : {names.phrases, names.compounds}) {
            while (!list.empty()) {
                const std::size_t end = std::min(list.find('|'), list.size());
                all.push_back(list.substr(0, end));
                list.remove_prefix(std::min(end + 1, list.size()));
            }
        }
    }
    return all;
}

}  // namespace gallipot::reference
