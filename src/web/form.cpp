#include "web/form.hpp"

#include <algorithm>

#include "base/diag/utf8.hpp"

namespace gallipot::web {
namespace {

int hex(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

bool is_text(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const diag::Character character = diag::character_at(text, at);
        if (!character.valid || character.code == 0) return false;
        at += character.bytes;
    }
    return true;
}

}  // namespace

std::optional<Form> Form::parse(std::string_view body) {
    Form form;
    while (!body.empty()) {
        const auto end = std::min(body.find('&'), body.size());
        const std::string_view pair = body.substr(0, end);
        body.remove_prefix(std::min(end + 1, body.size()));
        if (pair.empty()) continue;
        const auto equals = std::min(pair.find('='), pair.size());
        std::string name = percent_decoded(pair.substr(0, equals), true);
        std::string value = percent_decoded(pair.substr(std::min(equals + 1, pair.size())), true);
        if (!is_text(name) || !is_text(value) || form.fields_.size() == most_fields)
            return std::nullopt;
        form.fields_.emplace_back(std::move(name), std::move(value));
    }
    return form;
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
        if (text[i] == '%' && i + 2 < text.size() && hex(text[i + 1]) >= 0 &&
            hex(text[i + 2]) >= 0) {
            out += static_cast<char>(hex(text[i + 1]) * 16 + hex(text[i + 2]));
            i += 2;
        } else {
            out += plus && text[i] == '+' ? ' ' : text[i];
        }
    }
    return out;
}

}  // namespace gallipot::web
