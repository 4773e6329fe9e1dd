#include "command/table.hpp"

#include <algorithm>

namespace gallipot::command {
namespace {

/// Characters, not bytes: what a terminal shows for the scripts we print.
std::size_t width(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

}  // namespace

std::string Table::text() const {
    std::vector<std::size_t> widths;
    for (const Column& column : columns_) widths.push_back(width(column.heading));
    for (const auto& row : rows_)
        for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width(row[i]));

    std::string out;
    const auto line = [&](const auto& cell_of, std::size_t cells) {
        std::string text = "  ";
        for (std::size_t i = 0; i < cells; ++i) {
            const std::string& cell = cell_of(i);
            const std::string fill(widths[i] - width(cell), ' ');
            text += columns_[i].right ? fill + cell : cell + fill;
            text += "  ";
        }
        text.erase(text.find_last_not_of(' ') + 1);
        out += text + '\n';
    };
    line([&](std::size_t i) -> const std::string& { return columns_[i].heading; }, columns_.size());
    for (const auto& row : rows_)
        line([&](std::size_t i) -> const std::string& { return row[i]; }, row.size());
    return out;
}

}  // namespace gallipot::command
