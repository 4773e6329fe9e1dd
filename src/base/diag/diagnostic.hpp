#pragma once

#include <cstddef>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "base/diag/text.hpp"

/// What is wrong with a user's file, where, and what to do about it.
namespace gallipot::diag {

/// The text of one file, kept so that a message can show the offending line.
struct Source {
    std::string name;  ///< as the user gave it: shown in messages
    std::string text;  ///< UTF-8
};
using SourcePtr = std::shared_ptr<const Source>;

/// A place in a file. Line and column count from 1, columns in characters; 0 means "the file as a
/// whole". `length` is how many characters the caret underlines (0 or 1: one).
struct Place {
    SourcePtr source;
    int line = 0;
    int column = 0;
    int length = 1;
};

/// A value and where in the file it stood, so that a late error still points at the job file.
template <class T>
struct At {
    T value{};
    Place place;
    const T& operator*() const { return value; }
    const T* operator->() const { return &value; }
};

enum class Severity { error, warning };

struct Diagnostic {
    Severity severity = Severity::error;
    std::string code;  ///< stable, kebab-case: "unknown-key"
    Place place;
    Text message;  ///< one sentence, no full stop: "unknown key 'ingredient'"
    Text hint;     ///< what to do next, an imperative; required
};

/// Everything found in one run. Warnings travel with the result; errors stop it. The same finding
/// at the same place counts once; beyond `kept` errors (or warnings) more are only counted.
class Diagnostics {
  public:
    static constexpr std::size_t kept = 10'000;

    /// An empty code, message or hint is our bug: throws std::logic_error.
    void error(std::string code, Place place, Text message, Text hint);
    void warning(std::string code, Place place, Text message, Text hint);
    void add(Diagnostic found);
    void append(const Diagnostics& other);

    [[nodiscard]] bool has_errors() const;
    [[nodiscard]] std::size_t errors() const;
    [[nodiscard]] std::size_t warnings() const;
    /// In file order; what has no line comes last in its file, what has no file last of all.
    [[nodiscard]] std::vector<Diagnostic> in_order() const;

  private:
    std::vector<Diagnostic> all_;
    std::set<std::tuple<const Source*, int, int, std::string, std::string>> seen_;
    std::size_t errors_ = 0;
    std::size_t warnings_ = 0;
};

/// One diagnostic as text, ending in a newline:
///
///     hall.yaml:12:5: error: unknown key 'ingredient' [unknown-key]
///        12 |     ingredient: { borax: 1 }
///           |     ^~~~~~~~~~
///       fix: did you mean 'ingredients'?
///
/// Long lines are cut around the caret with a visible "...". Control characters are shown as
/// U+FFFD, tabs as one space, so that a hostile file cannot drive the terminal.
std::string print(const Diagnostic& diagnostic);

/// All of them in order, then a count line ("2 errors, 1 warning"); at most `cap` shown, the rest
/// counted. Nothing found: the empty text.
std::string print(const Diagnostics& diagnostics, std::size_t cap = 100);

/// The nearest of `known` to `word` by edit distance (at most `furthest` and less than half the
/// word's length, letter case ignored), or empty.
std::string nearest(std::string_view word, const std::vector<std::string>& known,
                    std::size_t furthest = 3);

}  // namespace gallipot::diag
