#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "app/papers.hpp"
#include "papers/layout/labels.hpp"

namespace gallipot::app {

/// Labels on the stock chosen, fitted and ready to be drawn, and the page to align it by. The first
/// of `languages` is the main one; where a label has no room for two, there is one in each. Labels
/// for vessels that the stock is too small for go on plain paper, as a paper of their own; that,
/// what is left out, a label larger than its container and a code that is hard to read are warnings
/// with their figures. Any other label that does not fit: layout::LayoutError.
void add_labels(Session& session, const PaperChoice& choice,
                const std::vector<std::string>& languages, Papers& papers);
void add_alignment(Session& session, const PaperChoice& choice, Papers& papers);

/// How a label is set, and on what; `report` is null for one that fits on nothing.
struct LabelOnStock {
    std::shared_ptr<const layout::LabelReport> report;
    std::string stock;  ///< name
};

/// How the label of each container of the plan is set, in their order: on the job's stock, or on
/// plain paper where a vessel's does not fit there. Empty where the stock cannot be used.
std::vector<LabelOnStock> label_reports(Session& session, const fonts::Faces& faces);

}  // namespace gallipot::app
