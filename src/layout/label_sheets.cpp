#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

#include "layout/label_fitter.hpp"
#include "layout/labels.hpp"
#include "layout/misfit.hpp"
#include "layout/sheet_marks.hpp"

namespace gallipot::layout {

namespace {

using document::Label;
using units::in_mm;

/// Where labels go, row by row.
class Sheets {
  public:
    Sheets(const templates::Stock& stock, const LabelOptions& options)
        : stock_(stock), options_(options), next_(options.start_at - 1) {}

    /// The next label's top left corner, on a page that is begun when there is none yet.
    Point next(Paper& paper) {
        const int on_page = next_ % stock_.per_page();
        if (paper.pages.empty() || (on_page == 0 && placed_)) {
            paper.pages.emplace_back();
            paper.pages.back().size = {in_mm(stock_.page_width), in_mm(stock_.page_height)};
        }
        placed_ = true;
        ++next_;
        Point at = position(stock_, on_page);
        at.x += options_.offset.x;
        at.y += options_.offset.y;
        return at;
    }

  private:
    const templates::Stock& stock_;
    const LabelOptions& options_;
    int next_;
    bool placed_ = false;
};

/// One label's items on a page.
class Placer {
  public:
    Placer(Page& page, const Label& label, Point at) : page_(page), label_(label), at_(at) {
        groups_.fill(-1);
    }

    void place(const Fitted& fitted, LabelFitter& fitter) {
        page_.items.reserve(page_.items.size() + fitted.drawn.items.size() + 4);
        for (const auto& one : fitted.drawn.items) add(one, one.group);
        for (std::size_t i = 0; i < fitted.drawn.ids.size(); ++i)
            add_id(fitted.drawn.ids[i], fitted.drawn.id_colours[i], fitter.id(label_));
        for (const auto& box : fitted.drawn.codes) {
            const auto& symbol = fitter.symbol(label_);
            add(item(Code{box, symbol.modules, symbol.dark, symbol.content}), code_kind);
        }
    }

  private:
    void add(Item made, int kind) {
        auto& group = groups_.at(static_cast<std::size_t>(kind));
        if (group < 0) {
            group = static_cast<int>(page_.groups.size());
            page_.groups.push_back(fmt::format("label {}/{}", label_.name, kind_name(kind)));
        }
        made.group = group;
        move(made, at_.x, at_.y);
        page_.items.push_back(std::move(made));
    }

    void add_id(const BandText& room, Colour colour, const Words& words) {
        const Type type{room.size, room.size, room.alignment, colour, false};
        for (auto made : set(words, room.room.width + 0.01, type, "id").items) {
            move(made, room.room.x, room.room.bottom());
            add(std::move(made), static_cast<int>(document::Part::id));
        }
    }

    Page& page_;
    const Label& label_;
    Point at_;
    std::array<int, kinds> groups_{};
};

std::string in_size(const Size& size) {
    return fmt::format("{:.1f} x {:.1f} mm", size.width, size.height);
}

/// Which other stock would do: of those on the same page size, else of all, the smallest label.
const LabelStock* nearest(const Label& label, const LabelStock& stock, const fonts::Faces& faces,
                          const std::vector<LabelStock>& others) {
    std::vector<const LabelStock*> sorted;
    for (const auto& other : others)
        if (other.stock.name != stock.stock.name) sorted.push_back(&other);
    const auto rank = [&](const LabelStock& other) {
        const bool same_page = other.stock.page_width == stock.stock.page_width &&
                               other.stock.page_height == stock.stock.page_height;
        const bool same_shape = other.stock.shape == stock.stock.shape;
        return (same_page ? 0 : 2) + (same_shape ? 0 : 1);
    };
    std::stable_sort(sorted.begin(), sorted.end(), [&](const auto* a, const auto* b) {
        const auto area = [](const LabelStock& s) {
            return (s.stock.label_width * s.stock.label_height).si();
        };
        return std::pair(rank(*a), area(*a)) < std::pair(rank(*b), area(*b));
    });
    for (const auto* other : sorted) {
        LabelFitter fitter(*other, faces);
        try {
            if (std::holds_alternative<Fitted>(fitter(label))) return other;
        } catch (const LayoutError&) {
            // A design that leaves out a part will not do.
        }
    }
    return nullptr;
}

Misfit misfit(const Label& label, const Unfit& unfit, const LabelStock& stock,
              const fonts::Faces& faces, const std::vector<LabelStock>& others) {
    const auto& lack = unfit.lack;
    const Size needed{unfit.size.width + lack.width, unfit.size.height + lack.height};
    const bool wider = lack.width > 1e-6, higher = lack.height > 1e-6;
    std::string by;
    if (wider) by += fmt::format("{:.1f} mm in width", lack.width);
    if (wider && higher) by += " and ";
    if (higher) by += fmt::format("{:.1f} mm in height", lack.height);
    const auto* other = nearest(label, stock, faces, others);
    Misfit made;
    made.what = fmt::format("label {} on {}", label.name, stock.stock.name);
    made.problem =
        fmt::format("at the least sizes permitted ({:.1f} pt) it lacks {} of {}; it needs about {}",
                    unfit.least_points, by, in_size(unfit.size), in_size(needed));
    made.remedy = other != nullptr ? fmt::format("use {} ({})", other->stock.name,
                                                 in_size({in_mm(other->stock.label_width),
                                                          in_mm(other->stock.label_height)}))
                                   : "use larger labels, or write titles and names shorter";
    made.needed = higher ? needed.height : needed.width;
    made.available = higher ? unfit.size.height : unfit.size.width;
    return made;
}

void add_bookmarks(Paper& paper, std::vector<std::string>& open, const Label& label, double top) {
    std::size_t same = 0;
    while (same < open.size() && same < label.section.size() && open[same] == label.section[same])
        ++same;
    for (std::size_t level = same; level < label.section.size(); ++level)
        paper.bookmarks.push_back({label.section[level], static_cast<int>(paper.pages.size()) - 1,
                                   top, static_cast<int>(level)});
    open = label.section;
}

void check_options(const templates::Stock& stock, const LabelOptions& options) {
    if (options.start_at < 1 || options.start_at > stock.per_page())
        throw LayoutError(
            {{fmt::format("stock {}", stock.name),
              fmt::format("it has positions 1 to {}, not {}", stock.per_page(), options.start_at),
              "start at one of these", 0, 0}});
    const double clear = in_mm(stock.clear);
    const Point first = position(stock, 0);
    const Point last = position(stock, stock.per_page() - 1);
    const double left = first.x + clear + options.offset.x,
                 top = first.y + clear + options.offset.y;
    const double right = last.x + in_mm(stock.label_width) - clear + options.offset.x;
    const double bottom = last.y + in_mm(stock.label_height) - clear + options.offset.y;
    const double over =
        std::max({-left, -top, right - in_mm(stock.page_width), bottom - in_mm(stock.page_height)});
    if (over > 1e-6)
        throw LayoutError({{fmt::format("stock {}", stock.name),
                            fmt::format("an offset of {:g}, {:g} mm moves labels {:.1f} mm off the "
                                        "page",
                                        options.offset.x, options.offset.y, over),
                            fmt::format("move them {:.1f} mm less", over), over, 0}});
}

}  // namespace

Point position(const templates::Stock& stock, int index) {
    const int column = index % stock.columns, row = index / stock.columns;
    return {in_mm(stock.left + column * (stock.label_width + stock.gap_across)),
            in_mm(stock.top + row * (stock.label_height + stock.gap_down))};
}

std::vector<std::shared_ptr<const LabelReport>> fit_labels(const document::Labels& labels,
                                                           const LabelStock& stock,
                                                           const fonts::Faces& faces) {
    LabelFitter fitter(stock, faces);
    std::vector<std::shared_ptr<const LabelReport>> reports;
    for (const auto& label : labels.labels) {
        const auto* fitted = std::get_if<Fitted>(&fitter(label));
        const bool short_enough =
            fitted != nullptr && fitted->size.width <= in_mm(stock.stock.label_width) + 1e-6;
        reports.push_back(short_enough ? fitted->report : nullptr);
    }
    return reports;
}

LabelSheets place_labels(const document::Labels& labels, const LabelStock& stock,
                         const fonts::Faces& faces, const LabelOptions& options,
                         const std::vector<LabelStock>& others) {
    check_options(stock.stock, options);
    LabelSheets made;
    made.paper.title = labels.title;
    made.paper.author = labels.author;
    made.paper.language = labels.language;
    LabelFitter fitter(stock, faces);
    Sheets sheets(stock.stock, options);
    std::vector<Misfit> misfits;
    std::vector<std::string> open;
    for (const auto& label : labels.labels) {
        const auto& result = fitter(label);
        if (const auto* unfit = std::get_if<Unfit>(&result)) {
            misfits.push_back(misfit(label, *unfit, stock, faces, others));
            continue;
        }
        const auto& fitted = std::get<Fitted>(result);
        if (fitted.size.width > in_mm(stock.stock.label_width) + 1e-6) {
            misfits.push_back(misfit(label,
                                     {{fitted.size.width - in_mm(stock.stock.label_width), 0},
                                      {in_mm(stock.stock.label_width), fitted.size.height},
                                      fitted.report->type_points},
                                     stock, faces, others));
            continue;
        }
        for (int copy = 0; copy < options.copies; ++copy) {
            const Point at = sheets.next(made.paper);
            const Box box{at.x, at.y, fitted.size.width, fitted.size.height};
            auto& page = made.paper.pages.back();
            Placer(page, label, at).place(fitted, fitter);
            if (stock.stock.cut_marks) add_cut_marks(page, stock.stock, box);
            add_bookmarks(made.paper, open, label, at.y);
            made.labels.push_back(
                {label.name, static_cast<int>(made.paper.pages.size()) - 1, box, fitted.report});
        }
    }
    if (!misfits.empty()) throw LayoutError(std::move(misfits));
    return made;
}

}  // namespace gallipot::layout
