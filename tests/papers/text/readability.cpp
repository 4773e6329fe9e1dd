#include "readability.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>

namespace gallipot::tests {

namespace {

bool vowel(char c) {
    return std::string_view("aeiouy").find(c) != std::string_view::npos;
}

bool ends_with_any(std::string_view word, std::initializer_list<std::string_view> ends) {
    return std::any_of(ends.begin(), ends.end(),
                       [&](std::string_view end) { return word.ends_with(end); });
}

bool word_byte(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return std::isalnum(byte) != 0 || byte >= 0x80 || c == '\'';
}

}  // namespace

int syllables(const std::string& written) {
    std::string word;
    int digits = 0;
    for (const char c : written) {
        const auto byte = static_cast<unsigned char>(c);
        if (std::isalpha(byte) != 0) word += static_cast<char>(std::tolower(byte));
        if (std::isdigit(byte) != 0) ++digits;
    }
    int groups = 0;
    for (std::size_t i = 0; i < word.size(); ++i) {
        if (vowel(word[i]) && (i == 0 || !vowel(word[i - 1]))) ++groups;
    }
    const auto size = word.size();
    const bool consonant_le = size > 2 && word.ends_with("le") && !vowel(word[size - 3]);
    if (size > 2 && word.back() == 'e' && !vowel(word[size - 2]) && !consonant_le) --groups;
    if (size > 3 && word.ends_with("es") && !vowel(word[size - 3]) &&
        !ends_with_any(word, {"ses", "xes", "zes", "ches", "shes", "ces", "ges", "les"})) {
        --groups;
    }
    if (size > 3 && word.ends_with("ed") && !vowel(word[size - 3]) &&
        !ends_with_any(word, {"ted", "ded"})) {
        --groups;
    }
    return std::max(1, groups) + digits - (word.empty() && digits > 0 ? 1 : 0);
}

double Readability::grade() const {
    return 0.39 * words / sentences + 11.8 * syllables / words - 15.59;
}

Readability readability(const std::string& text) {
    return readability(text, [](const std::string& word) { return syllables(word); });
}

Readability readability(const std::string& text,
                        const std::function<int(const std::string&)>& syllables) {
    Readability found;
    std::string word;
    bool open = false;  // a sentence that has words and has not ended
    const auto end_word = [&] {
        if (word.empty()) return;
        ++found.words;
        found.syllables += syllables(word);
        word.clear();
        open = true;
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const bool last = i + 1 == text.size();
        const bool inner_hyphen = c == '-' && !word.empty() && !last && word_byte(text[i + 1]);
        // The no-break space, which is two bytes, parts words as any space does.
        const bool no_break = c == '\xC2' && !last && text[i + 1] == '\xA0';
        if (no_break) {
            end_word();
            ++i;
        } else if (word_byte(c) || inner_hyphen) {
            word += c;
        } else {
            end_word();
            const bool stop = c == '.' || c == '?' || c == '!' || c == ':';
            if (stop && open && (last || text[i + 1] == ' ' || text[i + 1] == '\n')) {
                ++found.sentences;
                open = false;
            }
        }
    }
    end_word();
    if (open) ++found.sentences;
    return found;
}

}  // namespace gallipot::tests
