#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "papers/fonts/script_fonts.hpp"
#include "papers/layout/tag.hpp"
#include "papers/qr/symbol.hpp"

/// Where layout ends and drawing begins: pages of placed items in millimetres, origin at the top
/// left, y downwards. Whoever draws them decides nothing. No library's type appears here.
namespace gallipot::layout {

/// Type is measured in points, everything else in millimetres.
inline constexpr double mm_per_point = 25.4 / 72;

struct Size {
    double width = 0, height = 0;
};
struct Point {
    double x = 0, y = 0;
};
struct Box {
    double x = 0, y = 0, width = 0, height = 0;
    [[nodiscard]] double right() const { return x + width; }
    [[nodiscard]] double bottom() const { return y + height; }
    [[nodiscard]] bool contains(const Box& other, double slack = 1e-6) const;
    [[nodiscard]] bool overlaps(const Box& other, double slack = 1e-6) const;
};

struct Colour {
    std::uint8_t r = 0, g = 0, b = 0;
    bool operator==(const Colour&) const = default;
};
inline constexpr Colour black{0, 0, 0};
inline constexpr Colour white{255, 255, 255};
inline constexpr Colour quiet{64, 64, 64};  ///< small print: still 10:1 on white
inline constexpr Colour hairline{160, 160, 160};
inline constexpr Colour pictogram_red{208, 2, 27};

enum class Face { regular, bold };

/// One run of text on one line.
struct Text {
    Point origin;     ///< left end of the baseline
    double size = 0;  ///< points
    Face face = Face::regular;
    Colour colour = black;
    std::string text;        ///< UTF-8, no line break
    double width = 0;        ///< advance, as measured
    std::string language{};  ///< BCP 47, where it is not the paper's; else empty
    /// Its line ends at a space: who reads the text on needs it, though it is not seen.
    bool space_after = false;
    bool goes_on = false;   ///< with the line of the item before it
    std::string read_as{};  ///< of a bracket that faces the other way: the one that was written
    /// Where no face has its letters: how they stand. Then `text` is as it is read.
    std::shared_ptr<const fonts::Shaped> shaped{};
};

struct Line {
    Point from, to;
    double width = 0;
    Colour colour = black;
};

struct Rectangle {
    Box box;
    bool filled = true;
    Colour colour = black;
    double line_width = 0;  ///< of an outline
    double radius = 0;      ///< rounded corners
};

/// Move, line, cubic curve, close; coordinates in millimetres on the page.
struct PathStep {
    enum class Kind : std::uint8_t { move, line, curve, close };
    Kind kind = Kind::move;
    Point a, b, c;  ///< a: the end of move and line; a, b controls and c the end of a curve
};
struct Path {
    std::vector<PathStep> steps;
    bool filled = true;  ///< by the even-odd rule
    Colour colour = black;
    double line_width = 0;  ///< of a stroke, when not filled
};

/// A QR symbol: its dark modules are drawn as one path of merged rectangles.
struct Code {
    Box box;  ///< of the symbol itself; the quiet zone lies around it
    std::shared_ptr<const qr::Symbol> symbol;  ///< never null
};

using Shape = std::variant<Text, Line, Rectangle, Path, Code>;

/// A placed item. `group` names the piece of content it belongs to ("label K1-2/first aid"), for
/// the tests on overlap and for the dump. `backdrop` items may lie under others.
struct Item {
    Shape shape;
    Box bounds;      ///< ink; of text: its advance wide, as high as the ink of its letters
    int group = -1;  ///< index into Page::groups
    bool backdrop = false;
    int tag = -1;  ///< index into the tags beside it; -1: decoration, or said elsewhere
};

/// Items that stand for a drawing used again and again: those from `begin` to before `end` of the
/// page are the drawing moved to `at`. Whoever draws may draw it once and refer to it; to everybody
/// else they are items like others.
struct Stamp {
    const void* drawing = nullptr;  ///< the same for the same drawing within a paper
    std::size_t begin = 0, end = 0;
    Point at;
};

/// A part of a page that leads somewhere when it is touched on a screen.
struct Link {
    Box box;
    std::string uri;     ///< outside the file, as "tel:131126"; or empty
    int chapter = -1;    ///< else the first page of this chapter, from 0, of a paper of chapters
    std::string says{};  ///< what it is, in words
    int tag = -1;        ///< index into Page::tags: what it is in
};

struct Page {
    Size size;
    std::vector<std::string> groups;
    std::vector<Item> items;
    std::vector<Stamp> stamps{};  ///< in the order of their items, not overlapping
    std::vector<Link> links{};
    Tags tags{};  ///< in reading order
};

struct Bookmark {
    std::string title;
    int page = 0;  ///< index from 0
    double top = 0;
    int level = 0;
};

/// What becomes one PDF file.
struct Paper {
    std::string title;
    std::string author;
    std::string language;  ///< BCP 47
    std::vector<Page> pages;
    std::vector<Bookmark> bookmarks;
};

/// The index of the group `name` on `page`, which is added when it is not there yet.
int group_on(Page& page, std::string_view name);

/// Moves an item, bounds and all, by so many millimetres to the right and down.
void move(Item& item, double right, double down);

/// Items with their bounds, ready to be placed; group is left unset.
Item item(Line line);
Item item(Rectangle rectangle);
Item item(Path path);
Item item(Code code);

}  // namespace gallipot::layout
