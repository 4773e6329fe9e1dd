#include "web/form.hpp"

#include <algorithm>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"

namespace gallipot::web {
namespace {}  // namespace

Form::Form(std::string_view body) {
    while (!body.empty()) {
        const auto end = std::min(body.find('&'), body.size());
        const std::string_view pair = body.substr(0, end);
        body.remove_prefix(std::min(end + 1, body.size()));
        if (pair.empty()) continue;
        if (fields_.size() == maximum_fields) {
            damaged_ = true;
            return;
        }
        const auto equals = std::min(pair.find('='), pair.size());
        std::string name = text(pair.substr(0, equals));
        fields_.emplace_back(std::move(name), text(pair.substr(std::min(equals + 1, pair.size()))));
    }
}

std::string Form::text(std::string_view encoded) {
    const std::string bytes = percent_decoded(encoded, true);
    std::string text;
    for (std::size_t at = 0; at < bytes.size();) {
        const diag::Character character = diag::character_at(bytes, at);
        const bool good = character.valid && character.code != 0;
        if (good)
            text.append(bytes, at, character.bytes);
        else if (!character.valid)
            text += "\xEF\xBF\xBD";
        damaged_ = damaged_ || !good;
        at += character.bytes;
    }
    return text;
}

bool Form::has(std::string_view name) const {
    return std::any_of(fields_.begin(), fields_.end(),
                       [&](const auto& field) { return field.first == name; });
}

std::string Form::value(std::string_view name) const {
    for (const auto& [key, value] : fields_)
        if (key == name) return value;
    return {};
}

std::vector<std::string> Form::values(std::string_view name) const {
    std::vector<std::string> values;
    for (const auto& [key, value] : fields_)
        if (key == name) values.push_back(value);
    return values;
}

std::string percent_decoded(std::string_view text, bool plus) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool escape = text[i] == '%' && i + 2 < text.size();
        const auto high = escape ? strings::hex_digit(text[i + 1]) : std::nullopt;
        const auto low = escape ? strings::hex_digit(text[i + 2]) : std::nullopt;
        if (high && low) {
            out += static_cast<char>(*high * 16 + *low);
            i += 2;
        } else {
            out += plus && text[i] == '+' ? ' ' : text[i];
        }
    }
    return out;
}

}  // namespace gallipot::web
