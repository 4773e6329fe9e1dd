#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "papers/document/label.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/page.hpp"
#include "papers/qr/checks.hpp"
#include "papers/templates/design.hpp"
#include "papers/templates/stock.hpp"

/// Labels on their stock.
namespace gallipot::layout {

struct LabelStock {
    templates::Stock stock;
    templates::Design design;
};

struct LabelOptions {
    int start_at = 1;        ///< position of the first label on the first sheet, row by row from 1
    Point offset;            ///< mm: how far the printer needs everything moved
    int copies = 1;          ///< of every label
    bool light_ink = false;  ///< frames for black bands
};

/// How labels were set: labels that differ only in id, place and code share one.
struct LabelReport {
    double type_points = 0;  ///< of the running words
    double module_mm = 0;    ///< of the code; 0 when there is none
    int version = 0;
    qr::Level level = qr::Level::medium;
    double pictogram_mm = 0;  ///< side of the frame; 0 when there is none
    bool preferred = false;   ///< everything at the sizes the design calls easy
    bool run_on = false;      ///< parts stand one after another in a paragraph for want of room
    /// mm: the size the rules require, where this label is smaller.
    std::optional<Size> rules_ask;
    /// mm: what there is to stick it on, where this label is larger: the wall's height and the part
    /// of it that is seen at once, or the lid both ways.
    std::optional<Size> container;
    std::vector<document::Part> left_out;  ///< for want of room
    bool without_frame = false;            ///< for want of room, round what to do when swallowed
    /// Dates of which only the last to replace it is said, ingredients of which only the borates.
    std::vector<document::Part> shortest;
    /// Codes of the published statements it makes, and of those it has no room for. P102 ("keep out
    /// of reach") is in neither: every label says it, in larger letters.
    std::vector<std::string> statements, statements_left_out;
    std::vector<qr::Check> checks;

    /// Whether it says all it could, but for what may go: statements, ingredients, days.
    [[nodiscard]] bool whole() const { return statements_left_out.empty() && shortest.empty(); }
};

struct PlacedLabel {
    std::string name;
    int page = 0;  ///< index from 0
    Box box;       ///< of the whole label, on the page
    std::shared_ptr<const LabelReport> report;
};

struct LabelSheets {
    Paper paper;
    std::vector<PlacedLabel> labels;  ///< in order, copies included
};

/// A label that does not fit, and by how much.
struct LabelOverflow {
    Size shortfall;             ///< mm
    Size size;                  ///< mm, of the label
    double minimum_points = 0;  ///< the least type permitted on it
};

/// How one label is set; `report` is null when it does not fit.
struct LabelSetting {
    std::shared_ptr<const LabelReport> report;
    std::shared_ptr<const LabelOverflow>
        overflow;  ///< labels set alike share one, as they do a report
};

/// Sets labels on one stock, as large as they go; those of a kin all in one arrangement and size.
/// First all are gathered, which notes what they have in common; then each is set; then runs of
/// them are placed, sheet by sheet, by as many threads as wanted: a large job has more labels than
/// should be kept at once.
class LabelImposer {
  public:
    /// Throws LayoutError for a start or an offset that leaves the sheet.
    LabelImposer(LabelStock stock, const fonts::Faces& faces, const LabelOptions& options = {});
    ~LabelImposer();

    /// In order, a number for each by which to ask how it is set; labels set alike share one.
    /// Throws LayoutError when a code holds no text that long, or no face has a letter.
    std::vector<std::size_t> gather(const document::Labels& labels);
    /// How labels of that number are set among all that were gathered. Throws LayoutError when the
    /// design leaves out what a label must carry.
    LabelSetting setting(std::size_t number);
    /// Both at once.
    std::vector<LabelSetting> fit(const document::Labels& labels);

    /// Labels go row by row, page by page; `labels` have been gathered, asked for, and do fit.
    [[nodiscard]] LabelSheets place(const document::Labels& labels) const;
    /// Copies `first` to before `end` of all copies of them, in order (the first label's come
    /// first), as a volume of a longer run: it begins with a new sheet unless `first_of_all`.
    struct Volume {
        std::size_t first = 0, end = 0;
        bool first_of_all = true;
    };
    [[nodiscard]] LabelSheets place(const document::Labels& labels, const Volume& volume) const;

    [[nodiscard]] const LabelStock& stock() const;
    [[nodiscard]] const LabelOptions& options() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// A label that does not fit, or the first of several alike.
struct LabelMisfit {
    const LabelOverflow* overflow;
    const document::Label* like;
};

/// What to say, once, of all labels that do not fit on a stock: `names` lists them ("K1, K2"). It
/// names the smallest of `others` that holds them all.
Overflow describe(std::span<const LabelMisfit> misfits, const diag::Text& names,
                  const LabelStock& stock, const fonts::Faces& faces,
                  const std::vector<LabelStock>& others);

/// All labels of a small job at once. What does not fit with its shortest words at the least sizes
/// permitted is an overflow: all of them together are thrown as LayoutError.
LabelSheets place_labels(const document::Labels& labels, const LabelStock& stock,
                         const fonts::Faces& faces, const LabelOptions& options = {},
                         const std::vector<LabelStock>& others = {});

/// How each label would be set, in order; null for what does not fit.
std::vector<std::shared_ptr<const LabelReport>> fit_labels(const document::Labels& labels,
                                                           const LabelStock& stock,
                                                           const fonts::Faces& faces);

/// A page to print on plain paper and hold against a sheet of labels: every label's outline with
/// the number of its position, and scales in millimetres to read the offset from.
Paper alignment_page(const templates::Stock& stock, const fonts::Faces& faces,
                     const std::string& title, const LabelOptions& options = {});

}  // namespace gallipot::layout
