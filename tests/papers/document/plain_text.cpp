#include "papers/document/plain_text.hpp"

#include <fmt/format.h>

namespace gallipot::document {

std::string as_shown(std::string text) {
    for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0", at))
        text.replace(at, 2, "~");
    return text;
}

namespace {

std::string shown(const StyledText& runs) {
    std::string text;
    for (const auto& run : runs) {
        const std::string part = as_shown(run.text);
        text += run.bold ? "*" + part + "*" : part;
    }
    return text;
}

std::string columns(const std::vector<Column>& columns) {
    std::string text;
    for (const Column& column : columns) {
        text += "| " + shown(column.heading) + (column.align == Align::right ? " > " : " ");
    }
    return text + "|\n";
}

struct Print {
    std::string& out;

    void operator()(const Heading& heading) const {
        out += "\n## " + shown(heading.text);
        for (const StyledText& field : heading.fields) out += " " + shown(field) + " ____";
        out += "\n";
    }
    void operator()(const Paragraph& paragraph) const {
        const char* voice = paragraph.voice == Voice::large   ? "(large) "
                            : paragraph.voice == Voice::small ? "(small) "
                                                              : "";
        out += voice + shown(paragraph.text) + "\n";
    }
    void operator()(const Banner& banner) const {
        out += "!! " + shown(banner.left);
        if (!banner.right.empty()) out += " >> " + shown(banner.right);
        out += "\n";
    }
    void operator()(const Checklist& list) const {
        int number = 0;
        for (const StyledText& item : list.items) {
            ++number;
            out += list.boxes ? "[ ] " : "- ";
            if (list.numbered) out += std::to_string(number) + ". ";
            out += shown(item) + "\n";
        }
    }
    void operator()(const Table& table) const {
        out += columns(table.columns);
        for (const auto& row : table.rows) {
            if (table.last_row_is_total && &row == &table.rows.back()) out += "|---\n";
            for (const Cell& cell : row) {
                out += cell.box ? "| [ ] " : "| ";
                out += shown(cell.text);
                if (!cell.note.empty()) out += " (" + shown(cell.note) + ")";
                for (const StyledText& choice : cell.choices) out += " [ ] " + shown(choice);
                for (const Tool& tool : cell.tools) {
                    constexpr const char* kinds[] = {"scoop", "jug", "syringe", "scale"};
                    out += fmt::format(" [{} {} x {:.2f}]", tool.times,
                                       kinds[static_cast<int>(tool.kind)], tool.size);
                }
                out += " ";
            }
            out += "|\n";
        }
    }
    void operator()(const FillIn& fill_in) const {
        out += columns(fill_in.columns);
        out += "| ____ x " + std::to_string(fill_in.lines) + "\n";
    }
    void operator()(const Columns& side_by_side) const {
        for (const auto& part : side_by_side.parts) {
            out += ": " + shown(part.heading) + "\n";
            for (const StyledText& line : part.lines) out += "    " + shown(line) + "\n";
        }
    }
    void operator()(const Plots& plots) const {
        for (const Plot& plot : plots.plots) {
            out += "[plot] " + shown(plot.title) + "\n";
            if (!plot.note.empty()) out += "    " + shown(plot.note) + "\n";
        }
    }
    void operator()(const PlotKey& key) const {
        for (const auto& entry : key.entries) out += "[key] " + shown(entry.text) + "\n";
    }
    void operator()(const FloorDrawing& floor) const {
        for (const auto& room : floor.rooms) out += "[room] " + shown(room.name) + "\n";
        if (!floor.walk.empty()) out += fmt::format("[walk] {} points\n", floor.walk.size());
        for (const auto& spot : floor.spots) {
            constexpr const char* marks[] = {"disc", "ring", "triangle", "cross", "square"};
            out += fmt::format("[{}] {} at {:g}, {:g}\n", marks[static_cast<int>(spot.mark)],
                               spot.name, spot.at.x, spot.at.y);
        }
    }
    void operator()(const Signs& signs) const {
        for (const auto& entry : signs.entries) {
            if (entry.lines.empty()) out += "[sign] " + shown(entry.text) + "\n";
            for (const auto& line : entry.lines) out += "[sign] " + shown(line) + "\n";
        }
    }
    void operator()(const Code& code) const {
        out += "[code] " + code.content + "\n";
        for (const StyledText& line : code.lines) out += shown(line) + "\n";
    }
    void operator()(const ContainerDrawings& drawings) const {
        for (const ContainerDrawing& one : drawings.drawings) {
            out +=
                fmt::format("[container {:g} x {:g} mm, filled to {:.1f} mm, {} holes of {:g} mm] ",
                            one.width_mm, one.height_mm, one.filled * one.height_mm, one.side_holes,
                            one.hole_mm) +
                shown(one.title) + "\n";
            for (const StyledText* part : {&one.lid, &one.holes, &one.label, &one.fill, &one.note})
                if (!part->empty()) out += "    " + shown(*part) + "\n";
        }
    }
    void operator()(const Beside& beside) const {
        (*this)(beside.left);
        (*this)(beside.right);
    }
    void operator()(const std::shared_ptr<const Group>& group) const {
        for (const Block& block : group->blocks) std::visit(*this, block);
    }
};

}  // namespace

std::string plain_text(const Sheet& sheet) {
    std::string text =
        "==== " + sheet.bookmark + "\n" + shown(sheet.kicker) + "\n# " + shown(sheet.title);
    if (!sheet.aside.empty()) text += " >> " + shown(sheet.aside);
    text += "\n";
    for (const Block& block : sheet.blocks) std::visit(Print{text}, block);
    text += "\n-- " + shown(sheet.footer_left);
    if (!sheet.footer_right.empty()) text += " >> " + shown(sheet.footer_right);
    return text + "\n";
}

std::string plain_text(const Document& document) {
    std::string text = document.title + " (" + document.language + ")";
    if (!document.author.empty()) text += ", " + document.author;
    text += "\n";
    for (const Sheet& sheet : document.sheets) text += "\n" + plain_text(sheet);
    return text;
}

}  // namespace gallipot::document
