#include "papers/layout/word_store.hpp"

#include <algorithm>
#include <utility>

namespace gallipot::layout {

const std::shared_ptr<const MeasuredText>& WordStore::operator()(const text::StyledText& runs,
                                                                 const std::string& language,
                                                                 std::string_view what) {
    std::string key = language;
    for (const text::Run& run : runs) {
        key += run.bold ? '\1' : '\2';
        key += run.text;
        if (!run.language.empty()) key += '\3' + run.language;
    }
    auto& known = known_[std::move(key)];
    if (known == nullptr)
        known = std::make_shared<const MeasuredText>(runs, faces_, language, what);
    return known;
}

double WordStore::leading_of_most() const {
    std::size_t asking = 0;
    double most = 0;
    for (const auto& [key, words] : known_) {
        if (words == nullptr || words->least_leading() <= 0) continue;
        ++asking;
        most = std::max(most, words->least_leading());
    }
    return 2 * asking > known_.size() ? most : 0;
}

}  // namespace gallipot::layout
