#include "papers/pdf/operators.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <stdexcept>

#include "base/diag/utf8.hpp"
#include "papers/pdf/composite_font.hpp"
#include "papers/pdf/structure.hpp"

namespace gallipot::pdf {

namespace {

using layout::Colour;
using layout::Point;

constexpr double points_per_mm = 1 / layout::mm_per_point;

/// Control points of a cubic that stands for a quarter circle lie this share of the radius along.
constexpr double quarter_circle = 0.5522847498;

class Painter {
  public:
    /// `origin` in millimetres on the page.
    Painter(const layout::Page& page, Uses& uses, Point origin)
        : page_(page), uses_(uses), origin_(origin) {}

    std::string whole_page() {
        std::size_t next = 0;
        marking_ = true;
        for (const layout::Stamp& stamp : page_.stamps) {
            items(next, stamp.begin);
            mark(page_.items[stamp.begin].tag);
            put("q 1 0 0 1 ").point(stamp.at).put("cm /").put(uses_.drawing(page_, stamp));
            put(" Do Q\n");
            next = stamp.end;
        }
        items(next, page_.items.size());
        end_mark();
        return std::move(out_);
    }

    std::string only(const layout::Stamp& stamp) {
        // Unlike a page it begins with whatever was set before it.
        put("0 g 0 G 1 w\n");
        items(stamp.begin, stamp.end);
        return std::move(out_);
    }

    void operator()(const layout::Text& text) {
        if (text.text.empty()) return;
        if (text.shaped) return shaped(text);
        begin_text();
        set_font(font_name(text.face), text.size);
        fill_colour(text.colour);
        put("1 0 0 1 ").point(text.origin).put("Tm ");
        if (!text.read_as.empty()) {
            put("<");
            four_digits(
                uses_.turned(text.face, diag::character_at(text.text, 0).code, text.read_as));
            put("> Tj\n");
            return;
        }
        letters(text.face, text.text + (text.space_after ? " " : ""));
    }

    void operator()(const layout::Line& line) {
        stroke(line.colour, line.width);
        point(line.from).put("m ").point(line.to).put("l S\n");
    }

    void operator()(const layout::Rectangle& rectangle) {
        if (rectangle.filled) {
            fill_colour(rectangle.colour);
        } else {
            stroke(rectangle.colour, rectangle.line_width);
        }
        if (rectangle.radius > 0) {
            rounded(rectangle.box, rectangle.radius);
        } else {
            point({rectangle.box.x, rectangle.box.bottom()});
            length(rectangle.box.width).length(rectangle.box.height).put("re ");
        }
        put(rectangle.filled ? "f\n" : "S\n");
    }

    void operator()(const layout::Path& path) {
        if (path.filled) {
            fill_colour(path.colour);
        } else {
            stroke(path.colour, path.line_width);
        }
        for (const layout::PathStep& step : path.steps) {
            switch (step.kind) {
                case layout::PathStep::Kind::move:
                    point(step.a).put("m ");
                    break;
                case layout::PathStep::Kind::line:
                    point(step.a).put("l ");
                    break;
                case layout::PathStep::Kind::curve:
                    point(step.a).point(step.b).point(step.c).put("c ");
                    break;
                case layout::PathStep::Kind::close:
                    put("h ");
                    break;
            }
        }
        put(path.filled ? "f*\n" : "S\n");
    }

    /// One path of a rectangle a run of dark modules, in units of a module, so that all numbers are
    /// small and whole and no hairlines show between rows.
    void operator()(const layout::Code& code) {
        fill_colour(layout::black);
        const double module = code.box.width / code.symbol->modules * points_per_mm;
        put("q ").number(module, 1e6).put(" 0 0 ").number(-module, 1e6).put(" ");
        point({code.box.x, code.box.y}).put("cm\n");
        for (int row = 0; row < code.symbol->modules; ++row) {
            for (int column = 0; column < code.symbol->modules; ++column) {
                const int start = column;
                while (column < code.symbol->modules && dark(code, row, column)) ++column;
                if (column == start) continue;
                whole(start).whole(row).whole(column - start).put("1 re\n");
            }
        }
        put("f Q\n");
    }

  private:
    void items(std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const layout::Item& item = page_.items[i];
            if (!std::holds_alternative<layout::Text>(item.shape)) end_text();
            mark(item.tag, said_of(item));
            std::visit(*this, item.shape);
        }
        end_text();
    }

    /// What a piece of text says of itself besides its tag: its language where it is another
    /// (14.9.2).
    [[nodiscard]] std::string said_of(const layout::Item& item) const {
        const auto* text = std::get_if<layout::Text>(&item.shape);
        if (!marking_ || text == nullptr || item.tag < 0) return {};
        if (const layout::Tag& tag = page_.tags.at(static_cast<std::size_t>(item.tag));
            text->language != tag.language && !text->language.empty())
            return "/Lang (" + text->language + ")";
        return {};
    }
    static std::string instead_of(const std::string& text) {
        return "/ActualText <FEFF" + utf16(text) + ">";
    }

    /// What is drawn next belongs to this tag, and says so much of itself. Marks lie side by side,
    /// never in one another: poppler 22 takes the end of an inner one for that of the outer.
    void mark(int tag, const std::string& said = {}) {
        if (!marking_ || (marked_ == tag && said_ == said)) return;
        end_mark();
        if (tag < 0) {
            put("/Artifact BMC\n");
        } else {
            const layout::Role role = page_.tags.at(static_cast<std::size_t>(tag)).role;
            put("/").put(said.empty() ? structure_type(role) : "Span");
            put(" <</MCID ").put(std::to_string(uses_.mark(tag))).put(said).put(">> BDC\n");
        }
        marked_ = tag;
        said_ = said;
    }
    void end_mark() {
        end_text();
        if (marked_) put("EMC\n");
        marked_.reset();
    }

    void set_font(const std::string& name, double size) {
        if (font_ == name && size_ == size) return;
        put("/").put(name).put(" ").number(size).put(" Tf\n");
        font_ = name;
        size_ = size;
    }

    void begin_text() {
        if (!in_text_) put("BT\n");
        in_text_ = true;
    }

    /// Glyph by glyph where it belongs, in the order in which it is read. Where a cluster has more
    /// glyphs than letters, what they stand for is said of them all.
    void shaped(const layout::Text& text) {
        const double em = text.size * layout::mm_per_point;
        const std::optional<int> tag = marked_;
        const std::string said = said_;
        for (const fonts::Cluster& cluster : text.shaped->clusters) {
            const bool together = cluster.glyphs.size() > diag::count_characters(cluster.text);
            if (tag && *tag >= 0) mark(*tag, together ? said + instead_of(cluster.text) : said);
            begin_text();
            fill_colour(text.colour);
            if (text.shaped->stroke > 0) {
                stroke(text.colour, text.shaped->stroke * em);
                put("2 Tr\n");
            }
            for (const fonts::PlacedGlyph& glyph : cluster.glyphs) {
                const auto [font, code] = uses_.glyph(text.shaped->font, glyph.id, glyph.text);
                set_font(font, text.size);
                put("1 0 0 1 ");
                point({text.origin.x + glyph.x * em, text.origin.y - glyph.y * em});
                put("Tm <");
                four_digits(code);
                put("> Tj\n");
            }
            if (text.shaped->stroke > 0) put("0 Tr\n");
        }
    }

    void four_digits(unsigned code) {
        for (int shift = 12; shift >= 0; shift -= 4)
            out_ += "0123456789ABCDEF"[code >> static_cast<unsigned>(shift) & 0xFU];
    }

    /// Shows text where the pen is.
    void letters(layout::Face face, std::string_view text) {
        if (text.empty()) return;
        put("<");
        for (std::size_t i = 0; i < text.size();) {
            const diag::Character character = diag::character_at(text, i);
            if (!character.valid) throw std::invalid_argument("text to be drawn is not UTF-8");
            if (character.code > 0xFFFF) {
                throw std::invalid_argument("a PDF of ours holds no " +
                                            diag::code_point_name(character.code));
            }
            uses_.letter(face, character.code);
            four_digits(character.code);
            i += character.bytes;
        }
        put("> Tj\n");
    }
    static bool dark(const layout::Code& code, int row, int column) {
        return code.symbol
            ->dark[static_cast<std::size_t>(row) * static_cast<std::size_t>(code.symbol->modules) +
                   static_cast<std::size_t>(column)];
    }

    Painter& put(std::string_view text) {
        out_ += text;
        return *this;
    }
    /// Rounded to 1/`parts`, without needless zeros.
    Painter& number(double value, double parts = 1e3) {
        const auto whole_parts = static_cast<std::int64_t>(parts);
        std::int64_t scaled = std::llround(value * parts);
        if (scaled < 0) {
            out_ += '-';
            scaled = -scaled;
        }
        out_ += std::to_string(scaled / whole_parts);
        std::int64_t rest = scaled % whole_parts;
        if (rest != 0) out_ += '.';
        for (std::int64_t place = whole_parts / 10; rest != 0; place /= 10) {
            out_ += static_cast<char>('0' + rest / place);
            rest %= place;
        }
        return *this;
    }
    /// A number below a thousand, as those of a code are.
    Painter& whole(int value) {
        if (value >= 100) out_ += static_cast<char>('0' + value / 100);
        if (value >= 10) out_ += static_cast<char>('0' + value / 10 % 10);
        out_ += static_cast<char>('0' + value % 10);
        out_ += ' ';
        return *this;
    }
    Painter& length(double mm) { return number(mm * points_per_mm).put(" "); }
    Painter& point(const Point& at) { return length(at.x - origin_.x).length(origin_.y - at.y); }

    void colour(const Colour& colour, std::string_view grey, std::string_view rgb) {
        number(colour.r / 255.0);
        if (colour.r != colour.g || colour.g != colour.b) {
            put(" ").number(colour.g / 255.0).put(" ").number(colour.b / 255.0).put(rgb);
        } else {
            put(grey);
        }
    }
    void fill_colour(const Colour& wanted) {
        if (fill_ == wanted) return;
        colour(wanted, " g\n", " rg\n");
        fill_ = wanted;
    }
    void stroke(const Colour& wanted, double width) {
        if (stroke_ != wanted) {
            colour(wanted, " G\n", " RG\n");
            stroke_ = wanted;
        }
        if (line_width_ != width) {
            length(width).put("w\n");
            line_width_ = width;
        }
    }

    void rounded(const layout::Box& box, double radius) {
        const double r = std::min({radius, box.width / 2, box.height / 2});
        const double k = r * (1 - quarter_circle);
        const double left = box.x;
        const double right = box.right();
        const double top = box.y;
        const double bottom = box.bottom();
        point({left + r, top}).put("m ");
        point({right - r, top}).put("l ");
        point({right - k, top}).point({right, top + k}).point({right, top + r}).put("c ");
        point({right, bottom - r}).put("l ");
        point({right, bottom - k}).point({right - k, bottom}).point({right - r, bottom}).put("c ");
        point({left + r, bottom}).put("l ");
        point({left + k, bottom}).point({left, bottom - k}).point({left, bottom - r}).put("c ");
        point({left, top + r}).put("l ");
        point({left, top + k}).point({left + k, top}).point({left + r, top}).put("c h ");
    }

    void end_text() {
        if (in_text_) put("ET\n");
        in_text_ = false;
    }

    const layout::Page& page_;
    Uses& uses_;
    Point origin_;
    std::string out_;
    bool in_text_ = false;
    bool marking_ = false;       ///< a drawing by itself is marked where it is referred to
    std::optional<int> marked_;  ///< the tag of the open mark; -1: an artifact's
    std::string said_;           ///< of the open mark
    std::string font_;
    double size_ = 0;
    // A page begins with black ink and a line one point wide.
    Colour fill_ = layout::black;
    Colour stroke_ = layout::black;
    double line_width_ = layout::mm_per_point;
};

}  // namespace

std::string operators(const layout::Page& page, Uses& uses) {
    return Painter(page, uses, {0, page.size.height}).whole_page();
}

std::string operators(const layout::Page& page, const layout::Stamp& stamp, Uses& uses) {
    return Painter(page, uses, stamp.at).only(stamp);
}

}  // namespace gallipot::pdf
