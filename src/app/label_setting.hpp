#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "app/session.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/layout/labels.hpp"

/// Labels of a job on one stock: on which, in which languages, and what does not fit.
namespace gallipot::app {

/// A stock with its design; nothing, and why in `out`, where there is none of that name.
std::optional<layout::LabelStock> read_stock(const Session& session,
                                             const diag::At<std::string>& wanted,
                                             diag::Diagnostics& out);
/// Every stock there is that holds whole labels, to name one that would do.
std::vector<layout::LabelStock> all_stocks(const Session& session);

/// Labels that do not fit, those alike together.
struct Unfit {
    std::shared_ptr<const layout::LabelOverflow> overflow;
    document::Label like;  ///< the first of them
    document::Speech speech = document::Speech::both;
    std::vector<std::string> names;
};

/// A label and how it is set.
struct LabelSet {
    document::LabelChoice choice;
    std::shared_ptr<const layout::LabelReport> report;
};

/// How labels of a job come out on one stock.
struct Outcome {
    std::shared_ptr<layout::LabelImposer> imposer;
    std::vector<LabelSet> fit;
    std::vector<Unfit> unfit;                          ///< in order of the first of each
    std::vector<document::LabelChoice> unfit_choices;  ///< in order
    bool pairs = false;                                ///< some have a label in each language
};

/// Sets labels on a stock: in both languages where all labels of a mix have room for both, else one
/// in each language.
Outcome set_labels(const document::LabelMaker& maker, const plan::Plan& plan,
                   const std::vector<document::LabelChoice>& wanted,
                   const layout::LabelStock& stock, const fonts::Faces& faces,
                   const layout::LabelOptions& options);

/// The smallest labels to cut from the job's paper on which all of these fit, in two languages on
/// one label if that can be; nothing where there are none.
std::optional<Outcome> on_plain_paper(const document::LabelMaker& maker,
                                      const std::vector<document::LabelChoice>& wanted,
                                      const Session& session, const fonts::Faces& faces,
                                      const std::vector<layout::LabelStock>& stocks,
                                      const layout::LabelOptions& options);

/// The labels of these containers, in both languages.
std::vector<document::LabelChoice> in_both(std::span<const std::size_t> containers);
std::vector<document::LabelChoice> all_labels(const document::LabelMaker& maker);
/// Those that fit.
std::vector<document::LabelChoice> choices_of(const Outcome& outcome);
/// Whether a label may go on plain paper where the stock is too small for it: of a vessel, or the
/// one of two that speaks the second language.
bool may_go_on_plain(const document::LabelMaker& maker, const document::LabelChoice& choice);

}  // namespace gallipot::app
