#include "cli/show.hpp"

#include <cmath>
#include <fmt/format.h>
#include <variant>

#include "base/diag/utf8.hpp"

namespace gallipot::cli {
namespace {

using layout::Item;
using layout::Page;
using layout::Text;

/// What a shape is, in a word, and what else is to be said of it.
struct Describe {
    std::string operator()(const Text& text) const {
        return fmt::format("text {:.1f} pt {} \"{}\"", text.size,
                           text.face == layout::Face::bold ? "bold" : "regular",
                           diag::printable(text.text));
    }
    std::string operator()(const layout::Line& line) const {
        return fmt::format("line {:.2f} mm", line.width);
    }
    std::string operator()(const layout::Rectangle& box) const {
        return box.filled ? "filled box" : fmt::format("box {:.2f} mm", box.line_width);
    }
    std::string operator()(const layout::Path& path) const {
        return fmt::format("path of {} steps", path.steps.size());
    }
    std::string operator()(const layout::Code&) const { return "code"; }
};

std::string group_of(const Page& page, const Item& item) {
    return item.group < 0 ? std::string("-") : page.groups.at(static_cast<std::size_t>(item.group));
}

std::string boxes(const Page& page) {
    std::string out;
    for (const Item& item : page.items)
        out += fmt::format("{:7.2f} {:7.2f}  {:6.2f} x {:6.2f}  {}  [{}]\n", item.bounds.x,
                           item.bounds.y, item.bounds.width, item.bounds.height,
                           std::visit(Describe{}, item.shape), group_of(page, item));
    return out;
}

std::string text(const Page& page) {
    constexpr double same_line = 0.1;  // millimetres
    std::string out;
    const Text* before = nullptr;
    for (const Item& item : page.items) {
        const Text* run = std::get_if<Text>(&item.shape);
        if (run == nullptr) continue;
        const bool goes_on = before != nullptr &&
                             std::abs(before->origin.y - run->origin.y) < same_line &&
                             run->origin.x >= before->origin.x;
        const double gap = goes_on ? run->origin.x - before->origin.x - before->width : 0;
        if (before != nullptr) out += !goes_on ? "\n" : gap > same_line ? " " : "";
        out += diag::printable(run->text);
        before = run;
    }
    return before == nullptr ? out : out + '\n';
}

template <class Show>
std::string each_page(const app::Papers& papers, Show show) {
    std::string out;
    const auto add = [&](const std::string& file, const layout::Paper& paper) {
        for (std::size_t i = 0; i < paper.pages.size(); ++i) {
            const Page& page = paper.pages[i];
            out += fmt::format("== {}, page {} of {} ({:g} x {:g} mm)\n", diag::printable(file),
                               i + 1, paper.pages.size(), page.size.width, page.size.height);
            out += show(page);
        }
    };
    for (const app::NamedPaper& each : papers.all) add(each.file, each.paper);
    for (const app::LabelRun& run : papers.labels)
        for (std::size_t volume = 0; volume < run.volumes(); ++volume)
            add(run.file(volume), run.paper(volume));
    return out;
}

}  // namespace

std::string papers_as_text(const app::Papers& papers) {
    return each_page(papers, text);
}

std::string papers_as_boxes(const app::Papers& papers) {
    return each_page(papers, boxes);
}

}  // namespace gallipot::cli
