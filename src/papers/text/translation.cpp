#include "papers/text/translation.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <tuple>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"

namespace gallipot::text {

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines(1);
    for (const char c : text) {
        if (c == '\n')
            lines.emplace_back();
        else
            lines.back() += c;
    }
    return lines;
}

/// The comments right above a line of a catalog's file, and above the headings of its groups there.
std::vector<std::string> comments_above(const std::vector<std::string>& lines, int line) {
    std::vector<std::string> comments;
    for (int above = line - 2; above >= 0; --above) {
        const std::string& text = lines.at(static_cast<std::size_t>(above));
        const auto first = text.find_first_not_of(' ');
        if (first == std::string::npos) break;
        if (text[first] == '#') {
            const auto words = text.find_first_not_of("# ", first);
            if (words != std::string::npos) comments.push_back(text.substr(words));
        } else if (text.back() != ':') {
            break;
        }
    }
    std::ranges::reverse(comments);
    return comments;
}

/// The keys as they stand in the catalog's files.
std::vector<std::string> in_order(const Catalog& catalog) {
    std::vector<std::string> keys = catalog.keys();
    std::map<std::string, std::tuple<std::string, int, int>> places;
    for (const std::string& key : keys) {
        const diag::Place place = catalog.shape(key).place;
        places[key] = {place.source->name, place.line, place.column};
    }
    std::ranges::stable_sort(
        keys, [&](const auto& a, const auto& b) { return places.at(a) < places.at(b); });
    return keys;
}

/// Between quotes, as YAML reads it. What would change the direction of the file's own line is
/// written as its number.
std::string in_quotes(const std::string& text) {
    std::string out = "\"";
    for (std::size_t at = 0; at < text.size();) {
        const diag::Character character = diag::character_at(text, at);
        if (character.code == '"' || character.code == '\\')
            out += fmt::format("\\{}", text[at]);
        else if (character.code == '\n')
            out += "\\n";
        else if (character.code == '\t')
            out += "\\t";
        else if (diag::is_direction_control(character.code))
            out += fmt::format("\\u{:04X}", static_cast<std::uint32_t>(character.code));
        else
            out += text.substr(at, character.bytes);
        at += character.bytes;
    }
    return out + '"';
}

std::vector<std::string> path_of(const std::string& key) {
    std::vector<std::string> path(1);
    for (const char c : key) {
        if (c == '.')
            path.emplace_back();
        else
            path.back() += c;
    }
    return path;
}

struct Line {
    std::vector<std::string> path;
    const std::string& text;
};

/// Texts and groups of texts that share the first `depth` parts of their paths.
void write_group(const std::vector<Line>& lines, std::size_t depth, std::string& out) {
    const std::string indent(2 * depth, ' ');
    std::vector<std::string> written;
    for (const Line& line : lines) {
        const std::string& name = line.path[depth];
        if (line.path.size() == depth + 1) {
            out += indent + name + ": " + in_quotes(line.text) + '\n';
            continue;
        }
        if (std::ranges::find(written, name) != written.end()) continue;
        written.push_back(name);
        std::vector<Line> below;
        for (const Line& other : lines)
            if (other.path.size() > depth + 1 && other.path[depth] == name) below.push_back(other);
        out += (depth == 0 ? "\n" : "") + indent + name + ":\n";
        write_group(below, depth + 1, out);
    }
}

/// As a catalog's file has them.
std::string yaml_of(const std::vector<std::pair<std::string, std::string>>& texts,
                    const std::string& language) {
    std::vector<Line> lines;
    for (const auto& [key, text] : texts) lines.push_back({path_of(key), text});
    std::string out = "# " + language + ", made by gallipot languages --import.\n";
    write_group(lines, 0, out);
    return out;
}

}  // namespace

PoFile to_translate(const Catalog& english, const Catalog* translated,
                    const std::string& language) {
    PoFile file{language, {}};
    std::map<const diag::Source*, std::vector<std::string>> lines;
    for (const std::string& key : in_order(english)) {
        const Catalog::Shape shape = english.shape(key);
        auto& of_file = lines[shape.place.source.get()];
        if (of_file.empty()) of_file = lines_of(shape.place.source->text);
        PoEntry entry;
        entry.comments = comments_above(of_file, shape.place.line);
        if (key.starts_with("format."))
            entry.comments.emplace_back("A date pattern (Unicode TR 35).");
        entry.key = key;
        entry.english = shape.text;
        if (translated != nullptr && translated->has(key)) entry.text = translated->shape(key).text;
        file.entries.push_back(std::move(entry));
    }
    return file;
}

std::optional<Translation> from_translator(const Catalog& english, const PoFile& file,
                                           diag::Diagnostics& out) {
    diag::Diagnostics found;
    std::vector<Catalog::Text> texts;
    const std::vector<std::string> known = english.keys();
    for (const PoEntry& entry : file.entries) {
        if (!english.has(entry.key)) {
            const std::string near = diag::nearest(entry.key, known);
            found.error("catalog-key", entry.key_place,
                        diag::say("'{}' is not in {}, so nothing uses it",
                                  diag::printable(entry.key), english.tag()),
                        near.empty() ? diag::Text("take the entry out")
                                     : diag::say("did you mean '{}'?", near));
            continue;
        }
        if (entry.text.empty() || entry.fuzzy) continue;
        if (entry.english != english.shape(entry.key).text)
            found.warning("po-other-english", entry.place,
                          diag::say("the English of '{}' is now '{}'", entry.key,
                                    diag::printable(english.shape(entry.key).text, 60)),
                          "look whether the translation still says the same");
        texts.push_back({entry.key, entry.text, entry.place});
    }
    const Catalog translated(file.language, texts, found);
    diag::Diagnostics differences;
    compare(english, translated, differences);
    for (const diag::Diagnostic& one : differences.in_order())
        if (one.code != "catalog-missing")  // not translated yet
            found.error(one.code, one.place, one.message, one.hint);
    out.append(found);
    if (found.has_errors()) return std::nullopt;

    std::vector<std::pair<std::string, std::string>> in_file;
    for (const std::string& key : in_order(english))
        if (translated.has(key)) in_file.emplace_back(key, translated.shape(key).text);
    return Translation{file.language, yaml_of(in_file, file.language),
                       known.size() - in_file.size()};
}

}  // namespace gallipot::text
