#pragma once

#include <string>

namespace gallipot::tests {

/// How hard an English text is to read.
struct Readability {
    int sentences = 0;
    int words = 0;
    int syllables = 0;

    /// The school grade of Kincaid, Fishburne, Rogers and Chissom, Derivation of New Readability
    /// Formulas, Research Branch Report 8-75, Naval Technical Training Command, 1975:
    /// 0.39 words per sentence + 11.8 syllables per word - 15.59.
    [[nodiscard]] double grade() const;
};

/// A sentence ends at . ? ! or : before a space or the end; a text that ends without one of them
/// counts as a sentence. A word is a run of letters, digits, apostrophes and inner hyphens.
Readability readability(const std::string& text);

/// A sound for each group of a, e, i, o, u, y; not for an e at the end unless an l after a
/// consonant stands before it, nor for the endings -es and -ed where they are silent; a figure has
/// one sound a digit; at least one.
int syllables(const std::string& word);

}  // namespace gallipot::tests
