#include "papers/layout/flow.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <optional>
#include <utility>

#include "papers/layout/blocks.hpp"
#include "papers/layout/paginate.hpp"

namespace gallipot::layout {

namespace {

/// One sheet on pages of its own; bookmarks count pages from its first.
struct LaidSheet {
    std::vector<Page> pages;
    std::vector<Bookmark> bookmarks;
    std::vector<Misfit> misfits;
};

class SheetSetter {
  public:
    SheetSetter(const document::Sheet& sheet, Press press)
        : sheet_(sheet), press_(std::move(press)), style_(press_.style), name_(name(sheet)) {}

    /// Breaks it into pages, and says how many.
    std::size_t paginate() {
        caught([&] { strips_ = title_strips(); });
        caught([&] { running_ = running_head(); });
        Strips blocks = strips_of(sheet_.blocks, press_, name_, laid_.misfits);
        std::move(blocks.begin(), blocks.end(), std::back_inserter(strips_));

        pages_ = paginated(1);
        // Page numbers take room in the footer, and more of them take more.
        for (std::size_t count = 1; pages_.size() > count;) {
            count = pages_.size();
            pages_ = paginated(count);
        }
        return pages_.size();
    }

    /// Everything that does not fit. Only for who wants no pages.
    std::vector<Misfit> misfits() {
        for (std::size_t i = 0; i < pages_.size(); ++i)
            caught([&] { static_cast<void>(footer(i + 1, pages_.size())); });
        return std::move(laid_.misfits);
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

    template <class Step>
    void caught(Step step) {
        try {
            step();
        } catch (const LayoutError& error) {
            laid_.misfits.insert(laid_.misfits.end(), error.misfits().begin(),
                                 error.misfits().end());
        }
    }

    /// Kicker, title and aside, kept with what follows.
    [[nodiscard]] Strips title_strips() const {
        Type kicker_type = style_.small;
        kicker_type.colour = quiet;
        Type title_type = style_.title;
        title_type.balanced = true;
        const std::string name = name_ + ": title";
        Strip strip;
        strip.name = name;
        strip.keep = Keep::always;
        strip.bookmark = name_;

        const Setting kicker = press_.set(sheet_.kicker, style_.width(), kicker_type, name);
        add(strip, kicker, {0, 0}, press_);
        double top = kicker.lines * kicker.leading;
        if (kicker.lines > 0) top += style_.after_kicker;
        const Setting title = press_.set(in_bold(sheet_.title), style_.width(), title_type, name);
        add(strip, title, {0, top}, press_);
        top += title.lines * title.leading;

        const Words& aside = press_.words(sheet_.aside, name);
        Type aside_type = style_.large;
        const double aside_width = in_mm(aside.unbroken(), aside_type.size);
        if (!aside.empty() && title.lines > 0 &&
            title.last_line_width + style_.column_gutter + aside_width <= style_.width()) {
            // On the baseline of the title's last line.
            aside_type.alignment = Alignment::right;
            const Setting setting = press_.set(aside, style_.width(), aside_type, name);
            const double title_baseline = top - title.leading + press_.baseline(title);
            add(strip, setting, {0, title_baseline - press_.baseline(setting)}, press_);
        } else if (!aside.empty()) {
            const Setting setting = press_.set(aside, style_.width(), aside_type, name);
            top += style_.before_aside;
            add(strip, setting, {0, top}, press_);
            top += setting.lines * setting.leading;
        }
        strip.height = top;
        return {strip};
    }

    /// What stands above the text on a sheet's second and later pages.
    [[nodiscard]] Strip running_head() const {
        Type type = style_.small;
        type.colour = quiet;
        text::Runs both = sheet_.kicker;
        if (!both.empty() && !sheet_.title.empty()) both.push_back({" \u00b7 ", false});
        const text::Runs title = in_bold(sheet_.title);
        both.insert(both.end(), title.begin(), title.end());
        Strip strip;
        strip.name = name_ + ": running head";
        const Words* words = &press_.words(both, strip.name);
        // The title alone where both would take two lines.
        if (in_mm(words->unbroken(), type.size) > style_.width()) {
            words = &press_.words(title, strip.name);
        }
        const Setting setting = press_.set(*words, style_.width(), type, strip.name);
        add(strip, setting, {0, 0}, press_);
        strip.height = setting.lines * setting.leading + 3 * PageStyle::step;
        return strip;
    }

    /// The footer of page `number` of `count`, its rule at the top; 0 high when there is nothing.
    [[nodiscard]] Strip footer(std::size_t number, std::size_t count) const {
        Strip strip;
        strip.name = name_ + ": footer";
        Type type = style_.small;
        type.colour = quiet;
        const text::Runs page{
            {count > 1 ? fmt::format("{}\u00a0/\u00a0{}", number, count) : "", true}};
        const Words& page_words = press_.words(page, strip.name);
        const Words& right_words = press_.words(sheet_.footer_right, strip.name);
        const Words& left_words = press_.words(sheet_.footer_left, strip.name);
        if (page_words.empty() && right_words.empty() && left_words.empty()) return strip;

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
        int lines = 0;
        const auto put = [&](const Words& words, double left, double measure, const Type& set_in) {
            const Setting setting = set(words, measure, set_in, strip.name);
            add(strip, setting, {left, style_.footer_rule_gap}, press_);
            lines = std::max(lines, setting.lines);
        };
        put(left_words, 0, left_end, type);
        put(right_words, right_end - right_width, right_width, right_type);
        put(page_words, style_.width() - page_width, page_width, right_type);
        strip.items.push_back(level_line(0, style_.width(), 0, style_.hairline, quiet));
        strip.height = style_.footer_rule_gap + lines * type.leading * mm_per_point;
        return strip;
    }

    [[nodiscard]] std::vector<PageOfStrips> paginated(std::size_t count) {
        double foot = 0;
        std::vector<Misfit> misfits;
        try {
            foot = footer(count, count).height;
        } catch (const LayoutError&) {
            // Told of once, when the footers are put on the pages.
        }
        if (foot > 0) foot += style_.footer_gap;
        const double area = style_.page.height - style_.margin_top - style_.margin_bottom - foot;
        auto pages =
            layout::paginate(strips_, area, area - (running_ ? running_->height : 0), misfits);
        if (pages.size() <= count) {
            laid_.misfits.insert(laid_.misfits.end(), misfits.begin(), misfits.end());
        }
        return pages;
    }

    void put() {
        std::size_t next = 0;  // of strips_
        const auto items_of = [&](const Strip& strip) {
            // A heading that is repeated is none of them.
            if (next == strips_.size() || &strip != &strips_[next]) return strip.items;
            return std::move(strips_[next++].items);
        };
        for (std::size_t i = 0; i < pages_.size(); ++i) {
            Page page;
            page.size = style_.page;
            Strip foot = footer(i + 1, pages_.size());
            page.items.reserve(items_on(i) + foot.items.size());
            double top = style_.margin_top;
            if (i > 0 && running_) {
                put_items(page, running_->name, running_->items, top);
                top += running_->height;
            }
            for (const PlacedStrip& placed : pages_[i]) {
                const Strip& strip = *placed.strip;
                put_items(page, strip.name, items_of(strip), top + placed.top);
                if (strip.bookmark.empty()) continue;
                const bool of_sheet = i == 0 && &strip == pages_[0].front().strip;
                laid_.bookmarks.push_back(
                    {strip.bookmark, static_cast<int>(i), top + placed.top, of_sheet ? 0 : 1});
            }
            put_items(page, foot.name, std::move(foot.items),
                      style_.page.height - style_.margin_bottom - foot.height);
            laid_.pages.push_back(std::move(page));
        }
    }

    /// But for the footer's.
    [[nodiscard]] std::size_t items_on(std::size_t page) const {
        std::size_t count = page > 0 && running_ ? running_->items.size() : 0;
        for (const PlacedStrip& placed : pages_[page]) count += placed.strip->items.size();
        return count;
    }

    void put_items(Page& page, const std::string& strip, std::vector<Item> items,
                   double top) const {
        if (items.empty()) return;
        const int group = group_on(page, strip);
        for (Item& item : items) {
            move(item, style_.margin, top);
            item.group = group;
            page.items.push_back(std::move(item));
        }
    }

    const document::Sheet& sheet_;
    Press press_;
    const PageStyle& style_;
    std::string name_;
    Strips strips_;
    std::optional<Strip> running_;
    std::vector<PageOfStrips> pages_;  ///< point into strips_
    LaidSheet laid_;
};

/// Of a sheet of more pages nobody misses one.
constexpr std::size_t few_pages = 12;

/// With the style's spaces, or with as little tightened ones as save one of a few pages.
LaidSheet lay_sheet(const document::Sheet& sheet, const PageStyle& style, const fonts::Faces& faces,
                    const std::string& language, WordStore& store) {
    SheetSetter usual(sheet, {style, faces, language, store});
    const std::size_t pages = usual.paginate();
    if (pages < 2 || pages > few_pages) return usual.lay();
    for (const double share : {0.75, 0.6}) {
        const PageStyle tight = tightened(style, share);
        SheetSetter tighter(sheet, {tight, faces, language, store});
        if (tighter.paginate() < pages) return tighter.lay();
    }
    return usual.lay();
}

}  // namespace

Paper lay_out(const document::Document& document, const PageStyle& style,
              const fonts::Faces& faces) {
    Paper paper;
    paper.title = document.title;
    paper.author = document.author;
    paper.language = document.language;
    std::vector<Misfit> misfits;
    WordStore store(faces);
    for (const document::Sheet& sheet : document.sheets) {
        LaidSheet laid = lay_sheet(sheet, style, faces, document.language, store);
        for (Bookmark& bookmark : laid.bookmarks) {
            bookmark.page += static_cast<int>(paper.pages.size());
            paper.bookmarks.push_back(std::move(bookmark));
        }
        std::move(laid.pages.begin(), laid.pages.end(), std::back_inserter(paper.pages));
        misfits.insert(misfits.end(), laid.misfits.begin(), laid.misfits.end());
    }
    if (!misfits.empty()) throw LayoutError(std::move(misfits));
    return paper;
}

void try_out(const document::Document& document, const PageStyle& style,
             const fonts::Faces& faces) {
    WordStore store(faces);
    const bool fits = std::all_of(
        document.sheets.begin(), document.sheets.end(), [&](const document::Sheet& sheet) {
            SheetSetter setter(sheet, {style, faces, document.language, store});
            setter.paginate();
            return setter.misfits().empty();
        });
    if (!fits) lay_out(document, style, faces);
}

}  // namespace gallipot::layout
