#include "domain/job/local_text.hpp"

#include <algorithm>
#include <stdexcept>

#include "domain/job/language.hpp"

namespace gallipot::job {

LocalText::LocalText(std::vector<std::pair<std::string, std::string>> by_language,
                     std::string_view main_language)
    : by_language_(std::move(by_language)) {
    if (by_language_.empty()) throw std::logic_error("a text in no language");
    const std::string* text = find(main_language);
    main_ = text != nullptr ? *text : by_language_.front().second;
}

const std::string* LocalText::find(std::string_view language) const {
    for (std::string_view tag = language; !tag.empty(); tag = wider_tag(tag))
        for (const auto& [known, text] : by_language_)
            if (same_tag(known, tag)) return &text;
    for (const auto& [known, text] : by_language_)
        if (same_language(known, language)) return &text;
    return nullptr;
}

bool LocalText::says(std::string_view text) const {
    return main_ == text || std::any_of(by_language_.begin(), by_language_.end(),
                                        [&](const auto& known) { return known.second == text; });
}

const std::string& LocalText::in(std::string_view language) const {
    const std::string* text = find(language);
    return text != nullptr ? *text : main_;
}

}  // namespace gallipot::job
