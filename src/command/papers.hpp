#pragma once

#include <string>
#include <vector>

#include "command/session.hpp"
#include "fonts/fonts.hpp"
#include "layout/page.hpp"

namespace gallipot::command {

/// Which papers, and how.
struct PaperChoice {
    std::vector<std::string> only;       ///< names of papers; when empty all but "alignment"
    std::vector<std::string> languages;  ///< the job's when empty
    std::string stock;                   ///< instead of the job's `labels`
    int start_at = 1;                    ///< first free label of a part-used sheet
    double offset_x_mm = 0, offset_y_mm = 0;
    int copies = 1;
};

/// One PDF to be.
struct NamedPaper {
    std::string file;  ///< "cards-en.pdf"
    layout::Paper paper;
};

/// A file that is written as it stands.
struct NamedText {
    std::string file;  ///< "visits.ics"
    std::string bytes;
};

/// The papers of a job laid out, and the faces they are set in.
struct Papers {
    fonts::Faces faces;
    std::vector<NamedPaper> all;
    std::vector<NamedText> texts;
};

/// Names that `only` may hold, in the order they are made.
const std::vector<std::string>& paper_names();

/// The faces papers are set in. Throws fonts::FontError.
fonts::Faces find_faces(const Session& session, const World& world);

/// Lays out what is wanted. What does not fit, a stock that is not there, a letter that no font
/// has: errors in session.found. Throws fonts::FontError.
Papers make_papers(Session& session, World& world, const PaperChoice& choice);

}  // namespace gallipot::command
