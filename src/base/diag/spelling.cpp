#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/strings/ascii.hpp"

namespace gallipot::diag {

namespace {

constexpr std::size_t longest_word = 64;  // a longer one is no slip of the finger

/// Edits (insert, delete, replace, swap of neighbours: optimal string alignment) from `a` to `b`.
std::size_t distance(const std::string& a, const std::string& b) {
    std::vector<std::size_t> before(b.size() + 1), previous(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before.swap(previous);
        previous.swap(row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replace = previous[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({previous[j] + 1, row[j - 1] + 1, replace});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                row[j] = std::min(row[j], before[j - 2] + 1);
            }
        }
    }
    return row[b.size()];
}

}  // namespace

std::string nearest(std::string_view word, const std::vector<std::string>& known,
                    std::size_t furthest) {
    if (word.empty() || word.size() > longest_word) return {};
    const std::string wanted = strings::to_lower(word);
    std::size_t best = furthest + 1;
    std::string result;
    for (const std::string& candidate : known) {
        const std::size_t gap = candidate.size() > wanted.size() ? candidate.size() - wanted.size()
                                                                 : wanted.size() - candidate.size();
        if (gap > furthest || candidate.size() > longest_word) continue;
        const std::size_t edits = distance(wanted, strings::to_lower(candidate));
        // Less than half the word, or "cup" would be near to "jug".
        if (edits < best && edits * 2 < std::max(wanted.size(), std::size_t{2})) {
            best = edits;
            result = candidate;
        }
    }
    return result;
}

}  // namespace gallipot::diag
