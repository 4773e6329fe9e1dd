#include "papers/text/phone_numbers.hpp"

#include <algorithm>

#include "base/strings/ascii.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::text {

namespace {

constexpr std::string_view no_break = "\u00a0";

/// A number within a longer one is another number, a space between them or not.
bool stands_alone(std::string_view before, std::string_view behind) {
    if (before.ends_with(no_break)) before.remove_suffix(no_break.size());
    if (behind.starts_with(no_break)) behind.remove_prefix(no_break.size());
    if (!before.empty() && (strings::is_digit(before.back()) || before.back() == '+')) return false;
    return behind.empty() || !strings::is_digit(behind.front());
}

}  // namespace

std::string phone_link(std::string_view number) {
    std::string link = "tel:";
    for (const char c : number)
        if (strings::is_digit(c) || (c == '+' && link.size() == 4)) link += c;
    return link;
}

std::vector<FoundPhone> phones_in(std::string_view text, const std::vector<std::string>& numbers) {
    std::vector<FoundPhone> found;
    for (const std::string& number : numbers) {
        const std::string words = unbroken(number);
        if (words.empty()) continue;
        for (auto at = text.find(words); at != std::string_view::npos;
             at = text.find(words, at + words.size()))
            if (stands_alone(text.substr(0, at), text.substr(at + words.size())))
                found.push_back({at, text.substr(at, words.size())});
    }
    // Of two that begin alike, one with brackets that the other lacks, the longer.
    std::ranges::sort(found, [](const FoundPhone& a, const FoundPhone& b) {
        return a.at != b.at ? a.at < b.at : a.words.size() > b.words.size();
    });
    std::size_t end = 0;
    std::erase_if(found, [&](const FoundPhone& one) {
        if (one.at < end) return true;
        end = one.at + one.words.size();
        return false;
    });
    return found;
}

}  // namespace gallipot::text
