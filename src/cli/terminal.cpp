#include "cli/terminal.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

#include "base/diag/utf8.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::cli {
namespace {

bool may_paint(const Environment& environment, bool is_terminal) {
    if (!is_terminal) return false;
    if (!environment.environment("NO_COLOR").value_or("").empty()) return false;
    return environment.environment("TERM").value_or("dumb") != "dumb";
}

std::size_t width_of(const Environment& environment) {
    const std::string columns = environment.environment("COLUMNS").value_or("");
    std::size_t width = 0;
    const auto [end, error] =
        std::from_chars(columns.data(), columns.data() + columns.size(), width);
    const bool whole = error == std::errc() && end == columns.data() + columns.size();
    return whole && width > 0 ? width : environment.terminals.columns;
}

std::string_view begin(Paint paint) {
    switch (paint) {
        case Paint::error:
            return "\x1b[1;31m";
        case Paint::warning:
            return "\x1b[1;35m";
        case Paint::heading:
            break;
    }
    return "\x1b[1m";
}
constexpr std::string_view end_of_paint = "\x1b[0m";

std::string_view without_end_blanks(std::string_view text) {
    const auto last = text.find_last_not_of(" \n");
    return last == std::string_view::npos ? std::string_view() : text.substr(0, last + 1);
}

}  // namespace

Terminal terminal_of_results(const Environment& environment) {
    Terminal terminal{may_paint(environment, environment.terminals.results), 0};
    if (environment.terminals.results) terminal.width = width_of(environment);
    return terminal;
}

Terminal terminal_of_errors(const Environment& environment) {
    return {may_paint(environment, environment.terminals.errors), 0};
}

std::string painted(const Terminal& terminal, Paint paint, std::string_view text) {
    if (!terminal.colours) return std::string(text);
    return fmt::format("{}{}{}", begin(paint), text, end_of_paint);
}

std::size_t display_width(std::string_view text) {
    std::size_t width = 0;
    for (std::size_t at = 0; at < text.size();) {
        const diag::Character character = diag::character_at(text, at);
        width += static_cast<std::size_t>(diag::display_width(character.code));
        at += character.bytes;
    }
    return width;
}

std::vector<std::string> wrapped(std::string_view text, std::size_t width,
                                 const std::string& language) {
    if (width == 0 || display_width(text) <= width) return {std::string(text)};
    std::vector<std::string> lines;
    std::string line;
    std::size_t from = 0;
    for (const text::Break& may : text::line_breaks(text, language)) {
        const std::string_view piece = text.substr(from, may.offset - from);
        from = may.offset;
        std::string longer = line;
        longer += piece;
        if (!line.empty() && display_width(without_end_blanks(longer)) > width) {
            lines.emplace_back(without_end_blanks(line));
            longer = piece;
        }
        line = std::move(longer);
    }
    lines.emplace_back(without_end_blanks(line));
    return lines;
}

std::string paragraphs(std::string_view text, const Terminal& terminal, const std::string& language,
                       std::size_t deeper) {
    if (terminal.width == 0) return std::string(text);
    std::string out;
    while (!text.empty()) {
        const auto end = std::min(text.find('\n'), text.size());
        const std::string_view line = text.substr(0, end);
        const auto indent = std::min(line.find_first_not_of(' '), line.size());
        const std::size_t hanging = indent + deeper;
        const std::size_t room = terminal.width > hanging ? terminal.width - hanging : 1;
        bool first = true;
        for (const std::string& part : wrapped(line.substr(indent), room, language)) {
            out.append(first ? indent : hanging, ' ').append(part);
            out += '\n';
            first = false;
        }
        if (end == text.size()) {
            out.pop_back();  // it ended in no line end
            break;
        }
        text.remove_prefix(end + 1);
    }
    return out;
}

diag::Paint paint_of_errors(const Environment& environment) {
    if (!terminal_of_errors(environment).colours) return {};
    return {begin(Paint::error), begin(Paint::warning), end_of_paint};
}

std::ostream& complain(Environment& environment) {
    return environment.err << painted(terminal_of_errors(environment), Paint::error, "gallipot:")
                           << ' ';
}

std::ostream& warn(Environment& environment) {
    return environment.err << "gallipot: "
                           << painted(terminal_of_errors(environment), Paint::warning, "warning:")
                           << ' ';
}

}  // namespace gallipot::cli
