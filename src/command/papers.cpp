#include "command/papers.hpp"

#include <algorithm>

#include "calendar/visits.hpp"
#include "command/label_papers.hpp"
#include "document/caretaker_sheet.hpp"
#include "document/household_sheet.hpp"
#include "document/mixing_card.hpp"
#include "document/placement_plan.hpp"
#include "document/takedown_sheet.hpp"
#include "document/tasting_sheet.hpp"
#include "document/visit_sheets.hpp"
#include "layout/flow.hpp"
#include "layout/joined.hpp"
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
            sheets(words);
            if (session_.found.has_errors()) return;
        }
        if (wanted("labels")) guard([&] { add_labels(session_, choice_, languages(), papers_); });
        if (named("alignment")) guard([&] { add_alignment(session_, choice_, papers_); });
        if (wanted("visits")) calendar(session_.words(languages().front()));
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

    /// All papers of a language but the labels, and the pack of them.
    void sheets(const text::Catalog& words) {
        const plan::Plan& plan = session_.plan;
        const safety::WhoToCall& who = session_.who;
        Pack pack;
        const auto add = [&](const std::string& name, const auto& make) {
            if (!wanted(name) && !wanted("pack")) return;
            add_sheets(name, words, make(), pack);
        };
        using Sheets = std::vector<document::Sheet>;
        add("household", [&] { return Sheets{document::household_sheet(job_, plan, who, words)}; });
        if (document::sets_out_bait(job_))
            add("tasting", [&] { return Sheets{document::tasting_sheet(job_, plan, words)}; });
        add("cards", [&] { return document::mixing_cards(job_, plan, who, words); });
        add("placement", [&] { return Sheets{document::placement_plan(job_, plan, who, words)}; });
        add("visits", [&] { return Sheets{document::visit_sheets(job_, plan, words)}; });
        add("takedown", [&] { return Sheets{document::takedown_sheet(job_, plan, who, words)}; });
        if (const auto link = overview(); wanted("caretaker") && !link.empty()) {
            // Its key opens every station, so it is no part of the pack that is handed out.
            Pack none;
            add_sheets("caretaker", words, {document::caretaker_sheet(job_, link, words)}, none);
        }
        if (!wanted("pack")) return;
        layout::Paper all = layout::joined(pack);
        all.title = *job_.title + ": " + words("paper.pack");
        papers_.all.push_back({"pack-" + words.language() + ".pdf", std::move(all)});
    }

    /// The link to the log's page of all stations; empty when the codes open no log of ours.
    [[nodiscard]] std::string overview() const {
        if (!job_.log.address || !session_.secret) return {};
        return keys::overview_link(**job_.log.address, keys::overview_key(*session_.secret));
    }

    using Pack = std::vector<layout::Chapter>;

    void add_sheets(const std::string& name, const text::Catalog& words,
                    std::vector<document::Sheet> sheets, Pack& pack) {
        document::Document document;
        document.title = *job_.title + ": " + words("paper." + name);
        document.author = job_.by ? **job_.by : "";
        document.language = words.tag();
        document.sheets = std::move(sheets);
        guard([&] {
            layout::Paper paper = layout::lay_out(document, page_style(job_), papers_.faces);
            if (wanted("pack")) pack.push_back({words("paper." + name), paper});
            if (wanted(name))
                papers_.all.push_back({name + "-" + words.language() + ".pdf", std::move(paper)});
        });
    }

    void calendar(const text::Catalog& words) {
        if (auto visits = calendar::visits(job_, session_.plan, words); !visits.empty())
            papers_.texts.push_back({"visits.ics", std::move(visits)});
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
    static const std::vector<std::string> names{"cards",  "labels",   "household", "placement",
                                                "visits", "tasting",  "takedown",  "caretaker",
                                                "pack",   "alignment"};
    return names;
}

fonts::Faces find_faces(const Session& session, const World& world) {
    return fonts::find((session.data.fonts / "fonts.yaml").string(),
                       world.environment("GALLIPOT_FONTS").value_or(""));
}

Papers make_papers(Session& session, World& world, const PaperChoice& choice) {
    Papers papers;
    if (std::find(choice.only.begin(), choice.only.end(), "tasting") != choice.only.end() &&
        !document::sets_out_bait(*session.job))
        session.found.warning("no-bait", session.job->title.place,
                              "the job sets out no bait, so there is no tasting sheet",
                              "leave 'tasting' out of --only");
    papers.faces = find_faces(session, world);
    Maker(session, choice, papers).make_all();
    return papers;
}

}  // namespace gallipot::command
