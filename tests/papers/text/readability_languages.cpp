#include <algorithm>
#include <string_view>

#include "base/diag/utf8.hpp"
#include "readability.hpp"

namespace gallipot::tests {

namespace {

/// The letters of a word, small; figures and marks left out.
std::u32string letters(const std::string& word) {
    std::u32string all;
    for (std::size_t at = 0; at < word.size();) {
        const diag::Character character = diag::character_at(word, at);
        at += character.bytes;
        char32_t c = character.code;
        if (c >= U'A' && c <= U'Z') c += 0x20;
        if (c >= 0xC0 && c <= 0xDE && c != 0xD7) c += 0x20;
        if (c == 0x152) c = 0x153;
        if ((c >= U'a' && c <= U'z') || (c >= 0xDF && c <= 0xFF) || c == 0x153) all += c;
    }
    return all;
}

int digits(const std::string& word) {
    return static_cast<int>(
        std::ranges::count_if(word, [](char c) { return c >= '0' && c <= '9'; }));
}

bool is_in(std::u32string_view set, char32_t c) {
    return set.find(c) != std::u32string_view::npos;
}

/// At least one, and one a figure.
int with_figures(int sounds, const std::string& word) {
    const int figures = digits(word);
    return std::max(sounds + figures, 1);
}

/// Two strong vowels, or a strong one and an accented i or u, are two syllables; else neighbours
/// are one. A y is a vowel at the end of a word (Real Academia Española, Ortografía, 2010, on
/// diphthongs and hiatus; from memory).
int syllables_es(const std::string& word) {
    constexpr std::u32string_view strong = U"aeoáéóíú", weak = U"iuü";
    const std::u32string text = letters(word);
    int count = 0;
    bool after_vowel = false, after_strong = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool is_strong = is_in(strong, text[i]);
        const bool vowel =
            is_strong || is_in(weak, text[i]) || (text[i] == U'y' && i + 1 == text.size());
        if (vowel && (!after_vowel || (is_strong && after_strong))) ++count;
        after_strong = vowel && is_strong;
        after_vowel = vowel;
    }
    return with_figures(count, word);
}

/// Vowels one by one, but for the pairs that are one sound (Duden, Die Grammatik, on diphthongs and
/// long vowels; from memory). An "ie" of two, as in "Familie", counts as one.
int syllables_de(const std::string& word) {
    constexpr std::u32string_view vowels = U"aeiouyäöü";
    const std::u32string text = letters(word);
    int count = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!is_in(vowels, text[i])) continue;
        ++count;
        const std::u32string pair = text.substr(i, 2);
        for (const auto* one :
             {U"au", U"ei", U"ai", U"eu", U"äu", U"ie", U"oi", U"aa", U"ee", U"oo", U"ey", U"ay"})
            if (pair == one) {
                ++i;
                break;
            }
    }
    return with_figures(count, word);
}

/// A sound for each group of vowels; an é before another vowel and one with a diaeresis are sounds
/// of their own. Not for an e, es at the end of a word with another sound: it is mute. The ent of
/// verbs counts, though it is mute: it cannot be told from that of nouns, and so the text seems no
/// easier than it is.
int syllables_fr(const std::string& word) {
    constexpr std::u32string_view vowels = U"aàâeéèêëiîïoôuùûüyœæ";
    std::u32string text = letters(word);
    const auto count = [&](std::u32string_view of) {
        int sounds = 0;
        bool after_vowel = false;
        for (std::size_t i = 0; i < of.size(); ++i) {
            const bool vowel = is_in(vowels, of[i]);
            const bool own = is_in(U"ëïü", of[i]) || (i > 0 && of[i - 1] == U'é');
            // The u of qu and gu before another vowel has no sound.
            const bool mute_u = of[i] == U'u' && i > 0 && is_in(U"qg", of[i - 1]) &&
                                i + 1 < of.size() && is_in(vowels, of[i + 1]);
            if (vowel && !mute_u && (!after_vowel || own)) ++sounds;
            after_vowel = vowel && !mute_u;
        }
        return sounds;
    };
    std::u32string_view sounded = text;
    if (sounded.ends_with(U"es"))
        sounded.remove_suffix(2);
    else if (sounded.ends_with(U"e"))
        sounded.remove_suffix(1);
    const int without_end = count(sounded);
    return with_figures(without_end > 0 ? without_end : count(text), word);
}

}  // namespace

const std::vector<Ease>& eases() {
    // All from memory; none of the works was at hand.
    static const std::vector<Ease> all{
        // F. Szigriszt Pazos, Sistemas predictivos de legilibilidad del mensaje escrito: fórmula de
        // perspicuidad, Universidad Complutense de Madrid, 1993. Above 80 is "very easy" on the
        // INFLESZ scale (I. M. Barrio-Cantalejo and others, Anales del Sistema Sanitario de
        // Navarra 31 (2008), 135).
        {"es", syllables_es,
         [](const Readability& of) {
             return 206.835 - 62.3 * of.syllables_a_word() - of.words_a_sentence();
         },
         80},
        // T. Amstad, Wie verständlich sind unsere Zeitungen?, Universität Zürich, 1978. From 70 it
        // is fairly easy on Flesch's scale.
        {"de", syllables_de,
         [](const Readability& of) {
             return 180 - of.words_a_sentence() - 58.5 * of.syllables_a_word();
         },
         70},
        // L. Kandel and A. Moles, Application de l'indice de Flesch à la langue française, Cahiers
        // d'Études de Radio-Télévision 19 (1958), 253. From 80 it is easy on Flesch's scale.
        {"fr", syllables_fr,
         [](const Readability& of) {
             return 207 - 1.015 * of.words_a_sentence() - 73.6 * of.syllables_a_word();
         },
         80},
    };
    return all;
}

}  // namespace gallipot::tests
