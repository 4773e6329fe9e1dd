#include <algorithm>
#include <cstddef>
#include <fmt/format.h>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/diag/paint.hpp"
#include "base/diag/utf8.hpp"

namespace gallipot::diag {

namespace {

constexpr int widest = 100;       // display columns of a source line that are shown
constexpr int before_caret = 40;  // of these, at most so many before the caret when it is cut
constexpr std::size_t longest_sentence = 400;
constexpr std::string_view cut = "...";

/// Where each line of a text begins, so that a hundred messages do not each search the file. Found
/// as far as it is asked for: a file may be nothing but a hundred million lines.
class Lines {
  public:
    explicit Lines(std::string_view text) : text_(text) {
        if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);  // a byte-order mark
        starts_.push_back(0);
    }

    /// Line `number`, counted from 1, without its line break; empty when there is none.
    [[nodiscard]] std::string_view line(int number) const {
        const auto index = static_cast<std::size_t>(number) - 1;
        while (number >= 1 && starts_.size() < index + 2) {
            const std::size_t at = text_.find('\n', starts_.back());
            if (at == std::string_view::npos) break;
            starts_.push_back(at + 1);
        }
        if (number < 1 || index >= starts_.size()) return {};
        const std::size_t end = index + 1 < starts_.size() ? starts_[index + 1] - 1 : text_.size();
        std::string_view line = text_.substr(starts_[index], end - starts_[index]);
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        return line;
    }

  private:
    std::string_view text_;
    mutable std::vector<std::size_t> starts_;
};

/// The part of a line that is shown and the line of carets under it.
struct Excerpt {
    std::string text, carets;
};

Excerpt excerpt(std::string_view line, int column, int length) {
    // The caret's byte offset, and how wide what stands before it is.
    const int wanted = std::max(column, 1) - 1;
    std::size_t caret = 0;
    int width_before = 0;
    int passed = 0;
    for (; passed < wanted && caret < line.size(); ++passed) {
        const Character c = character_at(line, caret);
        width_before += display_width(c.code);
        caret += c.bytes;
    }
    // A place past the line's end: where something is missing.
    const auto beyond = static_cast<std::size_t>(wanted - passed);

    std::size_t from = 0;
    Excerpt result;
    // Does the whole line fit? Counting stops as soon as it does not.
    int width = 0;
    for (std::size_t i = 0; i < line.size() && width <= widest;) {
        const Character c = character_at(line, i);
        width += display_width(c.code);
        i += c.bytes;
    }
    if (width > widest && width_before > before_caret) {
        while (width_before > before_caret) {
            const Character c = character_at(line, from);
            width_before -= display_width(c.code);
            from += c.bytes;
        }
        result.text = cut;
        width_before += static_cast<int>(cut.size());
    }
    int used = static_cast<int>(result.text.size());
    int caret_width = 0;
    int under = 0;
    for (std::size_t i = from; i < line.size();) {
        const Character c = character_at(line, i);
        const int w = display_width(c.code);
        if (used + w > widest) {
            result.text += cut;
            break;
        }
        append_printable(result.text, line, c, i);
        used += w;
        if (i >= caret && under < std::max(length, 1)) {
            caret_width += w;
            ++under;
        }
        i += c.bytes;
    }
    result.carets.assign(static_cast<std::size_t>(width_before) + beyond, ' ');
    result.carets += '^';
    if (caret_width > 1) result.carets.append(static_cast<std::size_t>(caret_width) - 1, '~');
    return result;
}

std::string print(const Diagnostic& diagnostic, const Lines* lines, const Paint& paint,
                  const Translator& translator) {
    const Place& place = diagnostic.place;
    std::string result;
    if (place.source) result += printable(place.source->name, longest_sentence) + ":";
    if (place.source && place.line > 0) {
        result += fmt::format("{}:", place.line);
        if (place.column > 0) result += fmt::format("{}:", place.column);
    }
    if (!result.empty()) result += ' ';
    const bool wrong = diagnostic.severity == Severity::error;
    result += fmt::format("{}{}{} {} [{}]\n", wrong ? paint.error : paint.warning,
                          say(wrong ? "error:" : "warning:").in(translator), paint.end,
                          printable(diagnostic.message.in(translator), longest_sentence),
                          diagnostic.code);
    if (lines != nullptr && place.line > 0) {
        const Excerpt part = excerpt(lines->line(place.line), place.column, place.length);
        result += fmt::format("{:>5} | {}\n", place.line, part.text);
        if (place.column > 0) result += fmt::format("{:>5} | {}\n", "", part.carets);
    }
    result += fmt::format("  {} {}\n", say("fix:").in(translator),
                          printable(diagnostic.hint.in(translator), longest_sentence));
    return result;
}

/// "2 errors, 1 warning"
Text counted(std::size_t errors, std::size_t warnings) {
    std::vector<Text> counts;
    if (errors > 0) counts.push_back(errors == 1 ? say("1 error") : say("{} errors", errors));
    if (warnings > 0)
        counts.push_back(warnings == 1 ? say("1 warning") : say("{} warnings", warnings));
    return joined(counts, ", ");
}

}  // namespace

std::string print(const Diagnostic& diagnostic) {
    if (!diagnostic.place.source || diagnostic.place.line < 1)
        return print(diagnostic, nullptr, {}, {});
    const Lines lines(diagnostic.place.source->text);
    return print(diagnostic, &lines, {}, {});
}

std::string print(const Diagnostics& diagnostics, std::size_t cap) {
    return print(diagnostics, Paint{}, {}, cap);
}

std::string print(const Diagnostics& diagnostics, const Paint& paint, const Translator& translator,
                  std::size_t cap) {
    const std::size_t total = diagnostics.errors() + diagnostics.warnings();
    if (total == 0) return {};
    std::string result;
    // Warnings make room first: no error may hide behind them.
    const std::vector<Diagnostic> all = diagnostics.in_order();
    std::size_t room_for_errors = cap;
    std::size_t room_for_warnings = cap - std::min(cap, diagnostics.errors());
    std::map<const Source*, Lines> files;
    std::size_t printed = 0;
    for (const Diagnostic& diagnostic : all) {
        const bool wrong = diagnostic.severity == Severity::error;
        std::size_t& room = wrong ? room_for_errors : room_for_warnings;
        if (room == 0) continue;
        --room;
        const Source* source = diagnostic.place.source.get();
        const Lines* lines = nullptr;
        if (source != nullptr) lines = &files.try_emplace(source, source->text).first->second;
        result += print(diagnostic, lines, paint, translator);
        ++printed;
    }
    if (printed < total)
        result += say("and {} more, not shown", total - printed).in(translator) + "\n";
    return result + counted(diagnostics.errors(), diagnostics.warnings()).in(translator) + "\n";
}

}  // namespace gallipot::diag
