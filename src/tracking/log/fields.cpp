#include "tracking/log/fields.hpp"

#include <algorithm>
#include <charconv>
#include <initializer_list>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"

namespace gallipot::log {
namespace {

using visit::Did;
using visit::Marks;
using visit::State;

constexpr std::string_view blanks = " \t\r\n";

template <class Find>
auto parse_marks(std::string_view text, std::string& stranger, Find find)
    -> std::optional<Marks<typename decltype(find(text))::value_type>> {
    Marks<typename decltype(find(text))::value_type> marks;
    constexpr std::string_view between = " ,;+\t";
    for (;;) {
        const auto start = text.find_first_not_of(between);
        if (start == std::string_view::npos) return marks;
        text.remove_prefix(start);
        const auto end = std::min(text.find_first_of(between), text.size());
        const std::string word = strings::to_lower(text.substr(0, end));
        text.remove_prefix(end);
        const auto mark = find(word);
        if (!mark) {
            stranger = word;
            return std::nullopt;
        }
        marks.add(*mark);
    }
}

template <class Mark>
std::string print_marks(Marks<Mark> marks, std::span<const Mark> all) {
    std::string out;
    for (const Mark mark : all) {
        if (!marks.has(mark)) continue;
        if (!out.empty()) out += ' ';
        out += visit::word(mark);
    }
    return out;
}

template <class Mark>
std::string words(std::span<const Mark> all) {
    std::string out;
    for (const Mark mark : all) {
        if (!out.empty()) out += ", ";
        out += visit::word(mark);
    }
    return out;
}

/// The station of that name, which has or had a container of that number; 0: any.
std::optional<Target> find_station(const plan::Plan& plan, std::string_view name, int container) {
    for (std::size_t i = 0; i < plan.all_stations(); ++i) {
        const plan::Station& station = plan.station_at(i);
        if (container > std::max(station.containers, station.most_containers)) continue;
        if (strings::same_letters(station.id, name)) return Target{station.id, container};
        for (const std::string& older : station.was)
            if (strings::same_letters(older, name)) return Target{station.id, container, older};
    }
    return std::nullopt;
}

}  // namespace

std::optional<Target> find_target(const plan::Plan& plan, std::string_view written) {
    if (auto station = find_station(plan, written, 0)) return station;
    const auto dash = written.rfind('-');
    if (dash == std::string_view::npos) return std::nullopt;
    const auto number = parse_count(written.substr(dash + 1));
    if (!number || *number < 1 || written[dash + 1] == '0') return std::nullopt;
    return find_station(plan, written.substr(0, dash), *number);
}

std::string print_target(const visit::Visit& visit) {
    if (visit.container == 0) return visit.station;
    return visit.station + "-" + std::to_string(visit.container);
}

std::optional<int> parse_count(std::string_view text) {
    text = strings::trimmed(text, blanks);
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    if (text[0] == '-' || value > maximum_counted) return std::nullopt;
    return value;
}

std::optional<int> parse_level(std::string_view text) {
    text = strings::trimmed(text, blanks);
    if (strings::same_letters(text, "full")) return 100;
    const auto is = [text](std::initializer_list<std::string_view> spellings) {
        return std::any_of(spellings.begin(), spellings.end(), [text](std::string_view spelling) {
            return strings::same_letters(text, spelling);
        });
    };
    if (is({"3/4", "three quarters"})) return 75;
    if (is({"1/2", "half"})) return 50;
    if (is({"1/4", "quarter", "a quarter"})) return 25;
    if (strings::same_letters(text, "empty")) return 0;
    if (!text.empty() && text.back() == '%') text.remove_suffix(1);
    const auto percent = parse_count(text);
    if (!percent || *percent > 100) return std::nullopt;
    return percent;
}

std::optional<Marks<State>> parse_states(std::string_view text, std::string& stranger) {
    return parse_marks(text, stranger,
                       [](std::string_view word) { return visit::find_state(word); });
}
std::optional<Marks<Did>> parse_dids(std::string_view text, std::string& stranger) {
    return parse_marks(text, stranger, [](std::string_view word) { return visit::find_did(word); });
}
std::string print_states(Marks<State> states) {
    return print_marks(states, visit::all_states());
}
std::string print_dids(Marks<Did> dids) {
    return print_marks(dids, visit::all_dids());
}
std::string state_words() {
    return words(visit::all_states());
}
std::string did_words() {
    return words(visit::all_dids());
}

std::optional<bool> parse_yes_no(std::string_view text) {
    text = strings::trimmed(text, blanks);
    if (strings::same_letters(text, "yes")) return true;
    if (strings::same_letters(text, "no")) return false;
    return std::nullopt;
}
std::string print_yes_no(bool yes) {
    return yes ? "yes" : "no";
}

std::string tidy(std::string_view text) {
    text = strings::trimmed(text, blanks);
    std::string out;
    out.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\r') {
            if (i + 1 == text.size() || text[i + 1] != '\n') out += '\n';
        } else {
            out += text[i] == '\t' ? ' ' : text[i];
        }
    }
    return out;
}

TextFault find_fault(std::string_view text, std::size_t longest, bool lines) {
    std::size_t characters = 0;
    for (std::size_t at = 0; at < text.size(); ++characters) {
        const diag::Character character = diag::character_at(text, at);
        if (!character.valid) return TextFault::not_utf8;
        if (diag::is_direction_control(character.code) ||
            (diag::is_control(character.code) && !(lines && character.code == U'\n')))
            return TextFault::control_character;
        at += character.bytes;
    }
    return characters > longest ? TextFault::too_long : TextFault::none;
}

bool says_something(const visit::Visit& visit) {
    return visit.seen || visit.dead || visit.level_percent || !visit.state.empty() ||
           !visit.did.empty() || !visit.note.empty() || visit.young || visit.feeding;
}

}  // namespace gallipot::log
