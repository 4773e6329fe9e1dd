#include "command/papers.hpp"

#include <algorithm>

#include "document/household_sheet.hpp"
#include "document/make_labels.hpp"
#include "document/mixing_card.hpp"
#include "layout/flow.hpp"
#include "layout/labels.hpp"
#include "layout/misfit.hpp"
#include "templates/library.hpp"

namespace gallipot::command {
namespace {

const layout::PageStyle& page_style(const job::Job& job) {
    static const layout::PageStyle a4 = layout::a4_style();
    static const layout::PageStyle letter = layout::letter_style();
    return *job.paper == job::Paper::letter ? letter : a4;
}

class Maker {
  public:
    Maker(Session& session, const PaperChoice& choice, Papers& papers)
        : session_(session), job_(*session.job), choice_(choice), papers_(papers) {}

    void make_all() {
        for (const auto& language : languages()) {
            const text::Catalog& words = session_.words(language);
            if (session_.found.has_errors()) return;
            if (wanted("cards")) sheets("cards", words, document::mixing_cards(job_, session_.plan, session_.who, words));
            if (wanted("household"))
                sheets("household", words,
                       {document::household_sheet(job_, session_.plan, session_.who, words)});
        }
        if (wanted("labels")) labels();
    }

  private:
    [[nodiscard]] bool wanted(const std::string& paper) const {
        return choice_.only.empty() ||
               std::find(choice_.only.begin(), choice_.only.end(), paper) != choice_.only.end();
    }

    [[nodiscard]] std::vector<std::string> languages() const {
        if (!choice_.languages.empty()) return choice_.languages;
        std::vector<std::string> out;
        for (const auto& language : job_.languages) out.push_back(*language);
        return out;
    }

    void sheets(const std::string& name, const text::Catalog& words,
                std::vector<document::Sheet> sheets) {
        document::Document document;
        document.title = *job_.title + ": " + words("paper." + name);
        document.author = job_.by ? **job_.by : "";
        document.language = words.tag();
        document.sheets = std::move(sheets);
        guard([&] {
            papers_.all.push_back({name + "-" + words.language() + ".pdf",
                                   layout::lay_out(document, page_style(job_), papers_.faces)});
        });
    }

    void labels();

    /// Every other stock there is, to name one that would do where this one does not.
    [[nodiscard]] std::vector<layout::LabelStock> others(const templates::Library& library) const;

    /// What does not fit is the job's to mend, so it is told as an error of the job.
    template <class Act>
    void guard(const Act& act) {
        try {
            act();
        } catch (const layout::LayoutError& error) {
            for (const auto& misfit : error.misfits())
                session_.found.error("does-not-fit", {job_.source, 0, 0, 1},
                                     misfit.what + ": " + misfit.problem, misfit.remedy);
        }
    }

    Session& session_;
    const job::Job& job_;
    const PaperChoice& choice_;
    Papers& papers_;
};

void Maker::labels() {
    std::vector<std::filesystem::path> folders;
    if (session_.data.own_templates) folders.push_back(*session_.data.own_templates);
    folders.push_back(session_.data.templates);
    const templates::Library library(folders);
    const auto wanted =
        choice_.stock.empty() ? job_.labels : diag::At<std::string>{choice_.stock, {}};
    const auto stock = library.stock(wanted, session_.found);
    if (!stock) return;
    const auto design = library.design(*stock, session_.found);
    if (!design) return;

    std::vector<const text::Catalog*> spoken;
    for (const auto& language : languages()) spoken.push_back(&session_.words(language));
    const auto labels = document::make_labels(job_, session_.plan, session_.who, spoken);
    layout::LabelOptions options;
    options.start_at = choice_.start_at;
    options.offset = {choice_.offset_x_mm, choice_.offset_y_mm};
    options.copies = choice_.copies;
    guard([&] {
        auto sheets = layout::place_labels(labels, {*stock, *design}, papers_.faces, options,
                                           others(library));
        papers_.all.push_back({"labels.pdf", std::move(sheets.paper)});
    });
}

std::vector<layout::LabelStock> Maker::others(const templates::Library& library) const {
    std::vector<layout::LabelStock> out;
    for (auto& stock : library.stocks()) {
        diag::Diagnostics unread;
        if (auto design = library.design(stock, unread))
            out.push_back({std::move(stock), std::move(*design)});
    }
    return out;
}

}  // namespace

const std::vector<std::string>& paper_names() {
    static const std::vector<std::string> names{"cards", "labels", "household"};
    return names;
}

Papers make_papers(Session& session, World& world, const PaperChoice& choice) {
    Papers papers;
    papers.faces = fonts::find((session.data.fonts / "fonts.yaml").string(),
                               world.environment("GALLIPOT_FONTS").value_or(""));
    Maker(session, choice, papers).make_all();
    return papers;
}

}  // namespace gallipot::command
