#include "papers/text/writer.hpp"

#include <utility>
#include <variant>

#include "papers/text/direction.hpp"
#include "papers/text/icu.hpp"

namespace gallipot::text {

StyledText Writer::rich(std::string_view key, const Arguments& arguments) {
    auto found = compiled_.find(key);
    if (found == compiled_.end()) {
        const std::string name(key);
        found =
            compiled_.emplace(name, CompiledMessage(name, message(messages_, key), locale_)).first;
    }
    StyledText runs = found->second.format(arguments, *this);
    // Joined here, so that nobody has to see or type the character in the file.
    if (key.starts_with("unit.")) {
        for (Run& run : runs) run.text = unbroken(run.text);
    }
    return runs;
}

std::string Writer::unit(std::string_view name, std::string figures) {
    return plain(rich("unit." + std::string(name), {{"n", std::move(figures)}}));
}

/// The locale is chosen after this is made.
bool Writer::right_to_left() {
    if (!right_to_left_) right_to_left_ = locale_.isRightToLeft() != 0;
    return *right_to_left_;
}

const DateWriter& Writer::dates(std::string_view pattern_key) {
    auto found = dates_.find(pattern_key);
    if (found == dates_.end()) {
        const std::string name(pattern_key);
        found = dates_.emplace(name, DateWriter(message(messages_, name).text, locale_)).first;
    }
    return found->second;
}

std::string Writer::joined(const std::vector<std::string>& items, UListFormatterType type) {
    UErrorCode status = U_ZERO_ERROR;
    auto& list = lists_[type];
    if (!list) {
        list.reset(icu::ListFormatter::createInstance(locale_, type, ULISTFMT_WIDTH_WIDE, status));
        require(status, "making a list writer");
    }
    std::vector<icu::UnicodeString> texts;
    texts.reserve(items.size());
    for (const std::string& item : items) texts.push_back(to_icu(isolated(item, right_to_left())));
    icu::UnicodeString text;
    list->format(texts.data(), static_cast<std::int32_t>(texts.size()), text, status);
    require(status, "writing a list");
    return to_utf8(text);
}

std::string Writer::write(const Value& value) {
    struct Write {
        Writer& writer;
        std::string operator()(const std::string& text) const {
            return isolated(text, writer.right_to_left());
        }
        std::string operator()(double number) const { return writer.numbers.amount(number); }
        std::string operator()(std::int64_t number) const {
            return writer.numbers.with_decimals(static_cast<double>(number), 0);
        }
        std::string operator()(std::chrono::year_month_day day) const {
            return writer.date("format.date", day);
        }
        std::string operator()(std::chrono::local_time<std::chrono::minutes> time) const {
            return writer.date("format.date_time", time);
        }
    };
    return std::visit(Write{*this}, value);
}

}  // namespace gallipot::text
