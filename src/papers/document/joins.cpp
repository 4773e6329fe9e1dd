#include "papers/document/joins.hpp"

#include <utility>

#include "papers/text/direction.hpp"

namespace gallipot::document {

using text::Catalog;
using text::StyledText;

std::string headed(const Catalog& words, const std::string& name) {
    return words("join.head", {{"name", name}});
}

std::string headed(const Catalog& words, const std::string& name, const std::string& text) {
    return words("join.colon", {{"first", name}, {"next", text}});
}

std::string mark(const Catalog& words, Join join) {
    const char* key = join == Join::colon   ? "join.colon"
                      : join == Join::comma ? "join.comma"
                                            : "join.semicolon";
    return words(key, {{"first", ""}, {"next", ""}});
}

std::string joined(const Catalog& words, Join join, const std::vector<std::string>& items) {
    if (items.size() == 1) return items.front();
    const std::string between = mark(words, join);
    const bool turned = text::runs_right_to_left(words.tag());
    std::string text;
    // Each kept to itself: one message within another would nest as deep as the list is long.
    for (const std::string& item : items)
        text += (text.empty() ? "" : between) + text::isolated(item, turned);
    return text;
}

void add_joined(StyledText& runs, const Catalog& words, Join join, StyledText next) {
    runs.push_back({mark(words, join), false});
    for (text::Run& run : next) runs.push_back(std::move(run));
}

std::string sentence(const Catalog& words, const std::string& text) {
    const std::string stop = words("join.sentence", {{"text", ""}});
    return text.ends_with(stop) ? text : text + stop;
}

void end_sentence(StyledText& runs, const Catalog& words) {
    if (runs.empty()) return;
    const std::string whole = text::plain(runs);
    runs.push_back({sentence(words, whole).substr(whole.size()), false});
    if (runs.back().text.empty()) runs.pop_back();
}

}  // namespace gallipot::document
