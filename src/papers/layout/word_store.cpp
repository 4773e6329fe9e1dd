#include "papers/layout/word_store.hpp"

#include <utility>

namespace gallipot::layout {

const std::shared_ptr<const MeasuredText>& WordStore::operator()(const text::StyledText& runs,
                                                                 const std::string& language,
                                                                 std::string_view what) {
    std::string key = language;
    for (const text::Run& run : runs) {
        key += run.bold ? '\1' : '\2';
        key += run.text;
    }
    auto& known = known_[std::move(key)];
    if (known == nullptr)
        known = std::make_shared<const MeasuredText>(runs, faces_, language, what);
    return known;
}

}  // namespace gallipot::layout
