#include "papers/layout/mirror.hpp"

#include <algorithm>
#include <map>

namespace gallipot::layout {

namespace {

struct Mirror {
    double width;

    void operator()(Point& point) const { point.x = width - point.x; }
    void operator()(Box& box) const { box.x = width - box.right(); }
    void operator()(Line& line) const {
        (*this)(line.from);
        (*this)(line.to);
    }
    void operator()(Rectangle& rectangle) const { (*this)(rectangle.box); }
    void operator()(Path& path) const {
        for (PathStep& step : path.steps) {
            (*this)(step.a);
            (*this)(step.b);
            (*this)(step.c);
        }
    }
    void operator()(Code& code) const { (*this)(code.box); }
    void operator()(Text& text) const { text.origin.x = width - text.origin.x - text.width; }
};

/// Items that keep their places among themselves.
struct Together {
    std::vector<std::size_t> items;
    double left = 0, right = 0;

    void add(std::size_t item, const Box& bounds) {
        left = items.empty() ? bounds.x : std::min(left, bounds.x);
        right = items.empty() ? bounds.right() : std::max(right, bounds.right());
        items.push_back(item);
    }
};

/// The figure that a tag lies in; -1: none.
int figure_of(const Tags& tags, int tag) {
    while (tag >= 0 && tags[static_cast<std::size_t>(tag)].role != Role::figure)
        tag = tags[static_cast<std::size_t>(tag)].parent;
    return tag;
}

}  // namespace

void mirror(Box& box, double width) {
    Mirror{width}(box);
}

void mirror(std::vector<Item>& items, const std::vector<int>& figures, double width) {
    std::vector<Together> pieces;
    std::map<int, std::size_t> piece_of;  // of a figure
    bool in_line = false;                 // of text, the last of the pieces
    const auto turn = [&](Item& item) {
        std::visit(Mirror{width}, item.shape);
        Mirror{width}(item.bounds);
    };
    for (std::size_t i = 0; i < items.size(); ++i) {
        const auto* text = std::get_if<Text>(&items[i].shape);
        if (figures[i] >= 0) {
            const auto [at, is_new] = piece_of.try_emplace(figures[i], pieces.size());
            if (is_new) pieces.emplace_back();
            pieces[at->second].add(i, items[i].bounds);
            in_line = false;
        } else if (text != nullptr) {
            if (!in_line || !text->goes_on) pieces.emplace_back();
            pieces.back().add(i, items[i].bounds);
            in_line = true;
        } else {
            turn(items[i]);
            in_line = false;
        }
    }
    for (const Together& piece : pieces)
        for (const std::size_t item : piece.items)
            move(items[item], width - piece.right - piece.left, 0);
}

void mirror(Page& page) {
    std::vector<int> figures;
    figures.reserve(page.items.size());
    for (const Item& item : page.items) figures.push_back(figure_of(page.tags, item.tag));
    mirror(page.items, figures, page.size.width);
    for (Link& link : page.links) mirror(link.box, page.size.width);
}

}  // namespace gallipot::layout
