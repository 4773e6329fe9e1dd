#include "web/multipart.hpp"

#include <algorithm>
#include <optional>

#include "base/strings/ascii.hpp"

namespace gallipot::web {
namespace {

constexpr std::size_t longest_boundary = 70;     // RFC 2046, 5.1.1
constexpr std::size_t longest_part_head = 4096;  ///< bytes

/// The value of a parameter, `; name=value` or `; name="value"`; none where it is not there.
std::optional<std::string> parameter(std::string_view field, std::string_view name) {
    for (auto at = field.find(';'); at < field.size();) {
        ++at;
        while (at < field.size() && (field[at] == ' ' || field[at] == '\t')) ++at;
        const auto equals = std::min(field.find_first_of("=;", at), field.size());
        const bool wanted = strings::same_letters(field.substr(at, equals - at), name);
        if (equals == field.size() || field[equals] == ';') {
            at = equals;
            continue;
        }
        std::string value;
        at = equals + 1;
        if (at < field.size() && field[at] == '"') {
            // Browsers write a quote in it as %22, others with a stroke before it.
            for (++at; at < field.size() && field[at] != '"'; ++at) {
                if (field[at] == '\\' && at + 1 < field.size()) ++at;
                value += field[at];
            }
            at = field.find(';', at);
        } else {
            const auto end = std::min(field.find(';', at), field.size());
            value = field.substr(at, end - at);
            while (value.ends_with(' ')) value.pop_back();
            at = end;
        }
        if (wanted) return value;
    }
    return std::nullopt;
}

/// Name and kind of a part, from its head; none where it has no name.
std::optional<Part> part_of(std::string_view head) {
    constexpr std::string_view wanted = "content-disposition:";
    while (!head.empty()) {
        const auto end = std::min(head.find("\r\n"), head.size());
        const std::string_view line = head.substr(0, end);
        head.remove_prefix(std::min(end + 2, head.size()));
        if (!strings::to_lower(line.substr(0, wanted.size())).starts_with(wanted)) continue;
        const auto name = parameter(line, "name");
        if (!name) return std::nullopt;
        return Part{*name, parameter(line, "filename") || parameter(line, "filename*"), {}};
    }
    return std::nullopt;
}

}  // namespace

MultipartBody read_multipart(std::string_view body, std::string_view content_type) {
    MultipartBody all;
    const auto boundary = parameter(content_type, "boundary");
    if (!boundary || boundary->empty() || boundary->size() > longest_boundary) return all;
    const std::string between = "\r\n--" + *boundary;
    // The first stands at the start of the body, or after a line that says nothing.
    std::size_t at = body.starts_with(std::string_view(between).substr(2)) ? between.size() - 2 : 0;
    if (at == 0) {
        const auto first = body.find(between);
        if (first == std::string_view::npos) return all;
        at = first + between.size();
    }
    bool sound = true;
    while (all.parts.size() < maximum_parts) {
        if (body.substr(at, 2) == "--") {
            all.whole = sound;
            return all;
        }
        if (body.substr(at, 2) != "\r\n") return all;
        at += 2;
        const auto head_end = body.substr(at, longest_part_head).find("\r\n\r\n");
        if (head_end == std::string_view::npos) return all;
        auto part = part_of(body.substr(at, head_end));
        at += head_end + 4;
        const auto end = body.find(between, at);
        const bool ends = end != std::string_view::npos;
        sound = sound && part && ends;
        if (part && (ends || !part->is_file)) {
            part->content = body.substr(at, ends ? end - at : std::string_view::npos);
            all.parts.push_back(*std::move(part));
        }
        if (!ends) return all;
        at = end + between.size();
    }
    return all;
}

}  // namespace gallipot::web
