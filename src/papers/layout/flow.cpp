#include "papers/layout/flow.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <optional>
#include <span>
#include <utility>

#include "papers/layout/blocks.hpp"
#include "papers/layout/mirror.hpp"
#include "papers/layout/paginate.hpp"
#include "papers/layout/title_strip.hpp"
#include "papers/text/direction.hpp"

namespace gallipot::layout {

namespace {

/// One sheet on pages of its own; bookmarks count pages from its first.
struct LaidSheet {
    std::vector<Page> pages;
    std::vector<Bookmark> bookmarks;
    std::vector<Overflow> overflows;
};

class SheetSetter {
  public:
    /// `follower`: a sheet to stand below it; may be null.
    SheetSetter(const document::Sheet& sheet, LayoutContext context,
                const document::Sheet* follower = nullptr)
        : sheet_(sheet),
          follower_(follower),
          context_(std::move(context)),
          style_(context_.style),
          name_(name(sheet)) {}

    /// What need not stand on the front is set in `behind`.
    SheetSetter(const document::Sheet& sheet, LayoutContext context, const PageStyle& behind)
        : SheetSetter(sheet, std::move(context)) {
        behind_ = &behind;
    }

    /// Breaks it into pages, and says how many.
    std::size_t paginate() {
        caught([&] { running_ = running_head(); });
        add_sheet(sheet_, 0);
        if (follower_ != nullptr) add_sheet(*follower_, style_.before_sheet);

        pages_ = paginated(1);
        // Page numbers take room in the footer, and more of them take more.
        for (std::size_t count = 1; pages_.size() > count;) {
            count = pages_.size();
            pages_ = paginated(count);
        }
        return pages_.size();
    }

    /// Whether all that must stand on the first page does. After paginate().
    [[nodiscard]] bool front_fits() const {
        if (!laid_.overflows.empty()) return false;
        std::vector<Overflow> ignored;
        const auto end = sheet_.blocks.begin() +
                         static_cast<std::ptrdiff_t>(std::min(sheet_.front, sheet_.blocks.size()));
        // And the title's.
        const std::size_t needed =
            1 + line_boxes_of({sheet_.blocks.begin(), end}, context_, name_, ignored).size();
        return pages_.front().size() >= needed;
    }

    /// Everything that does not fit. Only for who wants no pages.
    std::vector<Overflow> overflows() {
        for (std::size_t i = 0; i < pages_.size(); ++i)
            caught([&] { static_cast<void>(footer(i + 1, pages_.size())); });
        return std::move(laid_.overflows);
    }

    /// What paginate() made, placed.
    LaidSheet lay() {
        caught([&] { put(); });
        return std::move(laid_);
    }

  private:
    static std::string name(const document::Sheet& sheet) {
        return sheet.bookmark.empty() ? text::plain(sheet.title) : sheet.bookmark;
    }

    void add_sheet(const document::Sheet& sheet, double before) {
        caught([&] {
            const std::string bookmark = name(sheet);
            line_boxes_.push_back(title_strip(sheet, context_, bookmark + title_of));
            line_boxes_.back().bookmark = bookmark;
            line_boxes_.back().before = before;
        });
        LineBoxes blocks =
            behind_ == nullptr
                ? line_boxes_of(sheet.blocks, context_, name(sheet), laid_.overflows)
                : line_boxes_of(sheet.blocks, context_, sheet.front,
                                {*behind_, context_.faces, context_.language, context_.store},
                                name(sheet), laid_.overflows);
        std::move(blocks.begin(), blocks.end(), std::back_inserter(line_boxes_));
    }

    template <class Step>
    void caught(Step step) {
        try {
            step();
        } catch (const LayoutError& error) {
            laid_.overflows.insert(laid_.overflows.end(), error.overflows().begin(),
                                   error.overflows().end());
        }
    }

    /// What stands above the text on a sheet's second and later pages.
    [[nodiscard]] LineBox running_head() const {
        Type type = style_.small;
        type.colour = quiet;
        text::StyledText both = sheet_.kicker;
        if (!both.empty() && !sheet_.title.empty()) both.push_back({" \u00b7 ", false});
        const text::StyledText title = in_bold(sheet_.title);
        both.insert(both.end(), title.begin(), title.end());
        LineBox line_box;
        line_box.name = name_ + ": running head";
        const MeasuredText* words = &context_.words(both, line_box.name);
        // The title alone where both would take two lines.
        if (in_mm(words->unbroken(), type.size) > style_.width()) {
            words = &context_.words(title, line_box.name);
        }
        const TextLayout setting = context_.set(*words, style_.width(), type, line_box.name);
        add(line_box, setting, {0, 0}, context_);
        line_box.height = setting.lines * setting.leading + 3 * PageStyle::step;
        return line_box;
    }

    /// The footer of page `number` of `count`, its rule at the top; 0 high when there is nothing.
    [[nodiscard]] LineBox footer(std::size_t number, std::size_t count) const {
        LineBox line_box;
        line_box.name = name_ + ": footer";
        Type type = style_.small;
        type.colour = quiet;
        const text::StyledText page{
            {count > 1 ? fmt::format("{}\u00a0/\u00a0{}", number, count) : "", true}};
        const MeasuredText& page_words = context_.words(page, line_box.name);
        const MeasuredText& right_words = context_.words(sheet_.footer_right, line_box.name);
        const MeasuredText& left_words = context_.words(sheet_.footer_left, line_box.name);
        if (page_words.empty() && right_words.empty() && left_words.empty()) return line_box;

        // The page number at the right end, before it the right part, and the left part in what
        // they leave. Added from left to right, for the reading order.
        Type right_type = type;
        right_type.alignment = Alignment::right;
        right_type.balanced = true;
        const double page_width = in_mm(page_words.unbroken(), type.size);
        const double right_width =
            std::min(in_mm(right_words.unbroken(), type.size), style_.width() / 2);
        const double right_end =
            style_.width() - (page_words.empty() ? 0 : page_width + style_.gutter);
        const double left_end = right_end - (right_words.empty() ? 0 : right_width + style_.gutter);
        double height = 0;
        const auto put = [&](const MeasuredText& words, double left, double measure,
                             const Type& set_in) {
            const TextLayout setting = set(words, measure, set_in, line_box.name);
            add(line_box, setting, {left, style_.footer_rule_gap}, context_);
            height = std::max(height, setting.lines * setting.leading);
        };
        put(left_words, 0, left_end, type);
        put(right_words, right_end - right_width, right_width, right_type);
        put(page_words, style_.width() - page_width, page_width, right_type);
        line_box.items.push_back(level_line(0, style_.width(), 0, style_.hairline, quiet));
        line_box.height = style_.footer_rule_gap + height;
        return line_box;
    }

    [[nodiscard]] std::vector<PageOfStrips> paginated(std::size_t count) {
        double foot = 0;
        std::vector<Overflow> overflows;
        try {
            foot = footer(count, count).height;
        } catch (const LayoutError&) {
            // Told of once, when the footers are put on the pages.
        }
        if (foot > 0) foot += style_.footer_gap;
        const double area = style_.page.height - style_.margin_top - style_.margin_bottom - foot;
        auto pages = layout::paginate(line_boxes_, area, area - (running_ ? running_->height : 0),
                                      overflows);
        if (pages.size() <= count) {
            laid_.overflows.insert(laid_.overflows.end(), overflows.begin(), overflows.end());
        }
        return pages;
    }

    void put() {
        std::size_t next = 0;  // of strips_
        const auto put_line_box = [&](Page& page, const LineBox& line_box, double top) {
            // A heading that is repeated is none of them, and has been read before.
            if (next == line_boxes_.size() || &line_box != &line_boxes_[next])
                return put_items(page, line_box.name, line_box.items, {}, top);
            LineBox& own = line_boxes_[next++];
            put_items(page, own.name, std::move(own.items), own.tags, top);
        };
        for (std::size_t i = 0; i < pages_.size(); ++i) {
            Page page;
            page.size = style_.page;
            LineBox foot = footer(i + 1, pages_.size());
            page.items.reserve(items_on(i) + foot.items.size());
            double top = style_.margin_top;
            if (i > 0 && running_) {
                put_items(page, running_->name, running_->items, {}, top);
                top += running_->height;
            }
            for (const PlacedStrip& placed : pages_[i]) {
                const LineBox& line_box = *placed.line_box;
                const std::size_t first_tag = page.tags.size();
                const std::string said = line_box.leads_to >= 0 ? said_in(line_box) : "";
                put_line_box(page, line_box, top + placed.top);
                if (line_box.leads_to >= 0)
                    page.links.push_back(
                        {{style_.margin, top + placed.top, style_.width(), line_box.height},
                         {},
                         line_box.leads_to,
                         said,
                         cell_from(page.tags, first_tag)});
                if (line_box.bookmark.empty()) continue;
                const bool of_sheet = line_box.name == line_box.bookmark + title_of;
                laid_.bookmarks.push_back(
                    {line_box.bookmark, static_cast<int>(i), top + placed.top, of_sheet ? 0 : 1});
            }
            put_items(page, foot.name, std::move(foot.items), {},
                      style_.page.height - style_.margin_bottom - foot.height);
            laid_.pages.push_back(std::move(page));
        }
    }

    /// But for the footer's.
    [[nodiscard]] std::size_t items_on(std::size_t page) const {
        std::size_t count = page > 0 && running_ ? running_->items.size() : 0;
        for (const PlacedStrip& placed : pages_[page]) count += placed.line_box->items.size();
        return count;
    }

    /// The first cell among the tags from `first` on; -1 where there is none.
    static int cell_from(const Tags& tags, std::size_t first) {
        for (std::size_t i = first; i < tags.size(); ++i)
            if (tags[i].role == Role::cell) return static_cast<int>(i);
        return -1;
    }

    /// The words of a strip, one after another.
    static std::string said_in(const LineBox& line_box) {
        std::string said;
        for (const Item& item : line_box.items)
            if (const auto* text = std::get_if<Text>(&item.shape))
                said += (said.empty() ? "" : " ") + text->text;
        return said;
    }

    /// Without tags it is decoration to who has the page read.
    void put_items(Page& page, const std::string& line_box, std::vector<Item> items,
                   const Tags& tags, double top) const {
        const auto tag_of = add_tags(page.tags, tags);
        if (items.empty()) return;
        // Lines and boxes first: so the words of a piece of content follow one another.
        std::ranges::stable_partition(items, [](const Item& item) { return item.tag < 0; });
        const int group = group_on(page, line_box);
        for (Item& item : items) {
            move(item, style_.margin, top);
            item.group = group;
            item.tag =
                tags.empty() || item.tag < 0 ? -1 : tag_of[static_cast<std::size_t>(item.tag)];
            page.items.push_back(std::move(item));
        }
    }

    static constexpr const char* title_of = ": title";

    const document::Sheet& sheet_;
    const document::Sheet* follower_;
    LayoutContext context_;
    const PageStyle& style_;
    const PageStyle* behind_ = nullptr;
    std::string name_;
    LineBoxes line_boxes_;
    std::optional<LineBox> running_;
    std::vector<PageOfStrips> pages_;  ///< point into strips_
    LaidSheet laid_;
};

/// Of a sheet of more pages nobody misses one.
constexpr std::size_t few_pages = 12;

/// With its usual spaces, then with less and less: the last is 12 on 14.1 pt.
std::vector<PageStyle> spacings_of(const PageStyle& style, double size) {
    const PageStyle usual = with_text_of(style, size);
    return {usual, tightened(usual, 0.75), tightened(usual, 0.6), tightened(usual, 0.5, 0.94)};
}

/// Sets a sheet in one size after another until it does.
class SizeSearch {
  public:
    SizeSearch(const document::Sheet& sheet, const PageStyle& style, const fonts::Faces& faces,
               const std::string& language, WordStore& store)
        : sheet_(sheet), style_(style), faces_(faces), language_(language), store_(store) {}

    /// In the largest of the sheet's sizes, and there with the widest spaces, that bring what must
    /// be there to the front. Where that takes more pages than it may, what stands behind the front
    /// is set smaller; where it would be too small, all of it is. Where nothing helps, the front
    /// goes before the number of pages.
    LaidSheet operator()() {
        const std::vector<double>& sizes = sheet_.sizes;
        auto largest = sizes.begin();
        while (!attempt(*largest, *largest) && !best_ && largest + 1 != sizes.end()) ++largest;
        if (done_) return std::move(*best_);
        const PageStyle smallest = spacings_of(style_, sizes.back()).back();
        SheetSetter least(sheet_, {smallest, faces_, language_, store_});
        const std::size_t least_pages = least.paginate();
        if (!best_) return least.lay();
        if (least_pages > sheet_.most_pages) return std::move(*best_);
        for (auto behind = largest + 1; sheet_.front > 0 && behind != sizes.end(); ++behind)
            if (*behind >= sheet_.least_behind && attempt(*largest, *behind)) break;
        for (auto all = largest + 1; all != sizes.end(); ++all)
            if (attempt(*all, *all)) break;
        return std::move(*best_);
    }

  private:
    /// With the widest spaces that will do. Whether it is what is wanted, now or before.
    bool attempt(double size, double size_behind) {
        if (done_) return true;
        const auto fronts = spacings_of(style_, size), behind = spacings_of(style_, size_behind);
        for (std::size_t i = 0; i < fronts.size() && !done_; ++i) {
            SheetSetter setter(sheet_, {fronts[i], faces_, language_, store_}, behind[i]);
            const std::size_t pages = setter.paginate();
            if (!setter.front_fits()) continue;
            done_ = sheet_.most_pages == 0 || pages <= sheet_.most_pages;
            if (done_ || !best_) best_ = setter.lay();
        }
        return done_;
    }

    const document::Sheet& sheet_;
    const PageStyle& style_;
    const fonts::Faces& faces_;
    const std::string& language_;
    WordStore& store_;
    std::optional<LaidSheet> best_;
    bool done_ = false;
};

/// What a sheet that just misses a page is tried in: the last is 9.5 on 12.2 pt, still wider than
/// type is set solid, by a quarter.
std::vector<PageStyle> tighter_than(const PageStyle& style) {
    std::vector<PageStyle> all{in_columns(style)};
    for (const PageStyle& tight :
         {tightened(style, 0.75), tightened(style, 0.6), tightened(style, 0.5, 0.94)})
        all.insert(all.end(), {tight, in_columns(tight)});
    return all;
}

/// With the style's spaces, or with as little tightened ones as save one of a few pages.
LaidSheet lay_sheet(const document::Sheet& sheet, const PageStyle& style, const fonts::Faces& faces,
                    const std::string& language, WordStore& store) {
    if (!sheet.sizes.empty()) return SizeSearch(sheet, style, faces, language, store)();
    SheetSetter usual(sheet, {style, faces, language, store});
    const std::size_t pages = usual.paginate();
    if (pages < 2 || pages > few_pages) return usual.lay();
    for (const PageStyle& tight : tighter_than(style)) {
        SheetSetter tighter(sheet, {tight, faces, language, store});
        if (tighter.paginate() < pages) return tighter.lay();
    }
    return usual.lay();
}

/// Both in one, where that takes no page more than the first alone.
std::optional<LaidSheet> lay_together(const document::Sheet& first, std::size_t pages,
                                      const document::Sheet& follower, const PageStyle& style,
                                      const fonts::Faces& faces, const std::string& language,
                                      WordStore& store) {
    std::vector<PageStyle> styles = tighter_than(style);
    styles.insert(styles.begin(), style);
    for (const PageStyle& one : styles) {
        SheetSetter setter(first, {one, faces, language, store}, &follower);
        if (setter.paginate() <= pages) return setter.lay();
    }
    return {};
}

Paper lay_all(const document::Document& document, const PageStyle& style, const fonts::Faces& faces,
              WordStore& store) {
    Paper paper;
    paper.title = document.title;
    paper.author = document.author;
    paper.language = document.language;
    std::vector<Overflow> overflows;
    for (std::size_t i = 0; i < document.sheets.size(); ++i) {
        const document::Sheet& sheet = document.sheets[i];
        LaidSheet laid = lay_sheet(sheet, style, faces, document.language, store);
        if (i + 1 < document.sheets.size() && document.sheets[i + 1].follows) {
            if (auto both = lay_together(sheet, laid.pages.size(), document.sheets[i + 1], style,
                                         faces, document.language, store)) {
                laid = std::move(*both);
                ++i;
            }
        }
        for (Bookmark& bookmark : laid.bookmarks) {
            bookmark.page += static_cast<int>(paper.pages.size());
            paper.bookmarks.push_back(std::move(bookmark));
        }
        // What two sheets call alike is not the same.
        for (Page& page : laid.pages)
            for (Tag& tag : page.tags)
                if (!tag.name.empty())
                    tag.name = fmt::format("{}/{}", paper.pages.size(), tag.name);
        std::move(laid.pages.begin(), laid.pages.end(), std::back_inserter(paper.pages));
        overflows.insert(overflows.end(), laid.overflows.begin(), laid.overflows.end());
    }
    if (!overflows.empty()) throw LayoutError(std::move(overflows));
    return paper;
}

}  // namespace

Paper lay_out(const document::Document& document, const PageStyle& style,
              const fonts::Faces& faces) {
    WordStore store(faces);
    Paper paper = lay_all(document, style, faces, store);
    // All lines alike in a script of high marks, not only those that have them.
    if (const double leading = store.leading_of_most(); leading > 0)
        paper = lay_all(document, with_leading(style, leading), faces, store);
    if (text::runs_right_to_left(document.language))
        for (Page& page : paper.pages) mirror(page);
    return paper;
}

void try_out(const document::Document& document, const PageStyle& style,
             const fonts::Faces& faces) {
    WordStore store(faces);
    const bool fits = std::all_of(
        document.sheets.begin(), document.sheets.end(), [&](const document::Sheet& sheet) {
            const PageStyle smallest =
                sheet.sizes.empty() ? style : with_text_of(style, sheet.sizes.back());
            SheetSetter setter(sheet, {smallest, faces, document.language, store});
            setter.paginate();
            return setter.overflows().empty();
        });
    if (!fits) lay_out(document, style, faces);
}

}  // namespace gallipot::layout
