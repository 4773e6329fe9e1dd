#include "domain/job/table_cells.hpp"

#include <algorithm>
#include <cstddef>
#include <string_view>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"
#include "domain/yaml/composed.hpp"

namespace gallipot::job {

using yaml::Kind;
using yaml::Node;

namespace {

/// How the entries of a cell are apart.
struct Separators {
    bool blanks = false;      ///< by blanks too
    bool all_commas = false;  ///< also by a comma between two digits
};

bool separates(std::string_view text, std::size_t at, const Separators& by) {
    const char c = text[at];
    if (c == ';' || (by.blanks && c == ' ') || (by.all_commas && c == ',')) return true;
    const auto digit = [&](std::size_t i) { return i < text.size() && strings::is_digit(text[i]); };
    return c == ',' && !(at > 0 && digit(at - 1) && digit(at + 1));
}

/// The entries of "food; rain", "[food, rain]" or, apart by blanks, "3.2 1.1".
Node sequence(const csv::Field& cell, Separators by) {
    Node list;
    list.kind = Kind::sequence;
    list.place = cell.place;
    std::string_view text = cell.text;
    int column = cell.place.column + (cell.quoted ? 1 : 0);
    if (text.size() > 1 && text.front() == '[' && text.back() == ']') {
        text = text.substr(1, text.size() - 2);
        ++column;
        by.all_commas = true;
    }
    for (std::size_t from = 0; from <= text.size();) {
        std::size_t to = from;
        while (to < text.size() && !separates(text, to, by)) ++to;
        const std::string_view entry = strings::trimmed(text.substr(from, to - from));
        if (!entry.empty()) {
            diag::Place place = cell.place;
            const auto before = static_cast<std::size_t>(entry.data() - text.data());
            place.column =
                column + static_cast<int>(diag::count_characters(text.substr(0, before)));
            place.length = static_cast<int>(diag::count_characters(entry));
            list.items.add(scalar(entry, place));
        }
        from = to + 1;
    }
    return list;
}

}  // namespace

Node scalar(std::string_view text, const diag::Place& place) {
    Node node;
    node.kind = Kind::scalar;
    node.text = yaml::composed(text);
    node.place = place;
    return node;
}

csv::Field trimmed(const csv::Field& field) {
    constexpr std::string_view blanks = " \t";
    csv::Field cell = field;
    cell.text = strings::trimmed(field.text, blanks);
    if (field.quoted || cell.text.empty()) return cell;
    cell.place.column += static_cast<int>(field.text.find_first_not_of(blanks));
    cell.place.length = static_cast<int>(diag::count_characters(cell.text));
    return cell;
}

Node value_of(const csv::Field& cell, Type type) {
    if (type == Type::list || type == Type::visits) return sequence(cell, {});
    if (type == Type::point) return sequence(cell, {.blanks = true});
    return scalar(cell.text, cell.place);
}

}  // namespace gallipot::job
