#include "command/papers.hpp"

#include <algorithm>

#include "command/label_papers.hpp"
#include "document/household_sheet.hpp"
#include "document/mixing_card.hpp"
#include "layout/flow.hpp"
#include "layout/misfit.hpp"

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
        if (wanted("labels"))
            guard([&] { add_labels(session_, choice_, languages(), papers_); });
        if (named("alignment"))
            guard([&] { add_alignment(session_, choice_, papers_); });
    }

  private:
    [[nodiscard]] bool wanted(const std::string& paper) const {
        return choice_.only.empty() || named(paper);
    }
    [[nodiscard]] bool named(const std::string& paper) const {
        return std::find(choice_.only.begin(), choice_.only.end(), paper) != choice_.only.end();
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

}  // namespace

const std::vector<std::string>& paper_names() {
    static const std::vector<std::string> names{"cards", "labels", "household", "alignment"};
    return names;
}

fonts::Faces find_faces(const Session& session, const World& world) {
    return fonts::find((session.data.fonts / "fonts.yaml").string(),
                       world.environment("GALLIPOT_FONTS").value_or(""));
}

Papers make_papers(Session& session, World& world, const PaperChoice& choice) {
    Papers papers;
    papers.faces = find_faces(session, world);
    Maker(session, choice, papers).make_all();
    return papers;
}

}  // namespace gallipot::command
