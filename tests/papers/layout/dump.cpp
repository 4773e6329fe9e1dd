#include "papers/layout/dump.hpp"

#include <fmt/format.h>
#include <iterator>

namespace gallipot::layout {

namespace {

/// Writes the items of a page, one a line.
class Writer {
  public:
    explicit Writer(std::string& out) : out_(&out) {}

    void page(std::size_t number, const Page& page) {
        add("page {} {:.2f} x {:.2f}\n", number, page.size.width, page.size.height);
        int group = -2;
        for (const Item& item : page.items) {
            if (item.group != group) {
                group = item.group;
                add("  [{}]\n",
                    group < 0 ? "no group" : page.groups[static_cast<std::size_t>(group)].c_str());
            }
            std::visit(*this, item.shape);
            add("{}\n", item.backdrop ? " backdrop" : "");
        }
    }

    void operator()(const Text& text) const {
        add("    text {:.2f} {:.2f} width {:.2f} {:g} pt{}{} \"{}\"", text.origin.x, text.origin.y,
            text.width, text.size, text.face == Face::bold ? " bold" : "", colour(text.colour),
            text.text);
    }
    void operator()(const Line& line) const {
        add("    line {:.2f} {:.2f} to {:.2f} {:.2f} width {:.2f}{}", line.from.x, line.from.y,
            line.to.x, line.to.y, line.width, colour(line.colour));
    }
    void operator()(const Rectangle& rectangle) const {
        add("    rectangle {} ", box(rectangle.box));
        if (rectangle.filled) {
            add("filled");
        } else {
            add("outlined {:.2f}", rectangle.line_width);
        }
        if (rectangle.radius > 0) add(" radius {:.2f}", rectangle.radius);
        add("{}", colour(rectangle.colour));
    }
    void operator()(const Path& path) const {
        add("    path {}{}",
            path.filled ? "filled" : fmt::format("stroked {:.2f}", path.line_width),
            colour(path.colour));
        for (const PathStep& step : path.steps) {
            switch (step.kind) {
                case PathStep::Kind::move:
                    add(" M {:.2f} {:.2f}", step.a.x, step.a.y);
                    break;
                case PathStep::Kind::line:
                    add(" L {:.2f} {:.2f}", step.a.x, step.a.y);
                    break;
                case PathStep::Kind::curve:
                    add(" C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f}", step.a.x, step.a.y,
                        step.b.x, step.b.y, step.c.x, step.c.y);
                    break;
                case PathStep::Kind::close:
                    add(" Z");
                    break;
            }
        }
    }
    void operator()(const Code& code) const {
        add("    code {} {} modules \"{}\"", box(code.box), code.symbol->modules,
            code.symbol->content);
    }

  private:
    template <class... Args>
    void add(fmt::format_string<Args...> pattern, Args&&... args) const {
        fmt::format_to(std::back_inserter(*out_), pattern, std::forward<Args>(args)...);
    }
    static std::string box(const Box& box) {
        return fmt::format("{:.2f} {:.2f} {:.2f} x {:.2f}", box.x, box.y, box.width, box.height);
    }
    static std::string colour(const Colour& colour) {
        if (colour == black) return {};
        return fmt::format(" #{:02x}{:02x}{:02x}", colour.r, colour.g, colour.b);
    }

    std::string* out_;
};

}  // namespace

std::string dump(const Paper& paper) {
    std::string out =
        fmt::format("paper \"{}\" by \"{}\" in {}\n", paper.title, paper.author, paper.language);
    for (const Bookmark& bookmark : paper.bookmarks) {
        fmt::format_to(std::back_inserter(out), "bookmark {}\"{}\" page {} at {:.2f}\n",
                       std::string(2 * static_cast<std::size_t>(bookmark.level), ' '),
                       bookmark.title, bookmark.page + 1, bookmark.top);
    }
    Writer writer(out);
    for (std::size_t i = 0; i < paper.pages.size(); ++i) writer.page(i + 1, paper.pages[i]);
    return out;
}

}  // namespace gallipot::layout
