#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "papers/document/content.hpp"

namespace gallipot::tests {

/// What a document says in the order in which it says it, without spaces. Figures say nothing here:
/// they have words of their own (rules.py).
class Said {
  public:
    /// With what only paper has or without: lines to write on, and numbers that a page counts
    /// itself.
    explicit Said(bool to_write) : to_write_(to_write) {}

    std::string operator()(const document::Document& document) {
        for (const document::Sheet& sheet : document.sheets) {
            add(sheet.kicker);
            add(sheet.title);
            add(sheet.aside);
            add(sheet.blocks);
        }
        return std::move(all_);
    }

    void operator()(const document::Heading& heading) {
        add(heading.text);
        if (!to_write_) return;
        for (auto field = heading.fields.rbegin(); field != heading.fields.rend(); ++field)
            add(*field);
    }
    void operator()(const document::Paragraph& paragraph) { add(paragraph.text); }
    void operator()(const document::Banner& banner) {
        add(banner.left);
        add(banner.right);
    }
    void operator()(const document::Checklist& list) {
        for (std::size_t i = 0; i < list.items.size(); ++i) {
            if (list.numbered && to_write_) add({{std::to_string(i + 1), true}});
            add(list.items[i]);
        }
    }
    void operator()(const document::Table& table) {
        for (const auto& column : table.columns) add(column.heading);
        for (const auto& row : table.rows)
            for (const auto& cell : row) {
                add(cell.text);
                add(cell.note);
                for (const auto& choice : cell.choices) add(choice);
                for (const auto& tool : cell.tools) add(tool.name);
            }
    }
    void operator()(const document::FillIn& fill_in) {
        if (!to_write_) return;
        for (const auto& column : fill_in.columns) add(column.heading);
    }
    void operator()(const document::Columns& columns) {
        for (const auto& part : columns.parts) {
            add(part.heading);
            for (const auto& line : part.lines) add(line);
        }
    }
    void operator()(const document::Plots& plots) {
        for (const auto& plot : plots.plots) {
            add(plot.title);
            add(plot.note);
        }
    }
    void operator()(const document::PlotKey& key) {
        for (const auto& entry : key.entries) add(entry.text);
    }
    void operator()(const document::FloorDrawing&) {}
    void operator()(const document::Signs& signs) {
        for (const auto& entry : signs.entries) {
            add(entry.text);
            for (const auto& line : entry.lines) add(line);
        }
    }
    void operator()(const document::ContainerDrawings&) {}
    void operator()(const document::Code& code) {
        for (const auto& line : code.lines) add(line);
    }
    void operator()(const document::Beside& beside) {
        add(beside.left->blocks);
        add(beside.right->blocks);
    }
    void operator()(const std::shared_ptr<const document::Group>& group) { add(group->blocks); }

  private:
    void add(const std::vector<document::Block>& blocks) {
        for (const auto& block : blocks) std::visit(*this, block);
    }
    void add(const text::StyledText& runs) { all_ += text::plain(runs); }

    std::string all_;
    bool to_write_;
};

inline std::string without_spaces(std::string text) {
    std::erase_if(text, [](char c) { return c == ' ' || c == '\n'; });
    for (const std::string_view none : {"\u00A0", "\u00AD"})
        for (auto at = text.find(none); at != std::string::npos; at = text.find(none, at))
            text.erase(at, none.size());
    return text;
}

}  // namespace gallipot::tests
