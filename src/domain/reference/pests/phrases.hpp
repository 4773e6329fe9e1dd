#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

/// Finds known phrases in what people write. Not for other layers.
namespace gallipot::reference {

/// Phrases that each mean something, such as a row of a table. They match as whole words, letter
/// case ignored in every script; of those that begin at a word the longest wins.
class Phrases {
  public:
    /// @param phrases lower case, separated by "|"; each one or more words
    /// @param compounds German words, separated by "|", that may also end a longer word:
    ///     "ameisen" in "Gartenameisen"
    /// @param meaning what in() returns for any of them
    void add(std::string_view phrases, std::string_view compounds, std::size_t meaning);

    /// The meanings of all phrases in a text, in its order, each once.
    [[nodiscard]] std::vector<std::size_t> in(std::string_view text) const;

  private:
    struct Phrase {
        std::vector<std::string> words;
        std::size_t meaning = 0;
    };
    struct Match;
    [[nodiscard]] Match match_at(const std::vector<std::string>& words, std::size_t at) const;

    std::unordered_map<std::string, std::vector<Phrase>> by_first_word_;
    std::vector<Phrase> compounds_;  ///< one word each
};

/// The parts of a list that "|" separates.
std::vector<std::string_view> parts_of(std::string_view list);

}  // namespace gallipot::reference
