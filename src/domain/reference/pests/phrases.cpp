#include "domain/reference/pests/phrases.hpp"

#include <algorithm>
#include <utility>

#include "base/diag/utf8.hpp"
#include "domain/reference/pests/fold_case.hpp"

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

}  // namespace

struct Phrases::Match {
    bool found = false;
    std::size_t meaning = 0;
    std::size_t word_count = 0;
    std::size_t bytes = 0;  ///< of the phrase

    void keep_longer(const Phrase& phrase) {
        std::size_t size = 0;
        for (const std::string& word : phrase.words) size += word.size();
        if (found && std::pair(phrase.words.size(), size) <= std::pair(word_count, bytes)) return;
        *this = {true, phrase.meaning, phrase.words.size(), size};
    }
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

void Phrases::add(std::string_view phrases, std::string_view compounds, std::size_t meaning) {
    for (const std::string_view part : parts_of(phrases)) {
        Phrase phrase{words_of(part), meaning};
        by_first_word_[phrase.words.front()].push_back(std::move(phrase));
    }
    for (const std::string_view part : parts_of(compounds))
        compounds_.push_back({words_of(part), meaning});
}

Phrases::Match Phrases::match_at(const std::vector<std::string>& words, std::size_t at) const {
    Match best;
    if (const auto known = by_first_word_.find(words[at]); known != by_first_word_.end()) {
        for (const Phrase& phrase : known->second) {
            const bool fits = at + phrase.words.size() <= words.size() &&
                              std::equal(phrase.words.begin(), phrase.words.end(),
                                         words.begin() + static_cast<std::ptrdiff_t>(at));
            if (fits) best.keep_longer(phrase);
        }
    }
    for (const Phrase& phrase : compounds_)
        if (words[at].ends_with(phrase.words.front())) best.keep_longer(phrase);
    return best;
}

std::vector<std::size_t> Phrases::in(std::string_view text) const {
    const std::vector<std::string> words = words_of(text);
    std::vector<std::size_t> meanings;
    for (std::size_t at = 0; at < words.size();) {
        const Match match = match_at(words, at);
        if (match.found && std::ranges::find(meanings, match.meaning) == meanings.end())
            meanings.push_back(match.meaning);
        at += match.found ? match.word_count : 1;
    }
    return meanings;
}

}  // namespace gallipot::reference
