#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "papers/fonts/fonts.hpp"
#include "papers/fonts/script_fonts.hpp"
#include "papers/layout/page.hpp"
#include "papers/text/catalog.hpp"

/// Text set in lines of a given width, for pages and labels alike. Two steps, so that trying a text
/// in many sizes and widths is cheap: MeasuredText finds the breaks and measures, set() makes the
/// lines.
namespace gallipot::layout {

enum class Alignment { left, centre, right };

/// A hyphen that only a line's end shows is a soft one to who reads on, and looks alike.
inline constexpr std::string_view line_end_hyphen = "\u00AD";

/// How a text is set. Sizes in points.
struct Type {
    double size = 10;
    double leading = 13;  ///< from baseline to baseline
    Alignment alignment = Alignment::left;
    Colour colour = black;
    /// Lines about equally long instead of the first ones full: for titles and other large type.
    bool balanced = false;
};

/// Ems that an accent on a capital and the lowest tail reach in Latin and Cyrillic.
inline constexpr fonts::Ink usual_ink{0.98, 0.26};
/// The least distance of lines whose ink reaches so far, in ems; 0 where any usual one will do.
double least_leading(const fonts::Ink& ink);

/// How wide lines are, in one unit. The first few may be narrower or wider, beside something in a
/// corner or inside a circle.
struct Measure {
    /// How much further in a line begins and ends.
    struct Inset {
        double left = 0, right = 0;
    };
    double width = 0;
    std::vector<Inset> insets;  ///< of the first lines

    Measure(double of_all) : width(of_all) {}
    [[nodiscard]] double start(int line) const { return inset(line).left; }
    [[nodiscard]] double at(int line) const { return width - inset(line).left - inset(line).right; }
    /// What is left of it below so many lines.
    [[nodiscard]] Measure below(int lines) const;
    /// The same in a unit so many times as long.
    [[nodiscard]] Measure over(double unit) const;

  private:
    [[nodiscard]] Inset inset(int line) const {
        const auto at = static_cast<std::size_t>(line);
        return at < insets.size() ? insets[at] : Inset{};
    }
};

/// A text cut where its lines may break, and measured: widths are in ems, whatever the size.
///
/// Breaks are Unicode's (UAX 14) by way of text::line_breaks. A soft hyphen shows as a hyphen where
/// a line breaks at it, and not at all elsewhere; tabs count as spaces; spaces at a line's end hang
/// outside the measure, and so does a dot between parts (" · "), which is not drawn there. Throws
/// LayoutError naming `what` and each character the faces do not cover.
class MeasuredText {
  public:
    MeasuredText(const text::StyledText& runs, const fonts::Faces& faces,
                 const std::string& language, std::string_view what);

    [[nodiscard]] bool empty() const { return pieces_.empty(); }
    /// The widest stretch that no break falls in: the narrowest measure possible.
    [[nodiscard]] double widest() const { return widest_; }
    /// That stretch itself, for messages.
    [[nodiscard]] std::string widest_word() const;
    /// The widest line when lines break only where they must.
    [[nodiscard]] double unbroken() const;
    /// How far its ink reaches, in ems.
    [[nodiscard]] const fonts::Ink& ink() const { return ink_; }
    /// The least distance of its lines at which no mark meets the line above, in ems: 0 where any
    /// usual distance will do.
    [[nodiscard]] double least_leading() const { return layout::least_leading(ink_); }
    /// Whether it is in a language whose lines begin at the right.
    [[nodiscard]] bool begins_at_right() const { return begins_at_right_; }
    /// How many lines it takes in a measure of so many ems; at least widest() wide.
    [[nodiscard]] int lines_in(const Measure& ems) const;

  private:
    friend class Setter;

    /// What stands between two places where a line may break.
    struct Piece {
        std::uint32_t begin = 0, end = 0;  ///< bytes of text_, without the spaces at its end
        std::uint32_t next = 0;            ///< where the next piece begins
        double width = 0;                  ///< of begin to end
        double advance = 0;                ///< of begin to next
        double hyphen = 0;                 ///< of the hyphen shown when a line ends here
        bool last = false;                 ///< a line must end here
    };
    struct Span {
        std::uint32_t end = 0;  ///< bytes of text_
        Face face = Face::regular;
        std::string language{};                            ///< where it is not the text's
        std::shared_ptr<const fonts::ScriptFont> other{};  ///< what has its letters, not the face
    };
    /// First and last piece of a line.
    struct Line {
        std::size_t first = 0, last = 0;
        double width = 0;
    };

    void add_piece(std::string_view source, std::size_t begin, std::size_t end, bool last,
                   const std::vector<Span>& source_spans);
    [[nodiscard]] const fonts::Font& font(Face face) const;
    /// The font beside the faces that a letter is set in, after one set in `before`; none: the
    /// face.
    [[nodiscard]] std::shared_ptr<const fonts::ScriptFont> other_font(
        char32_t character, Face face,
        const std::shared_ptr<const fonts::ScriptFont>& before) const;
    /// What was written last goes on in `span`'s font, or begins one.
    void write_on(const Span& span);
    /// A stretch of text_ in a font beside the faces.
    [[nodiscard]] fonts::Shaped shape(const Span& span, std::string_view stretch) const;
    [[noreturn]] void refuse(std::string_view source, const std::vector<Span>& source_spans,
                             std::string_view what) const;
    /// Its ink reaches as far as that.
    void reach(const fonts::Ink& ink);
    [[nodiscard]] double width(const Line& line) const;
    /// Calls `use` with the first and last piece of each line, each line filled.
    template <class Use>
    void for_lines(const Measure& ems, Use use) const;
    [[nodiscard]] std::vector<Line> break_lines(const Measure& ems) const;
    void pull_down(std::vector<Line>& lines, const Measure& ems) const;

    fonts::Faces faces_;
    std::string language_;
    std::string text_;
    std::vector<Span> spans_;  ///< of text_, in order
    std::vector<Piece> pieces_;
    double widest_ = 0;
    std::size_t widest_piece_ = 0;
    fonts::Ink ink_;
    bool right_to_left_ = false;  ///< some of it
    bool begins_at_right_ = false;
};

/// A text in lines. Baselines count down from the first, which lies at 0; left edge of the measure
/// at 0.
struct TextLayout {
    double size = 0;     ///< points
    double measure = 0;  ///< mm
    double leading = 0;  ///< mm
    double width = 0;    ///< of the widest line
    int lines = 0;
    double last_line_width = 0;
    fonts::Ink ink;  ///< mm that its letters reach, where that is further than is usual; else 0
    std::vector<Item> items;  ///< one Text a line and face

    /// From the first baseline to the last.
    [[nodiscard]] double depth() const { return lines > 1 ? (lines - 1) * leading : 0; }
};

/// Sets `words` in a measure of so many millimetres. Throws LayoutError with the figures when a
/// word is wider than that; `what` names the place on paper.
TextLayout set(const MeasuredText& words, const Measure& measure, const Type& type,
               std::string_view what);

/// MeasuredText and set() in one, for a text that is set once.
TextLayout set(const text::StyledText& runs, double measure, const Type& type,
               std::string_view what, const fonts::Faces& faces, const std::string& language);

/// Puts a setting on a page, its first baseline's left end at `origin`.
void place(Page& page, const TextLayout& setting, Point origin, int group);

/// The widest of some words at `size` points, in mm.
double in_mm(double ems, double size);

/// The same text, all of it bold.
text::StyledText in_bold(text::StyledText runs);

}  // namespace gallipot::layout
