#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "papers/text/catalog.hpp"

/// What a paper says, in order, with no coordinates: layout decides where it goes.
namespace gallipot::document {

using text::StyledText;

/// A section's heading with a rule under it; kept with what follows.
struct Heading {
    StyledText text;
    std::vector<StyledText> fields{};  ///< to write in by hand, at the right end of its line
};

/// Type steps for running text.
enum class Voice { normal, large, small };

struct Paragraph {
    StyledText text;
    Voice voice = Voice::normal;
};

/// The black band: what saves a life, white on black, large.
struct Banner {
    StyledText left;
    StyledText right;  ///< set to the right end, larger; may be empty
};

/// Lines with a box to tick; numbered 1. 2. 3. when `numbered`.
struct Checklist {
    std::vector<StyledText> items;
    bool numbered = false;
    bool boxes = true;
    /// In two columns where that saves much of its height: a long list of short items.
    bool may_halve = false;
};

/// The same with dots for boxes.
inline Checklist bullets(std::vector<StyledText> items) {
    return {std::move(items), false, false};
}

enum class Align { left, right };

struct Column {
    StyledText heading;
    Align align = Align::left;
    double weight = 0;   ///< share of the spare width; 0: as wide as its widest cell
    double minimum = 0;  ///< mm: at least so wide, to write in
};

/// What is measured with, to be drawn small, as often as it is used.
struct Tool {
    enum class Kind { scoop, jug, syringe, scale };
    Kind kind = Kind::scoop;
    int times = 1;
    double size = 1;    ///< of its kind's largest, 0 to 1
    double filled = 1;  ///< how far up to the mark, 0 to 1
    StyledText name;    ///< stands after it
};

struct Cell {
    StyledText text;
    StyledText note;   ///< a second, smaller line under it; may be empty
    bool box = false;  ///< a box to tick before the text
    /// Words with a box to tick before each, below the text.
    std::vector<StyledText> choices{};
    /// Drawn as a small line from left to right, the lowest figure shown being 0; its width is the
    /// column's. May be empty.
    std::vector<double> series = {};
    std::vector<Tool> tools{};  ///< drawn after the text
    bool note_beside = false;   ///< the note goes on behind the text where that saves a line
};

/// Rows flow over pages with the headings repeated; a row is never split.
struct Table {
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows;
    bool last_row_is_total = false;
    /// Rows lead to the chapters of the paper, the first to the second: a table of contents.
    bool leads_to_chapters = false;
    /// To be filled in by hand: high rows, lines between the columns, and columns as wide as their
    /// weights say, whatever stands in them, while every word fits.
    bool to_write = false;
};

/// Blank lines to write on, under small headings.
struct FillIn {
    std::vector<Column> columns;
    int lines = 1;
};

/// Side by side.
struct Columns {
    struct Part {
        StyledText heading;
        std::vector<StyledText> lines;
    };
    std::vector<Part> parts;
};

/// How a mark on a plot looks. Told apart by shape, so that black and white will do.
enum class Mark { disc, ring, triangle, cross, square };
/// And a line.
enum class Stroke { solid, thin, dashed };

/// Curves over one axis of time, one or more above each other: counts and levels at a station. All
/// in the data's own units; whoever lays it out scales it.
struct Plot {
    struct Point {
        double x = 0, y = 0;
    };
    struct Tick {
        double at = 0;
        std::string label;
    };
    struct Curve {
        std::vector<Point> points;  ///< joined by straight lines
        Stroke stroke = Stroke::solid;
    };
    /// Filled grey between two curves over the same x.
    struct Band {
        std::vector<Point> low, high;
    };
    struct Marks {
        Mark mark = Mark::disc;
        std::vector<Point> points;
    };
    struct Panel {
        double low = 0, high = 1;  ///< of the y axis; nothing lies outside
        std::vector<Tick> ticks;
        double share = 1;  ///< of the plot's height, against the other panels
        std::vector<Band> bands;
        std::vector<Curve> curves;
        std::vector<Marks> marks;
    };
    StyledText title;
    StyledText note;           ///< a sentence under it; may be empty
    std::string alternative;   ///< what it shows, for who does not see it
    double low = 0, high = 1;  ///< of the x axis; nothing lies outside
    std::vector<Tick> ticks;
    std::vector<Panel> panels;
};

/// Small plots in rows; a row is never split.
struct Plots {
    std::vector<Plot> plots;
    int across = 2;
};

/// What the marks and lines of plots mean.
struct PlotKey {
    struct Entry {
        std::variant<Mark, Stroke> sign;
        StyledText text;
        bool band = false;  ///< the line runs in a grey band
    };
    std::vector<Entry> entries;
    bool in_line = false;  ///< side by side while they fit, instead of one below the other
};

/// One floor to scale, with what stands on it. All in metres, x to the right and y up; whoever
/// lays it out chooses the scale and finds room for the names.
struct FloorDrawing {
    struct Point {
        double x = 0, y = 0;
    };
    struct Room {
        StyledText name;
        std::vector<Point> outline;
    };
    struct Spot {
        std::string name;
        Mark mark = Mark::disc;
        Point at;
    };
    /// A scale to choose from, and how to say it.
    struct Scale {
        double one_to = 100;
        StyledText text;
        double bar = 5;  ///< metres
        StyledText bar_text;
    };
    std::vector<Room> rooms;
    std::vector<Spot> spots;
    std::vector<Point> walk;    ///< drawn as one line, under everything else; may be empty
    std::vector<Scale> scales;  ///< the largest drawing first
    StyledText no_room;         ///< stands before the names that found no room on the drawing
    std::string comma = ", ";   ///< between those names
    double highest = 0;         ///< mm: no higher than that; 0: the style's
    bool states_scale = true;   ///< else it is a sketch, as large as it goes
    std::string alternative{};  ///< what it shows, for who does not see it
};

/// Pictures of our own, for who reads little: three prohibitions and where to get help.
enum class Sign { not_food, no_touching, no_spray, call };

/// Pictures side by side, a few words beside each.
struct Signs {
    struct Entry {
        Sign sign;
        StyledText text;
        std::string alternative{};  ///< what it shows, for who does not see it
        StyledText number{};  ///< to call, very large above the text; only where signs are large
        std::vector<StyledText> lines{};  ///< in place of the text, where signs are large
    };
    std::vector<Entry> entries;
    bool large = false;  ///< one below the other, large, each as much text as it has beside it
};

/// A container from the side, as high and wide as it is.
struct ContainerDrawing {
    enum class Top { open, lid, holed_lid };
    double width_mm = 54, height_mm = 50;
    double filled = 0.5;  ///< how high, of its height
    Top top = Top::lid;
    int side_holes = 0;
    double hole_mm = 0;
    bool label_on_lid = false;
    StyledText title;
    /// What its parts are, beside them; those that are empty are not there.
    StyledText lid, holes, label, fill;
    StyledText note;          ///< a small line under it
    std::string alternative;  ///< what it shows, for who does not see it
};

/// Containers side by side.
struct ContainerDrawings {
    std::vector<ContainerDrawing> drawings;
};

/// A QR code with words beside it.
struct Code {
    std::string content;  ///< what a reader returns
    std::vector<StyledText> lines;
    std::string alternative;  ///< what it is, for who does not see it
};

/// Kept together on one page if that is possible at all.
struct Group;

/// Two groups side by side; one below the other where that would be too high.
struct Beside {
    std::shared_ptr<const Group> left, right;
    double right_share = 0.4;  ///< of the width
};

using Block = std::variant<Heading, Paragraph, Banner, Checklist, Table, FillIn, Columns, Plots,
                           PlotKey, FloorDrawing, Signs, Code, Beside, ContainerDrawings,
                           std::shared_ptr<const Group>>;
struct Group {
    std::vector<Block> blocks;
};

/// A section of a paper that starts on a new page: one mixing card, one household sheet.
struct Sheet {
    std::string bookmark;
    StyledText kicker;  ///< small line above the title
    StyledText title;
    StyledText aside;  ///< at the right of the title's last line; may be empty
    std::vector<Block> blocks;
    StyledText footer_left, footer_right;
    /// It stands below the sheet before it where all of it fits on that one's last page.
    bool follows = false;
    /// Sizes of its running text in points, the largest first: it is set in the first in which what
    /// must stand on the front does. Empty: the style's alone.
    std::vector<double> sizes{};
    std::size_t front = 0;    ///< so many of its blocks, from the first on, must stand on the front
    double least_behind = 0;  ///< points: what need not stand there is not smaller than that
                              ///< while the front is larger
    std::size_t most_pages = 0;  ///< a smaller size rather than more pages than that; 0: any number
    std::optional<Code> code{};  ///< small, at the right of the title
};

struct Document {
    std::string title;
    std::string author;
    std::string language;
    std::vector<Sheet> sheets;
};

}  // namespace gallipot::document
