#include "app/papers.hpp"

#include <algorithm>
#include <mutex>

#include "app/label_papers.hpp"
#include "app/overflows.hpp"
#include "app/report.hpp"
#include "base/system/error.hpp"
#include "base/system/parallel.hpp"
#include "papers/calendar/visits.hpp"
#include "papers/document/caretaker_sheet.hpp"
#include "papers/document/household_pictures.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/mixing_card.hpp"
#include "papers/document/pack_cover.hpp"
#include "papers/document/placement_plan.hpp"
#include "papers/document/takedown_sheet.hpp"
#include "papers/document/tasting_sheet.hpp"
#include "papers/document/visit_sheets.hpp"
#include "papers/html/sheet_page.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/ink.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/phone_links.hpp"
#include "papers/pdf/writer.hpp"

namespace gallipot::app {
namespace {

const layout::PageStyle& page_style(const job::Job& job) {
    static const layout::PageStyle a4 = layout::a4_style();
    static const layout::PageStyle letter = layout::letter_style();
    return *job.paper == job::Paper::letter ? letter : a4;
}

/// One sheet, or a few that belong together, in one language.
struct Wanted {
    std::string name;
    const text::Catalog* words = nullptr;
    std::function<std::vector<document::Sheet>()> make;
    bool in_pack = true;
    std::string file{};  ///< empty: after name and language
};

/// Every number that a paper may show.
std::vector<std::string> numbers_on_papers(const Session& session) {
    const safety::WhoToCall& who = session.who;
    std::vector<std::string> all{who.phone, who.emergency, who.vet_phone};
    if (session.job->help.contact) all.push_back(*session.job->help.contact->phone);
    std::ranges::sort(all);
    const auto again = std::ranges::unique(all);
    all.erase(again.begin(), again.end());
    return all;
}

class Maker {
  public:
    Maker(Session& session, const PaperChoice& choice, std::size_t threads, Papers& papers)
        : session_(session),
          job_(*session.job),
          choice_(choice),
          threads_(threads),
          papers_(papers) {}

    void make_all() {
        session_.read_words(languages(), threads_);
        if (session_.found.has_errors()) return;
        if (wanted("takedown") || wanted("pack")) read_log();
        std::vector<Wanted> sheets;
        for (const auto& language : languages()) add_sheets(session_.words(language), sheets);
        add_pictures(sheets);
        lay_out(sheets);
        if (wanted("household"))
            for (const auto& language : languages()) guard([&] { add_page(language); });
        if (named("alignment")) guard([&] { add_alignment(session_, choice_, papers_); });
        if (wanted("visits")) calendar(session_.words(languages().front()));
    }

  private:
    [[nodiscard]] bool wanted(const std::string& paper) const {
        return choice_.only.empty() || named(paper);
    }
    /// What the log knows of the containers. Where it cannot be read the sheets say what the job
    /// does.
    void read_log() {
        try {
            evidence_ = read_evidence_if_any(session_);
        } catch (const system::SystemError& error) {
            session_.found.warning(
                "log-unreadable", job_.title.place,
                diag::say("what stands in the containers is taken from the job: {}", error.what()),
                "mend the log, or put a backup in its place, and print the take-down sheet again");
        }
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

    /// All papers of a language but the labels.
    void add_sheets(const text::Catalog& words, std::vector<Wanted>& sheets) const {
        const plan::Plan& plan = session_.plan;
        const safety::WhoToCall& who = session_.who;
        using Sheets = std::vector<document::Sheet>;
        const auto add = [&](const std::string& name, std::function<Sheets()> make) {
            if (wanted(name) || wanted("pack"))
                sheets.push_back({name, &words, std::move(make), true});
        };
        const job::Job& job = job_;
        const std::string sheet_link =
            session_.secret ? household_link(job, *session_.secret) : std::string();
        add("household", [&job, &plan, &who, &words, sheet_link] {
            return Sheets{document::household_sheet(job, plan, who, words, nullptr, sheet_link)};
        });
        // Each for its own door: no part of the pack, which has the sheet of the whole building.
        if (wanted("homes") && !document::homes(job).empty())
            sheets.push_back({"homes", &words,
                              [&job, &plan, &who, &words] {
                                  Sheets all;
                                  for (const document::Home& home : document::homes(job))
                                      all.push_back(
                                          document::household_sheet(job, plan, who, words, &home));
                                  return all;
                              },
                              false});
        if (document::sets_out_bait(job))
            add("tasting", [&] { return Sheets{document::tasting_sheet(job, plan, words)}; });
        add("cards", [&] { return document::mixing_cards(job, plan, chosen_mixes(), who, words); });
        add("placement", [&] { return Sheets{document::placement_plan(job, plan, who, words)}; });
        add("visits", [&] { return Sheets{document::visit_sheets(job, plan, words)}; });
        add("takedown", [&] {
            return Sheets{document::takedown_sheet(job, plan, who, words,
                                                   evidence_ ? &evidence_->report : nullptr)};
        });
        // For one person alone (its key opens every station): no part of the pack handed out.
        if (const auto link = overview();
            wanted("caretaker") && (!link.empty() || document::states_doses(plan)))
            sheets.push_back({"caretaker", &words,
                              [&job, &plan, &words, link] {
                                  return Sheets{document::caretaker_sheet(job, plan, link, words)};
                              },
                              false});
    }

    /// All languages on one page: it goes with the household sheet.
    void add_pictures(std::vector<Wanted>& sheets) const {
        if (!wanted("pictures") && !named("household")) return;
        std::vector<const text::Catalog*> all;
        for (const auto& language : languages()) all.push_back(&session_.words(language));
        sheets.push_back({"pictures", all.front(),
                          [this, all] {
                              return std::vector{document::household_pictures(job_, session_.plan,
                                                                              session_.who, all)};
                          },
                          false, "pictures.pdf"});
    }

    [[nodiscard]] std::vector<const plan::Mix*> chosen_mixes() const {
        std::vector<const plan::Mix*> mixes;
        for (const plan::Mix& mix : session_.plan.mixes)
            if (!choice_.stations || choice_.stations->has(mix)) mixes.push_back(&mix);
        return mixes;
    }

    /// The link to the log's page of all stations; empty when the codes open no log of ours.
    [[nodiscard]] std::string overview() const {
        if (!job_.log.address || !session_.secret) return {};
        return keys::overview_link(**job_.log.address, keys::overview_key(*session_.secret));
    }

    /// The sheets, and the labels beside them: only the label task changes session_ while the
    /// sheets run.
    void lay_out(const std::vector<Wanted>& sheets) {
        std::vector<layout::Paper> made(sheets.size());
        std::vector<std::vector<layout::Overflow>> overflows(sheets.size() + 1);
        system::in_parallel(sheets.size() + 1, threads_, [&](std::size_t i) {
            try {
                if (i > 0) {
                    made[i - 1] = lay_out(sheets[i - 1]);
                } else if (wanted("labels")) {
                    add_labels(session_, choice_, languages(), papers_);
                }
            } catch (const layout::LayoutError& error) {
                overflows[i] = error.overflows();
            }
        });
        for (const auto& some : overflows)
            tell_overflows(some, job_, choice_.stock, session_.found);
        for (std::size_t i = 0; i < sheets.size(); ++i) {
            const auto& [name, words, make, in_pack, own_file] = sheets[i];
            if (in_pack && wanted("pack")) {
                const std::string file = "pack-" + words->language() + ".pdf";
                if (papers_.packs.empty() || papers_.packs.back().file != file)
                    papers_.packs.push_back({file,
                                             document::headed(*words, job_.title->in(words->tag()),
                                                              (*words)("paper.pack")),
                                             {}});
                papers_.packs.back().chapters.push_back(papers_.all.size());
            }
            papers_.all.push_back(
                {own_file.empty() ? name + "-" + words->language() + ".pdf" : own_file,
                 std::move(made[i]), wanted(name) || !in_pack, (*words)("paper." + name),
                 document::page_label(name, *words)});
            if (in_pack && wanted("pack")) add_cover_at_end(sheets, i);
        }
    }

    /// When sheet `i` is the last one of its pack.
    void add_cover_at_end(const std::vector<Wanted>& sheets, std::size_t i) {
        const text::Catalog& words = *sheets[i].words;
        for (std::size_t later = i + 1; later < sheets.size(); ++later)
            if (sheets[later].in_pack && sheets[later].words == &words) return;
        Pack& pack = papers_.packs.back();
        std::vector<document::PackPart> parts;
        for (const std::size_t chapter : pack.chapters) {
            const std::string& file = papers_.all[chapter].file;
            parts.push_back({file.substr(0, file.find('-')),
                             static_cast<int>(papers_.all[chapter].paper.pages.size())});
        }
        guard([&] {
            Wanted cover{
                "pack", &words,
                [&] { return std::vector{document::pack_cover(job_, parts, session_.who, words)}; },
                true};
            pack.chapters.insert(pack.chapters.begin(), papers_.all.size());
            papers_.all.push_back({"cover-" + words.language() + ".pdf", lay_out(cover), false,
                                   words("pack.bookmark"), document::page_label("cover", words)});
        });
    }

    /// The household sheet once more, for screens and whoever has them read.
    void add_page(const std::string& language) {
        const text::Catalog& words = session_.words(language);
        papers_.texts.push_back(
            {"household-" + words.language() + ".html",
             choice_.only_try
                 ? ""
                 : household_page(
                       session_, job_, session_.plan,
                       session_.secret ? household_link(job_, *session_.secret) : std::string(),
                       words, papers_.faces)});
    }

    [[nodiscard]] layout::Paper lay_out(const Wanted& sheet) const {
        document::Document document;
        document.title = document::headed(*sheet.words, job_.title->in(sheet.words->tag()),
                                          (*sheet.words)("paper." + sheet.name));
        document.author = job_.by ? (*job_.by)->in(sheet.words->tag()) : "";
        document.language = sheet.words->tag();
        document.sheets = sheet.make();
        if (!choice_.only_try) {
            auto paper = layout::lay_out(document, page_style(job_), papers_.faces);
            layout::link_phones(paper, numbers_on_papers(session_), papers_.faces);
            if (choice_.light_ink) layout::lighten(paper);
            return paper;
        }
        layout::try_out(document, page_style(job_), papers_.faces);
        return {};
    }

    void calendar(const text::Catalog& words) {
        if (auto visits = calendar::visits(job_, session_.plan, words); !visits.empty())
            papers_.texts.push_back({"visits.ics", std::move(visits)});
    }

    template <class Act>
    void guard(const Act& act) {
        try {
            act();
        } catch (const layout::LayoutError& error) {
            tell_overflows(error.overflows(), job_, choice_.stock, session_.found);
        }
    }

    Session& session_;
    const job::Job& job_;
    const PaperChoice& choice_;
    std::size_t threads_;
    Papers& papers_;
    std::optional<Evidence> evidence_;  ///< none: nobody has visited
};

/// What becomes one file, and how.
struct Drawing {
    std::string file;
    std::function<std::string()> draw;
};

std::vector<Drawing> drawings(const Papers& papers) {
    std::vector<Drawing> out;
    for (const auto& named : papers.all)
        if (named.alone)
            out.push_back({named.file, [&] { return pdf::write(named.paper, papers.faces); }});
    for (const auto& pack : papers.packs)
        out.push_back({pack.file, [&] {
                           std::vector<layout::Chapter> chapters;
                           for (const std::size_t i : pack.chapters)
                               chapters.push_back({papers.all[i].bookmark, &papers.all[i].paper,
                                                   papers.all[i].label});
                           return pdf::write(chapters, pack.title, papers.faces);
                       }});
    for (const auto& run : papers.labels)
        for (std::size_t i = 0; i < run.volumes(); ++i)
            out.push_back({run.file(i), [&, i] { return pdf::write(run.paper(i), papers.faces); }});
    for (const auto& named : papers.texts) out.push_back({named.file, [&] { return named.bytes; }});
    return out;
}

}  // namespace

const std::vector<std::string>& paper_names() {
    static const std::vector<std::string> names{"cards",    "labels",    "household", "homes",
                                                "pictures", "placement", "visits",    "tasting",
                                                "takedown", "caretaker", "pack",      "alignment"};
    return names;
}

fonts::Faces find_faces(const Session& session, const Resources& resources) {
    return fonts::find((session.data.fonts / "fonts.yaml").string(), resources.fonts_folder,
                       resources.threads);
}

Papers make_papers(Session& session, const Resources& resources, const PaperChoice& choice) {
    Papers papers;
    if (session.job->stations.empty()) {
        session.found.error("nothing-stands", session.job->title.place,
                            "no station stands any more on that day: all are taken up",
                            "give an earlier day with --on; gallipot report still tells of them");
        return papers;
    }
    if (std::find(choice.only.begin(), choice.only.end(), "tasting") != choice.only.end() &&
        !document::sets_out_bait(*session.job))
        session.found.warning("no-bait", session.job->title.place,
                              "the job sets out no bait, so there is no tasting sheet",
                              "leave 'tasting' out of --only");
    if (std::find(choice.only.begin(), choice.only.end(), "homes") != choice.only.end() &&
        document::homes(*session.job).empty())
        session.found.warning(
            "one-home", session.job->title.place,
            "all stations are in one flat or on one floor, so there is no sheet "
            "for each",
            "leave 'homes' out of --only, or give stations a 'unit' or a 'floor'");
    papers.faces = find_faces(session, resources);
    Maker(session, choice, resources.threads, papers).make_all();
    return papers;
}

std::string household_link(const job::Job& job, const keys::Secret& secret) {
    if (!job.log.address) return {};
    return keys::household_link(**job.log.address, keys::household_key(secret));
}

std::string household_page(const Session& session, const job::Job& job, const plan::Plan& plan,
                           const std::string& link, const text::Catalog& words,
                           const fonts::Faces& faces) {
    return html::sheet_page(
        document::household_sheet(job, plan, session.who, words, nullptr, link),
        {document::headed(words, job.title->in(words.tag()), words("paper.household")), words.tag(),
         web_file(session.data, "sheet.css"), numbers_on_papers(session), faces});
}

std::vector<std::string> files_of(const Papers& papers) {
    std::vector<std::string> files;
    for (auto& drawing : drawings(papers)) files.push_back(std::move(drawing.file));
    return files;
}

void draw(const Papers& papers, const Resources& resources, const TakeFile& take) {
    const auto all = drawings(papers);
    std::mutex mutex;
    system::in_parallel(all.size(), resources.threads, [&](std::size_t i) {
        const std::string bytes = all[i].draw();
        const std::lock_guard lock(mutex);
        take(i, bytes);
    });
}

}  // namespace gallipot::app
