#include "cli/table.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <numeric>

#include "base/diag/utf8.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::cli {
namespace {

constexpr std::size_t gap = 2;  // before each column

std::size_t total(const std::vector<std::size_t>& widths) {
    return std::accumulate(widths.begin(), widths.end(), gap * widths.size());
}

/// The widest piece that cannot be broken.
std::size_t longest_piece(const std::string& cell, const std::string& language) {
    std::size_t longest = 0;
    for (const std::string& piece : wrapped(cell, 1, language))
        longest = std::max(longest, display_width(piece));
    return longest;
}

/// Takes from the widest column that has something to give, until all fit.
bool narrow(std::vector<std::size_t>& widths, const std::vector<std::size_t>& minimum,
            std::size_t room) {
    for (std::size_t all = total(widths); all > room; --all) {
        std::size_t widest = widths.size();
        for (std::size_t i = 0; i < widths.size(); ++i)
            if (widths[i] > minimum[i] && (widest == widths.size() || widths[i] > widths[widest]))
                widest = i;
        if (widest == widths.size()) return false;
        --widths[widest];
    }
    return true;
}

}  // namespace

void Table::row(std::vector<std::string> cells) {
    for (std::string& cell : cells) cell = diag::printable(cell);
    rows_.push_back(std::move(cells));
}

void Table::drop_empty(const std::vector<std::size_t>& columns) {
    for (auto column = columns.rbegin(); column != columns.rend(); ++column) {
        const auto at = static_cast<std::ptrdiff_t>(*column);
        if (std::ranges::any_of(rows_, [&](const Row& row) { return !row[*column].empty(); }))
            continue;
        columns_.erase(columns_.begin() + at);
        for (Row& row : rows_) row.erase(row.begin() + at);
    }
}

std::vector<std::size_t> Table::natural_widths() const {
    std::vector<std::size_t> widths;
    for (const Column& column : columns_) widths.push_back(display_width(column.heading));
    for (const Row& row : rows_)
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], display_width(row[i]));
    return widths;
}

std::vector<std::size_t> Table::minimum_widths(const std::string& language) const {
    std::vector<std::size_t> widths;
    for (const Column& column : columns_) widths.push_back(longest_piece(column.heading, language));
    for (const Row& row : rows_)
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::size_t cell = display_width(row[i]);
            // Looking for breaks takes time, and a narrow cell asks for no more anyway.
            if (cell > widths[i])
                widths[i] =
                    std::max(widths[i], columns_[i].whole ? cell : longest_piece(row[i], language));
        }
    return widths;
}

std::string Table::grid(const std::vector<std::size_t>& widths, const Terminal& terminal,
                        const std::string& language) const {
    std::string out;
    const auto row = [&](const auto& cell_of, std::size_t cells, bool heading) {
        std::vector<std::vector<std::string>> lines;
        std::size_t height = 1;
        for (std::size_t i = 0; i < cells; ++i) {
            lines.push_back(wrapped(cell_of(i), widths[i], language));
            height = std::max(height, lines.back().size());
        }
        for (std::size_t y = 0; y < height; ++y) {
            std::string text;
            for (std::size_t i = 0; i < cells; ++i) {
                const std::string cell = y < lines[i].size() ? lines[i][y] : std::string();
                const std::string fill(widths[i] - std::min(widths[i], display_width(cell)), ' ');
                text.append(gap, ' ').append(columns_[i].right ? fill + cell : cell + fill);
            }
            text.erase(text.find_last_not_of(' ') + 1);
            if (heading) {
                const auto from = std::min(text.find_first_not_of(' '), text.size());
                text = text.substr(0, from) +
                       painted(terminal, Paint::heading, std::string_view(text).substr(from));
            }
            out += text + '\n';
        }
    };
    row([&](std::size_t i) -> const std::string& { return columns_[i].heading; }, columns_.size(),
        true);
    for (const Row& cells : rows_)
        row([&](std::size_t i) -> const std::string& { return cells[i]; }, cells.size(), false);
    return out;
}

std::string Table::blocks(const Terminal& terminal, const std::string& language) const {
    std::string out;
    for (const Row& row : rows_) {
        if (!out.empty()) out += '\n';
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (row[i].empty()) continue;
            const std::string line = fmt::format("  {}: {}\n", columns_[i].heading, row[i]);
            const std::string text =
                columns_[i].whole ? line : paragraphs(line, terminal, language, gap);
            const std::string& heading = columns_[i].heading;
            // A heading that was wrapped itself stays plain.
            out += text.compare(gap, heading.size(), heading) == 0
                       ? "  " + painted(terminal, Paint::heading, heading) +
                             text.substr(gap + heading.size())
                       : text;
        }
    }
    return out;
}

std::string Table::text(const Terminal& terminal, const std::string& language) const {
    std::vector<std::size_t> widths = natural_widths();
    if (terminal.width == 0 || total(widths) <= terminal.width)
        return grid(widths, terminal, language);
    if (narrow(widths, minimum_widths(language), terminal.width))
        return grid(widths, terminal, language);
    return blocks(terminal, language);
}

}  // namespace gallipot::cli
