#include "papers/document/label_languages.hpp"

#include <algorithm>

namespace gallipot::document {

namespace {

/// Wording `index`, or the shortest where there are fewer.
const Wording& at(const LabelPart& part, std::size_t index) {
    return part.wordings[std::min(index, part.wordings.size() - 1)];
}

Wording joined(const Wording& first, const Wording& second, const std::string& language) {
    Wording made = first;
    for (const auto& line : second.lines)
        if (std::find(first.lines.begin(), first.lines.end(), line) == first.lines.end())
            made.lines.push_back(in_language(line, language));
    return made;
}

}  // namespace

text::StyledText in_language(text::StyledText line, const std::string& language) {
    for (text::Run& run : line) run.language = language;
    return line;
}

std::shared_ptr<const LabelBody> in_both(const LabelBody& main, const LabelBody& second) {
    auto both = std::make_shared<LabelBody>(main);
    for (auto& part : both->parts) {
        const auto* other = second.find(part.part);
        if (other == nullptr) continue;
        const auto count = std::max(part.wordings.size(), other->wordings.size());
        const LabelPart own = part;
        part.wordings.clear();
        for (std::size_t i = 0; i < count; ++i)
            part.wordings.push_back(joined(at(own, i), at(*other, i), second.language));
    }
    return both;
}

}  // namespace gallipot::document
