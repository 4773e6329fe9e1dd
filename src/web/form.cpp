#include "web/form.hpp"

#include <algorithm>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"
#include "web/multipart.hpp"

namespace gallipot::web {

Form::Form(std::string_view body) {
    read_fields(body);
}

Form::Form(std::string_view body, std::string_view content_type) {
    if (is_multipart(content_type))
        read_parts(body, content_type);
    else
        read_fields(body);
}

void Form::read_fields(std::string_view body) {
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
        add(percent_decoded(pair.substr(0, equals), true),
            percent_decoded(pair.substr(std::min(equals + 1, pair.size())), true));
    }
}

void Form::read_parts(std::string_view body, std::string_view content_type) {
    const MultipartBody all = read_multipart(body, content_type);
    damaged_ = !all.whole;
    for (const Part& part : all.parts) {
        if (!part.is_file) {
            if (fields_.size() == maximum_fields)
                damaged_ = true;
            else
                add(part.name, std::string(part.content));
        } else if (!part.content.empty()) {  // browsers send an empty one where none was chosen
            if (files_.size() == maximum_files)
                damaged_ = true;
            else
                files_.emplace_back(part.name, part.content);
        }
    }
}

void Form::add(std::string name, std::string value) {
    std::string tidy_name = text(name);
    fields_.emplace_back(std::move(tidy_name), text(value));
}

std::string Form::text(std::string_view bytes) {
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

std::vector<std::string_view> Form::files(std::string_view name) const {
    std::vector<std::string_view> contents;
    for (const auto& [key, content] : files_)
        if (key == name) contents.push_back(content);
    return contents;
}

bool is_multipart(std::string_view content_type) {
    return strings::to_lower(content_type.substr(0, 20)).starts_with("multipart/form-data");
}

bool is_form_type(std::string_view content_type) {
    return content_type.starts_with("application/x-www-form-urlencoded") ||
           is_multipart(content_type);
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
