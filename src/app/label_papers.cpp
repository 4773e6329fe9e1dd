#include "app/label_papers.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <optional>

#include "app/label_setting.hpp"
#include "app/label_warnings.hpp"
#include "app/overflows.hpp"
#include "papers/layout/overflow.hpp"

namespace gallipot::app {
namespace {

using layout::LabelStock;

diag::At<std::string> named_stock(const Session& session, const std::string& instead) {
    if (instead.empty()) return session.job->labels;
    return {instead, place_of_option("--stock", instead)};
}

std::optional<LabelStock> chosen_stock(const Session& session, const std::string& instead,
                                       diag::Diagnostics& out) {
    return read_stock(session, named_stock(session, instead), out);
}

layout::LabelOptions options_of(const PaperChoice& choice) {
    layout::LabelOptions options;
    options.start_at = choice.start_at;
    options.offset = {choice.offset_x_mm, choice.offset_y_mm};
    options.copies = choice.copies;
    options.light_ink = choice.light_ink;
    return options;
}

[[noreturn]] void refuse(const std::vector<Unfit>& unfit, const LabelStock& stock,
                         const fonts::Faces& faces, const std::vector<LabelStock>& others) {
    const bool only_second = std::ranges::all_of(
        unfit, [](const Unfit& one) { return one.speech == document::Speech::second; });
    std::vector<layout::LabelMisfit> misfits;
    std::vector<std::string> names;
    for (const auto& one : unfit) {
        // The label in the other language says the same.
        if (one.speech == document::Speech::second && !only_second) continue;
        misfits.push_back({one.overflow.get(), &one.like});
        names.insert(names.end(), one.names.begin(), one.names.end());
    }
    throw layout::LayoutError({layout::describe(misfits, listed(names), stock, faces, others)});
}

/// Labels that go on one stock.
struct StockRun {
    diag::At<std::string> stock;
    std::vector<document::LabelChoice> wanted;
    bool only_beside = true;  ///< each has a label on another stock, which comes first
};

/// By the stocks that containers name, else the job's; all on the one that the command names. The
/// job's comes first, the others as they are first named.
std::vector<StockRun> runs_of(const Session& session, const document::LabelMaker& maker,
                              const std::string& instead,
                              const std::vector<document::LabelChoice>& wanted) {
    std::vector<StockRun> runs{{named_stock(session, instead), {}}};
    const auto add = [&](const diag::At<std::string>& stock, const document::LabelChoice& label,
                         bool first) {
        auto at = std::ranges::find_if(runs, [&](const auto& run) { return *run.stock == *stock; });
        if (at == runs.end()) at = runs.insert(at, {stock, {}});
        at->wanted.push_back(label);
        at->only_beside = at->only_beside && !first;
    };
    for (const auto& label : wanted) {
        const auto* kind =
            label.container < maker.containers()
                ? session.job->container(session.plan.containers.at(label.container).type)
                : nullptr;
        if (!instead.empty() || kind == nullptr || kind->labels.empty()) {
            add(runs.front().stock, label, true);
            continue;
        }
        for (const auto& stock : kind->labels) add(stock, label, &stock == &kind->labels.front());
    }
    std::erase_if(runs, [](const StockRun& run) { return run.wanted.empty(); });
    return runs;
}

/// Puts the labels of a job on their stocks.
class LabelSetter {
  public:
    LabelSetter(Session& session, const PaperChoice& choice,
                const std::vector<std::string>& languages,
                std::shared_ptr<const document::LabelMaker> maker, Papers& papers)
        : session_(session),
          choice_(choice),
          languages_(languages),
          maker_(std::move(maker)),
          papers_(papers) {}

    void add(const StockRun& run, bool first) {
        const auto stock = read_stock(session_, run.stock, session_.found);
        if (!stock) return;
        if (stock->design.compact && !run.only_beside) return say_too_small(run);
        layout::LabelOptions options = options_of(choice_);
        if (!first) options.start_at = 1;
        const diag::Place place = *run.stock == *session_.job->labels && choice_.stock.empty()
                                      ? place_of_stock(*session_.job, choice_.stock)
                                      : run.stock.place;
        const auto outcome =
            set_labels(*maker_, session_.plan, run.wanted, *stock, papers_.faces, options);
        const std::string name = first ? "labels" : "labels-" + stock->stock.name;
        if (outcome.unfit.empty()) return keep(outcome, name, place);
        // Small labels are for cups: what a bottle's label must say may take more room than theirs.
        const auto stocks = all_stocks(session_);
        const auto& moved = outcome.unfit_choices;
        if (!std::ranges::all_of(moved,
                                 [&](const auto& one) { return may_go_on_plain(*maker_, one); }))
            refuse(outcome.unfit, *stock, papers_.faces, stocks);
        options.start_at = 1;
        const auto plain = on_plain_paper(*maker_, moved, session_, papers_.faces, stocks, options);
        if (!plain) refuse(outcome.unfit, *stock, papers_.faces, stocks);
        std::vector<std::string> names;
        for (const auto& one : moved)
            names.push_back(session_.plan.containers.at(one.container).id);
        const templates::Stock& paper = plain->imposer->stock().stock;
        LabelWarnings(session_, languages_, place)
            .warn("vessels-on-plain-paper",
                  diag::say("{} is too small for what these labels must say, so they go on "
                            "{}, to cut from plain paper: {}",
                            described(stock->stock), described(paper), listed(names)),
                  "use larger labels (--stock) to have all on one sheet");
        if (!outcome.fit.empty()) keep(outcome, name, place);
        keep(*plain, name + "-" + paper.name, place);
    }

  private:
    void keep(const Outcome& made, const std::string& name, const diag::Place& place) {
        LabelWarnings warnings(session_, languages_, place);
        for (const auto& one : made.fit) {
            const std::string& id = session_.plan.containers.at(one.choice.container).id;
            warnings.note(id, *one.report);
            if (one.choice.speech != document::Speech::both) warnings.note_pair(id);
        }
        warnings.tell(made.imposer->stock().stock);
        papers_.labels.emplace_back(maker_, made.imposer, choices_of(made), name);
    }

    void say_too_small(const StockRun& run) {
        session_.found.error(
            "compact-alone", run.stock.place,
            diag::say("'{}' leaves out what a label must say: it is for lids of containers that "
                      "have a label on their wall too",
                      *run.stock),
            diag::say("name a stock that says all first, as in labels: [a4-strip-40, {}]",
                      *run.stock));
    }

    Session& session_;
    const PaperChoice& choice_;
    const std::vector<std::string>& languages_;
    std::shared_ptr<const document::LabelMaker> maker_;
    Papers& papers_;
};

}  // namespace

void add_labels(Session& session, const PaperChoice& choice,
                const std::vector<std::string>& languages, Papers& papers) {
    std::vector<const text::Catalog*> spoken;
    spoken.reserve(languages.size());
    for (const auto& language : languages) spoken.push_back(&session.words(language));
    auto maker = std::make_shared<const document::LabelMaker>(*session.job, session.plan,
                                                              session.who, spoken);
    const auto wanted = choice.stations ? in_both(choice.stations->labels) : all_labels(*maker);
    const auto runs = runs_of(session, *maker, choice.stock, wanted);
    LabelSetter setter(session, choice, languages, std::move(maker), papers);
    for (const StockRun& run : runs) setter.add(run, &run == &runs.front());
}

void add_alignment(Session& session, const PaperChoice& choice, Papers& papers) {
    const auto stock = chosen_stock(session, choice.stock, session.found);
    if (!stock) return;
    papers.all.push_back(
        {"alignment.pdf", layout::alignment_page(stock->stock, papers.faces, stock->stock.name,
                                                 options_of(choice))});
}

std::vector<LabelOnStock> label_reports(Session& session, const fonts::Faces& faces) {
    diag::Diagnostics unread;  // a stock that is not there is `check`'s to say
    std::vector<const text::Catalog*> spoken;
    for (const auto& language : session.job->languages) spoken.push_back(&session.words(*language));
    const document::LabelMaker maker(*session.job, session.plan, session.who, spoken);
    std::vector<LabelOnStock> out(maker.size());
    const auto note = [&](const Outcome& outcome) {
        for (const auto& one : outcome.fit) {
            auto& report = out[one.choice.container].report;
            // Of two labels the one that says less.
            if (report != nullptr &&
                report->statements_left_out.size() >= one.report->statements_left_out.size())
                continue;
            out[one.choice.container] = {one.report, outcome.imposer->stock().stock.name};
        }
    };
    try {
        for (const StockRun& run : runs_of(session, maker, {}, all_labels(maker))) {
            const auto stock = read_stock(session, run.stock, unread);
            // What stands beside a label that says all says nothing more.
            if (!stock || stock->design.compact) continue;
            const auto outcome = set_labels(maker, session.plan, run.wanted, *stock, faces, {});
            note(outcome);
            std::vector<document::LabelChoice> moved;
            for (const auto& one : outcome.unfit_choices)
                if (one.container >= maker.containers() || out[one.container].report != nullptr)
                    moved.push_back(one);
            if (moved.empty()) continue;
            const auto stocks = all_stocks(session);
            if (const auto plain = on_plain_paper(maker, moved, session, faces, stocks, {}))
                note(*plain);
        }
    } catch (const layout::LayoutError&) {
        out.clear();  // a design that leaves out what must be there
    }
    return out;
}

}  // namespace gallipot::app
