#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/label_run.hpp"
#include "app/resources.hpp"
#include "app/session.hpp"
#include "app/station_choice.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/layout/page.hpp"

namespace gallipot::app {

/// Which papers, and how.
struct PaperChoice {
    std::vector<std::string> only;          ///< names of papers; when empty all but "alignment"
    std::vector<std::string> languages;     ///< the job's when empty
    std::optional<StationChoice> stations;  ///< labels and cards of these alone; none: all
    std::string stock;                      ///< instead of the job's `labels`
    int start_at = 1;                       ///< first free label of a part-used sheet
    double offset_x_mm = 0, offset_y_mm = 0;
    int copies = 1;
    bool light_ink = false;  ///< frames for black bands
    bool only_try = false;   ///< lay out to see what fits, and keep nothing of it
};

/// One PDF to be, or a part of one.
struct NamedPaper {
    std::string file;  ///< "cards-en.pdf"
    layout::Paper paper;
    bool alone = true;       ///< a file of its own
    std::string bookmark{};  ///< in the pack of its language
    std::string label{};     ///< of its pages in there: see layout::Chapter
};

/// A PDF made of others.
struct Pack {
    std::string file;
    std::string title;
    std::vector<std::size_t> chapters;  ///< of Papers::all
};

/// A file that is written as it stands.
struct NamedText {
    std::string file;  ///< "visits.ics"
    std::string bytes;
};

/// The papers of a job laid out, and the faces they are set in. Labels are fitted only.
struct Papers {
    fonts::Faces faces;
    std::vector<NamedPaper> all;
    std::vector<Pack> packs;
    std::vector<LabelRun> labels;
    std::vector<NamedText> texts;
};

/// Names that `only` may hold, in the order they are made.
const std::vector<std::string>& paper_names();

/// The faces papers are set in. Throws fonts::FontError.
fonts::Faces find_faces(const Session& session, const Resources& resources);

/// Lays out what is wanted. What does not fit, a stock that is not there, a letter that no font
/// has: errors in session.found. Throws fonts::FontError.
Papers make_papers(Session& session, const Resources& resources, const PaperChoice& choice);

/// What the code on the household sheet opens: its page at the log. Empty where the codes open no
/// log of ours.
std::string household_link(const job::Job& job, const keys::Secret& secret);

/// The household sheet as a page for screens, whole in itself; of the session's job as it is on the
/// day that `job` and `plan` are of. Throws layout::LayoutError and, where its style cannot be
/// read, system::SystemError.
std::string household_page(const Session& session, const job::Job& job, const plan::Plan& plan,
                           const std::string& link, const text::Catalog& words,
                           const fonts::Faces& faces);

/// Names of the files that `papers` become, in the order they are told.
std::vector<std::string> files_of(const Papers& papers);

/// Draws them all. `take` is given the number of each file of files_of and its bytes, one at a time
/// and in no certain order.
using TakeFile = std::function<void(std::size_t file, std::string_view bytes)>;
void draw(const Papers& papers, const Resources& resources, const TakeFile& take);

}  // namespace gallipot::app
