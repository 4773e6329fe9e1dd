#include "papers/text/markup.hpp"

#include "papers/text/icu.hpp"

namespace gallipot::text {

icu::UnicodeString with_marks(std::string_view message) {
    icu::UnicodeString text = to_icu(message);
    text.findAndReplace(u"<b>", icu::UnicodeString(bold_begins));
    text.findAndReplace(u"</b>", icu::UnicodeString(bold_ends));
    return text;
}

icu::UnicodeString without_marks(std::string_view text) {
    icu::UnicodeString clean = to_icu(text);
    clean.findAndReplace(icu::UnicodeString(bold_begins), icu::UnicodeString(char16_t{0xFFFD}));
    clean.findAndReplace(icu::UnicodeString(bold_ends), icu::UnicodeString(char16_t{0xFFFD}));
    return clean;
}

StyledText split_at_marks(const icu::UnicodeString& text) {
    StyledText runs;
    bool bold = false;
    std::int32_t start = 0;
    for (std::int32_t at = 0; at <= text.length(); ++at) {
        const char16_t unit = at < text.length() ? text[at] : char16_t{0};
        const bool end = at == text.length();
        if (!end && unit != bold_begins && unit != bold_ends) continue;
        append(runs, to_utf8(text.tempSubStringBetween(start, at)), bold);
        bold = unit == bold_begins;
        start = at + 1;
    }
    return runs;
}

void append(StyledText& runs, std::string_view text, bool bold) {
    if (text.empty()) return;
    if (!runs.empty() && runs.back().bold == bold) {
        runs.back().text += text;
    } else {
        runs.push_back({std::string(text), bold});
    }
}

std::string plain(const StyledText& runs) {
    std::string text;
    for (const Run& run : runs) text += run.text;
    return text;
}

}  // namespace gallipot::text
