#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

#include "papers/layout/ink.hpp"
#include "papers/layout/label_fitter.hpp"
#include "papers/layout/labels.hpp"
#include "papers/layout/sheet_marks.hpp"
#include "papers/layout/wrap_picture.hpp"

namespace gallipot::layout {

namespace {

using document::Label;
using units::in_mm;

/// One label's items on a page.
class Placer {
  public:
    Placer(Page& page, const Label& label, Point at) : page_(page), label_(label), at_(at) {
        groups_.fill(-1);
    }

    void place(const Fitted& fitted, const fonts::Faces& faces) {
        page_.items.reserve(page_.items.size() + fitted.drawn.items.size() + 4);
        // All its words are one piece: of ten thousand labels every piece counts.
        tag_ = add_tag(page_.tags, {Role::paragraph, -1, {}, {}});
        stamp(fitted.drawn, is_main);
        if (!fitted.drawn.ids.empty()) add_ids(fitted.drawn, faces);
        if (!fitted.drawn.places.empty()) add_places(fitted.drawn, faces);
        if (const auto second = std::ranges::find_if(fitted.drawn.items, is_second);
            second != fitted.drawn.items.end()) {
            tag_ = add_tag(page_.tags, {Role::paragraph, -1, {}, {}, language_of(*second)});
            stamp(fitted.drawn, is_second);
        }
        if (std::ranges::any_of(fitted.drawn.items, is_picture)) {
            tag_ = add_tag(page_.tags, {Role::figure, -1, {}, label_.body->pictograms_say});
            stamp(fitted.drawn, is_picture);
        }
        if (fitted.drawn.codes.empty()) return;
        tag_ = add_tag(page_.tags, {Role::figure, -1, {}, label_.body->code_says});
        const auto symbol = std::make_shared<const qr::Symbol>(code_of(label_));
        for (const auto& box : fitted.drawn.codes) add(item(Code{box, symbol}), code_kind);
    }

  private:
    static bool is_picture(const Item& one) { return one.group == pictogram_kind; }

    /// What is said in the label's second language.
    static bool is_second(const Item& one) { return !language_of(one).empty(); }
    static bool is_main(const Item& one) { return !is_picture(one) && !is_second(one); }
    static std::string language_of(const Item& one) {
        const auto* text = std::get_if<Text>(&one.shape);
        return text == nullptr ? std::string() : text->language;
    }

    /// Those items of a drawing.
    void stamp(const Drawn& drawn, bool (*wanted)(const Item&)) {
        Stamp stamp{nullptr, page_.items.size(), 0, at_};
        for (const auto& one : drawn.items) {
            if (!wanted(one)) continue;
            if (stamp.drawing == nullptr) stamp.drawing = &one;
            add(one, one.group);
        }
        stamp.end = page_.items.size();
        if (stamp.drawing != nullptr) page_.stamps.push_back(stamp);
    }

    void add(Item made, int kind) {
        auto& group = groups_.at(static_cast<std::size_t>(kind));
        if (group < 0) {
            group = static_cast<int>(page_.groups.size());
            page_.groups.push_back(fmt::format("label {}/{}", label_.name, kind_name(kind)));
        }
        made.group = group;
        made.tag = tag_;
        move(made, at_.x, at_.y);
        page_.items.push_back(std::move(made));
    }

    void add_ids(const Drawn& drawn, const fonts::Faces& faces) {
        const MeasuredText words(in_bold(label_.id), faces, label_.body->language,
                                 fmt::format("label {}, id", label_.name));
        for (std::size_t i = 0; i < drawn.ids.size(); ++i) {
            const auto& at = drawn.ids[i];
            const Type type{at.size, at.size, at.alignment, drawn.id_colours[i], false};
            for (auto made : set(words, at.room.width + 0.01, type, "id").items) {
                move(made, at.room.x, at.room.bottom());
                add(std::move(made), static_cast<int>(document::Part::id));
            }
        }
    }

    void add_places(const Drawn& drawn, const fonts::Faces& faces) {
        for (const auto& at : drawn.places) {
            double baseline = at.baseline;
            Measure measure = at.measure;
            for (const auto& line : label_.place) {
                const MeasuredText words(line, faces, label_.body->language,
                                         fmt::format("label {}, place", label_.name));
                Type type{at.size, at.leading / mm_per_point, at.alignment, black, false};
                if (type.alignment != Alignment::centre)
                    type.alignment = words.begins_at_right() ? Alignment::right : Alignment::left;
                const auto setting = set(words, measure, type, "place");
                for (auto made : setting.items) {
                    move(made, at.left, baseline);
                    add(std::move(made), static_cast<int>(document::Part::place));
                }
                baseline += setting.lines * at.leading;
                measure = measure.below(setting.lines);
            }
        }
    }

    Page& page_;
    const Label& label_;
    Point at_;
    int tag_ = -1;  ///< of what is added next
    std::array<int, kinds> groups_{};
};

void add_bookmarks(Paper& paper, std::vector<std::string>& open, const Label& label, double top) {
    std::size_t same = 0;
    while (same < open.size() && same < label.section.size() && open[same] == label.section[same])
        ++same;
    for (std::size_t level = same; level < label.section.size(); ++level)
        paper.bookmarks.push_back({label.section[level], static_cast<int>(paper.pages.size()) - 1,
                                   top, static_cast<int>(level)});
    open = label.section;
}

/// What the stock leaves white at the right of a strip.
Box beside_strip(const templates::Stock& stock, const Box& strip) {
    constexpr double clear = 9;  // mm: beyond the marks to cut along
    const double right = strip.x + in_mm(stock.label_width);
    return {strip.right() + clear, strip.y, right - strip.right() - clear, strip.height};
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

struct LabelImposer::Impl {
    Impl(LabelStock on, const fonts::Faces& faces, const LabelOptions& how)
        : stock(std::move(on)), options(how), fitter(stock, faces) {}

    LabelStock stock;
    LabelOptions options;
    LabelFitter fitter;
};

LabelImposer::LabelImposer(LabelStock stock, const fonts::Faces& faces,
                           const LabelOptions& options) {
    check_options(stock.stock, options);
    impl_ = std::make_unique<Impl>(std::move(stock), faces, options);
}

LabelImposer::~LabelImposer() = default;

const LabelStock& LabelImposer::stock() const {
    return impl_->stock;
}
const LabelOptions& LabelImposer::options() const {
    return impl_->options;
}

std::vector<std::size_t> LabelImposer::gather(const document::Labels& labels) {
    std::vector<std::size_t> numbers;
    numbers.reserve(labels.labels.size());
    for (const auto& label : labels.labels) numbers.push_back(impl_->fitter.gather(label));
    return numbers;
}

LabelSetting LabelImposer::setting(std::size_t number) {
    const auto& fitting = impl_->fitter(number);
    if (const auto* fitted = std::get_if<Fitted>(&fitting)) return {fitted->report, nullptr};
    return {nullptr, std::get<1>(fitting)};
}

std::vector<LabelSetting> LabelImposer::fit(const document::Labels& labels) {
    std::vector<LabelSetting> settings;
    settings.reserve(labels.labels.size());
    for (const std::size_t number : gather(labels)) settings.push_back(setting(number));
    return settings;
}

LabelSheets LabelImposer::place(const document::Labels& labels) const {
    const auto copies = static_cast<std::size_t>(impl_->options.copies);
    return place(labels, {0, labels.labels.size() * copies, true});
}

LabelSheets LabelImposer::place(const document::Labels& labels, const Volume& volume) const {
    const auto& stock = impl_->stock.stock;
    const auto copies = static_cast<std::size_t>(impl_->options.copies);
    LabelSheets made;
    made.paper.title = labels.title;
    made.paper.author = labels.author;
    made.paper.language = labels.language;
    std::vector<std::string> open;
    std::size_t pictured = 0;  // pages that show how to wrap a strip, counted
    int next = volume.first_of_all ? impl_->options.start_at - 1 : 0;
    for (std::size_t copy = volume.first; copy < volume.end; ++copy) {
        const auto& label = labels.labels.at(copy / copies);
        const auto& fitted = std::get<Fitted>(impl_->fitter.known(label));
        const int on_page = next++ % stock.per_page();
        if (made.paper.pages.empty() || on_page == 0) {
            made.paper.pages.emplace_back();
            made.paper.pages.back().size = {in_mm(stock.page_width), in_mm(stock.page_height)};
        }
        Point at = position(stock, on_page);
        at.x += impl_->options.offset.x;
        at.y += impl_->options.offset.y;
        const Box box{at.x, at.y, fitted.size.width, fitted.size.height};
        auto& page = made.paper.pages.back();
        Placer(page, label, at).place(fitted, impl_->fitter.faces());
        if (stock.cut_marks) add_cut_marks(page, stock, box);
        // Once a page, at the right of the first that leaves room for it.
        const bool new_page = page.items.size() != 0 && pictured != made.paper.pages.size();
        if (stock.shape == templates::Shape::strip && new_page &&
            add_wrap_picture(page, beside_strip(stock, box)))
            pictured = made.paper.pages.size();
        add_bookmarks(made.paper, open, label, at.y);
        made.labels.push_back(
            {label.name, static_cast<int>(made.paper.pages.size()) - 1, box, fitted.report});
    }
    if (impl_->options.light_ink) lighten(made.paper);
    return made;
}

std::vector<std::shared_ptr<const LabelReport>> fit_labels(const document::Labels& labels,
                                                           const LabelStock& stock,
                                                           const fonts::Faces& faces) {
    std::vector<std::shared_ptr<const LabelReport>> reports;
    for (auto& setting : LabelImposer(stock, faces).fit(labels))
        reports.push_back(std::move(setting.report));
    return reports;
}

LabelSheets place_labels(const document::Labels& labels, const LabelStock& stock,
                         const fonts::Faces& faces, const LabelOptions& options,
                         const std::vector<LabelStock>& others) {
    LabelImposer imposer(stock, faces, options);
    const auto settings = imposer.fit(labels);
    std::vector<Overflow> overflows;
    for (std::size_t i = 0; i < settings.size(); ++i) {
        if (settings[i].overflow == nullptr) continue;
        const LabelMisfit misfit{settings[i].overflow.get(), &labels.labels[i]};
        overflows.push_back(
            describe(std::span(&misfit, 1), labels.labels[i].name, stock, faces, others));
    }
    if (!overflows.empty()) throw LayoutError(std::move(overflows));
    return imposer.place(labels);
}

}  // namespace gallipot::layout
