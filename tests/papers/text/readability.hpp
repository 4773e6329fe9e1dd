#pragma once

#include <functional>
#include <string>
#include <vector>

namespace gallipot::tests {

/// How hard a text is to read.
struct Readability {
    int sentences = 0;
    int words = 0;
    int syllables = 0;

    /// The school grade of Kincaid, Fishburne, Rogers and Chissom, Derivation of New Readability
    /// Formulas, Research Branch Report 8-75, Naval Technical Training Command, 1975:
    /// 0.39 words per sentence + 11.8 syllables per word - 15.59.
    [[nodiscard]] double grade() const;
    [[nodiscard]] double words_a_sentence() const { return 1.0 * words / sentences; }
    [[nodiscard]] double syllables_a_word() const { return 1.0 * syllables / words; }
};

/// A sentence ends at . ? ! or : before a space or the end; a text that ends without one of them
/// counts as a sentence. A word is a run of letters, digits, apostrophes and inner hyphens.
Readability readability(const std::string& text);
Readability readability(const std::string& text,
                        const std::function<int(const std::string& word)>& syllables);

/// A sound for each group of a, e, i, o, u, y; not for an e at the end unless an l after a
/// consonant stands before it, nor for the endings -es and -ed where they are silent; a figure has
/// one sound a digit; at least one.
int syllables(const std::string& word);

/// How a language other than English is measured: the higher the easier.
struct Ease {
    std::string language;
    int (*syllables)(const std::string& word);
    double (*score)(const Readability& of);
    double least = 0;  ///< what the household sheet and first aid are held to
};
/// Every language that a published formula is known for; their sources stand in the table.
const std::vector<Ease>& eases();

}  // namespace gallipot::tests
