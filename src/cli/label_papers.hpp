#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "cli/papers.hpp"
#include "papers/layout/labels.hpp"

namespace gallipot::command {

/// Labels on the stock chosen, fitted and ready to be drawn, and the page to align it by. The first
/// of `languages` is the main one. Labels for vessels that the stock is too small for go on plain
/// paper, as a paper of their own; that, a second language left out and a code that is hard to read
/// are warnings with their figures. Any other label that does not fit: layout::LayoutError.
void add_labels(Session& session, const PaperChoice& choice,
                const std::vector<std::string>& languages, Papers& papers);
void add_alignment(Session& session, const PaperChoice& choice, Papers& papers);

/// How each station's label is set on the job's stock, by station id: of its first container. None
/// where there is no label or it does not fit.
std::map<std::string, std::shared_ptr<const layout::LabelReport>> label_reports(
    Session& session, const fonts::Faces& faces);

}  // namespace gallipot::command
