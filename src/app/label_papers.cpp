#include "app/label_papers.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>
#include <optional>
#include <set>
#include <span>

#include "app/overflows.hpp"
#include "domain/safety/precautions.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/layout/label_fit.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/templates/library.hpp"

namespace gallipot::app {
namespace {

using layout::LabelReport;
using layout::LabelStock;
using units::in_mm;

/// Names beyond this are only counted.
constexpr std::size_t names_shown = 4;

templates::Library library_of(const Session& session) {
    std::vector<std::filesystem::path> folders;
    if (session.data.own_templates) folders.push_back(*session.data.own_templates);
    folders.push_back(session.data.templates);
    return templates::Library(folders);
}

std::optional<LabelStock> chosen_stock(const Session& session, const std::string& instead,
                                       diag::Diagnostics& out) {
    const auto library = library_of(session);
    const auto wanted = instead.empty()
                            ? session.job->labels
                            : diag::At<std::string>{instead, place_of_option("--stock", instead)};
    auto stock = library.stock(wanted, out);
    if (!stock) return {};
    auto design = library.design(*stock, out);
    if (!design) return {};
    return LabelStock{std::move(*stock), std::move(*design)};
}

/// Every other stock there is, to name one that would do where this one does not.
std::vector<LabelStock> all_stocks(const Session& session) {
    const auto library = library_of(session);
    std::vector<LabelStock> out;
    for (auto& stock : library.stocks()) {
        diag::Diagnostics unread;
        if (auto design = library.design(stock, unread))
            out.push_back({std::move(stock), std::move(*design)});
    }
    return out;
}

layout::LabelOptions options_of(const PaperChoice& choice) {
    layout::LabelOptions options;
    options.start_at = choice.start_at;
    options.offset = {choice.offset_x_mm, choice.offset_y_mm};
    options.copies = choice.copies;
    return options;
}

/// "K1-1, K1-2 and 3 more", each name once.
std::string listed(const std::vector<std::string>& names) {
    std::vector<std::string> once;
    for (const auto& name : names)
        if (std::find(once.begin(), once.end(), name) == once.end()) once.push_back(name);
    std::string list;
    for (std::size_t i = 0; i < std::min(once.size(), names_shown); ++i)
        list += (i > 0 ? ", " : "") + once[i];
    if (once.size() > names_shown) list += fmt::format(" and {} more", once.size() - names_shown);
    return list;
}

std::string described(const templates::Stock& stock) {
    return fmt::format("{} ({:.1f} x {:.1f} mm)", stock.name, in_mm(stock.label_width),
                       in_mm(stock.label_height));
}

/// What to do about a check of a code that is not good.
std::string remedy(const std::string& check) {
    if (check == "curvature") return "use wider containers, or lid labels (--stock)";
    if (check == "printer-dots") return "use a printer with more dots, or larger labels (--stock)";
    return "use larger labels (--stock), or a shorter log.address";
}

/// What is to be said about many labels is said once.
class Warnings {
  public:
    Warnings(Session& session, const std::vector<std::string>& languages, diag::Place place)
        : session_(session), languages_(languages), place_(std::move(place)) {}

    /// A label is set so; tell() will say what of it is worth saying.
    void note(const std::string& name, const LabelReport& report) {
        if (report.container) {
            on_small_[{report.container->width, report.container->height}].push_back(name);
        }
        if (const auto& larger = report.rules_ask) {
            small_.push_back(name);
            asked_ = {std::max(asked_.width, larger->width),
                      std::max(asked_.height, larger->height)};
        }
        if (report.type_points < layout::readable_points - 0.05) {
            small_type_.push_back(name);
            smallest_points_ = std::min(smallest_points_, report.type_points);
        }
        if (const auto missing = left_out(report); !missing.empty())
            left_out_[missing].push_back(name);
        for (const auto& check : report.checks) {
            if (check.verdict == qr::Verdict::good) continue;
            codes_[check.name].push_back(name);
            auto [at, is_new] = worst_.try_emplace(check.name, check);
            if (!is_new && check.verdict > at->second.verdict) at->second = check;
        }
    }

    /// One of two labels, each in a language of its own.
    void note_pair(const std::string& name) { pairs_.push_back(name); }

    void tell(const templates::Stock& stock) {
        if (!pairs_.empty())
            warn("label-in-each-language",
                 fmt::format("{} has no room for two languages in full and in easy type, so there "
                             "are two labels each, in '{}' and in '{}': {}",
                             described(stock), languages_.at(0), languages_.at(1), listed(pairs_)),
                 "stick both on, side by side; or use larger labels (--stock) to have both on one");
        for (const auto& [room, labels] : on_small_)
            warn("label-larger-than-container",
                 fmt::format("labels of {} are larger than the lid, or the side of the wall, that "
                             "they go on ({:.0f} x {:.0f} mm): {}",
                             described(stock), room.first, room.second, listed(labels)),
                 "use smaller labels, round ones for lids or strips (--stock), or larger "
                 "containers");
        if (!small_.empty())
            warn("label-smaller-than-rules-ask",
                 fmt::format("for containers this large EU rules (CLP Annex I, Table 1.3) ask for "
                             "labels of up to {:.0f} x {:.0f} mm; these are smaller, {}: {}",
                             asked_.width, asked_.height, described(stock), listed(small_)),
                 "use larger labels (--stock)");
        for (const auto& [missing, labels] : left_out_)
            warn("label-leaves-out",
                 fmt::format("for want of room on {} labels leave out {}: {}", described(stock),
                             missing, listed(labels)),
                 "use larger labels (--stock); the household sheet has all statements in full");
        if (!small_type_.empty())
            warn("label-type-small",
                 fmt::format("labels in type of {:.1f} pt, where {:.0f} pt is easy to read, on {}: "
                             "{}",
                             smallest_points_, layout::readable_points, described(stock),
                             listed(small_type_)),
                 "use larger labels (--stock), or fewer languages");
        for (const auto& [name, labels] : codes_)
            warn("code-" + name,
                 fmt::format("codes on {}: {}", listed(labels), worst_.at(name).sentence),
                 remedy(name));
    }

    void warn(std::string code, std::string message, std::string hint) {
        session_.found.warning(std::move(code), place_, std::move(message), std::move(hint));
    }

  private:
    /// "P201, P264, contact"; empty when everything is there.
    static std::string left_out(const LabelReport& report) {
        std::string list;
        const auto add = [&](std::string_view what) {
            if (!list.empty()) list += ", ";
            list += what;
        };
        for (const auto& code : report.statements_left_out) {
            const auto published = safety::published_code(code);
            add(published.empty() ? code : published);
        }
        for (const auto part : report.left_out)
            // Its statements stand there by their codes.
            if (part != document::Part::precautions) add(templates::name(part));
        for (const auto part : report.shortest)
            add(part == document::Part::dates ? "days of making and placing"
                                              : "ingredients but borates");
        return list;
    }

    Session& session_;
    const std::vector<std::string>& languages_;
    diag::Place place_;
    std::vector<std::string> pairs_, small_, small_type_;
    /// By what they go on, mm.
    std::map<std::pair<double, double>, std::vector<std::string>> on_small_;
    std::map<std::string, std::vector<std::string>> left_out_;  ///< by what is missing
    double smallest_points_ = 1000;
    layout::Size asked_;
    std::map<std::string, std::vector<std::string>> codes_;
    std::map<std::string, qr::Check> worst_;
};

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
    std::shared_ptr<const LabelReport> report;
};

/// How labels of a job come out on one stock.
struct Outcome {
    std::shared_ptr<layout::LabelImposer> imposer;
    std::vector<LabelSet> fit;
    std::vector<Unfit> unfit;                          ///< in order of the first of each
    std::vector<document::LabelChoice> unfit_choices;  ///< in order
    bool pairs = false;                                ///< some have a label in each language
};

/// The labels of these containers, in both languages.
std::vector<document::LabelChoice> in_both(std::span<const std::size_t> containers) {
    std::vector<document::LabelChoice> choices;
    choices.reserve(containers.size());
    for (const std::size_t container : containers) choices.push_back({container});
    return choices;
}

std::vector<document::LabelChoice> all_labels(const document::LabelMaker& maker) {
    std::vector<std::size_t> all(maker.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return in_both(all);
}

/// Whether a label may go on plain paper where the stock is too small for it: of a vessel, or the
/// one of two that speaks the second language.
bool may_go_on_plain(const document::LabelMaker& maker, const document::LabelChoice& choice) {
    return choice.container >= maker.containers() || choice.speech == document::Speech::second;
}

/// Gathers labels, some at a time; the imposer's number of each.
std::vector<std::size_t> gather(const document::LabelMaker& maker,
                                std::span<const document::LabelChoice> choices,
                                layout::LabelImposer& imposer) {
    std::vector<std::size_t> numbers;
    numbers.reserve(choices.size());
    for (std::size_t begin = 0; begin < choices.size(); begin += LabelRun::labels_a_volume) {
        const auto some =
            choices.subspan(begin, std::min(LabelRun::labels_a_volume, choices.size() - begin));
        const auto more = imposer.gather(maker(some));
        numbers.insert(numbers.end(), more.begin(), more.end());
    }
    return numbers;
}

/// Whether a label that is set so leaves nothing to wish for but larger type.
bool in_full(const LabelReport* report) {
    return report != nullptr && report->whole() &&
           report->type_points >= layout::readable_points - 0.05;
}

/// Sets labels on a stock: in both languages where all labels of a mix have room for both, else one
/// in each language.
Outcome set_labels(const document::LabelMaker& maker, const plan::Plan& plan,
                   const std::vector<document::LabelChoice>& wanted, const LabelStock& stock,
                   const fonts::Faces& faces, const layout::LabelOptions& options) {
    Outcome out;
    const auto start = [&] {
        out.imposer = std::make_shared<layout::LabelImposer>(stock, faces, options);
    };
    start();
    std::vector<document::LabelChoice> choices = wanted;
    auto numbers = gather(maker, choices, *out.imposer);
    if (maker.two_languages()) {
        std::set<std::string> apart;  // mixes
        for (std::size_t i = 0; i < choices.size(); ++i) {
            if (choices[i].speech != document::Speech::both) continue;
            const std::string& mix = plan.containers.at(choices[i].container).mix;
            if (!apart.contains(mix) && !in_full(out.imposer->setting(numbers[i]).report.get()))
                apart.insert(mix);
        }
        if (!apart.empty()) {
            out.pairs = true;
            choices.clear();
            for (const document::LabelChoice& one : wanted) {
                const bool both = one.speech == document::Speech::both;
                if (!both || !apart.contains(plan.containers.at(one.container).mix)) {
                    choices.push_back(one);
                    continue;
                }
                choices.push_back({one.container, document::Speech::first});
                choices.push_back({one.container, document::Speech::second});
            }
            start();
            numbers = gather(maker, choices, *out.imposer);
        }
    }
    std::map<const layout::LabelOverflow*, std::size_t> known;
    for (std::size_t i = 0; i < choices.size(); ++i) {
        auto setting = out.imposer->setting(numbers[i]);
        if (setting.report != nullptr) {
            out.fit.push_back({choices[i], std::move(setting.report)});
            continue;
        }
        out.unfit_choices.push_back(choices[i]);
        const auto [at, is_new] = known.try_emplace(setting.overflow.get(), out.unfit.size());
        if (is_new) {
            auto like = maker(std::span(&choices[i], 1)).labels.front();
            out.unfit.push_back({setting.overflow, std::move(like), choices[i].speech, {}});
        }
        out.unfit[at->second].names.push_back(plan.containers.at(choices[i].container).id);
    }
    return out;
}

std::vector<document::LabelChoice> choices_of(const Outcome& outcome) {
    std::vector<document::LabelChoice> choices;
    choices.reserve(outcome.fit.size());
    for (const auto& one : outcome.fit) choices.push_back(one.choice);
    return choices;
}

/// The smallest labels to cut from the job's paper on which all of these fit, in two languages on
/// one label if that can be; nothing where there are none.
std::optional<Outcome> on_plain_paper(const document::LabelMaker& maker,
                                      const std::vector<document::LabelChoice>& wanted,
                                      const Session& session, const fonts::Faces& faces,
                                      const std::vector<LabelStock>& stocks,
                                      const layout::LabelOptions& options) {
    const bool letter = *session.job->paper == job::Paper::letter;
    std::vector<const LabelStock*> plain;
    for (const auto& one : stocks) {
        const auto& stock = one.stock;
        const bool same_page = std::abs(in_mm(stock.page_width) - (letter ? 215.9 : 210)) < 0.1;
        if (stock.cut_marks && stock.shape == templates::Shape::rectangle && same_page)
            plain.push_back(&one);
    }
    std::sort(plain.begin(), plain.end(), [](const auto* a, const auto* b) {
        const auto area = [](const LabelStock& s) {
            return s.stock.label_width * s.stock.label_height;
        };
        return area(*a) < area(*b);
    });
    std::optional<Outcome> in_pairs;
    for (const auto* one : plain) {
        auto outcome = set_labels(maker, session.plan, wanted, *one, faces, options);
        if (!outcome.unfit.empty()) continue;
        if (!outcome.pairs) return outcome;
        if (!in_pairs) in_pairs = std::move(outcome);
    }
    return in_pairs;
}

[[noreturn]] void refuse(const std::vector<Unfit>& unfit, const LabelStock& stock,
                         const fonts::Faces& faces, const std::vector<LabelStock>& others) {
    std::vector<layout::Overflow> overflows;
    overflows.reserve(unfit.size());
    const bool only_second = std::ranges::all_of(
        unfit, [](const Unfit& one) { return one.speech == document::Speech::second; });
    for (const auto& one : unfit) {
        // The label in the other language says the same.
        if (one.speech == document::Speech::second && !only_second) continue;
        overflows.push_back(layout::describe(
            *one.overflow, (one.names.size() > 1 ? "labels " : "label ") + listed(one.names),
            one.like, stock, faces, others));
    }
    throw layout::LayoutError(std::move(overflows));
}

}  // namespace

void add_labels(Session& session, const PaperChoice& choice,
                const std::vector<std::string>& languages, Papers& papers) {
    const auto stock = chosen_stock(session, choice.stock, session.found);
    if (!stock) return;
    std::vector<const text::Catalog*> spoken;
    spoken.reserve(languages.size());
    for (const auto& language : languages) spoken.push_back(&session.words(language));
    const auto maker = std::make_shared<const document::LabelMaker>(*session.job, session.plan,
                                                                    session.who, spoken);
    const auto wanted = choice.stations ? in_both(choice.stations->labels) : all_labels(*maker);
    if (wanted.empty()) return;
    const auto options = options_of(choice);
    const diag::Place chosen_at = place_of_stock(*session.job, choice.stock);
    const auto outcome = set_labels(*maker, session.plan, wanted, *stock, papers.faces, options);
    const auto keep = [&](const Outcome& made, const std::string& name) {
        Warnings warnings(session, languages, chosen_at);
        for (const auto& one : made.fit) {
            const std::string& id = session.plan.containers.at(one.choice.container).id;
            warnings.note(id, *one.report);
            if (one.choice.speech != document::Speech::both) warnings.note_pair(id);
        }
        warnings.tell(made.imposer->stock().stock);
        papers.labels.emplace_back(maker, made.imposer, choices_of(made), name);
    };
    if (outcome.unfit.empty()) return keep(outcome, "labels");
    // Small labels are for cups: what a bottle's label must say may take more room than theirs.
    const auto stocks = all_stocks(session);
    const auto& moved = outcome.unfit_choices;
    if (!std::ranges::all_of(moved, [&](const auto& one) { return may_go_on_plain(*maker, one); }))
        refuse(outcome.unfit, *stock, papers.faces, stocks);
    layout::LabelOptions whole = options;
    whole.start_at = 1;
    const auto plain = on_plain_paper(*maker, moved, session, papers.faces, stocks, whole);
    if (!plain) refuse(outcome.unfit, *stock, papers.faces, stocks);
    std::vector<std::string> names;
    for (const auto& one : moved) names.push_back(session.plan.containers.at(one.container).id);
    const templates::Stock& paper = plain->imposer->stock().stock;
    Warnings(session, languages, chosen_at)
        .warn("vessels-on-plain-paper",
              fmt::format("{} is too small for what these labels must say, so they go on "
                          "{}, to cut from plain paper: {}",
                          described(stock->stock), described(paper), listed(names)),
              "use larger labels (--stock) to have all on one sheet");
    if (!outcome.fit.empty()) keep(outcome, "labels");
    keep(*plain, "labels-" + paper.name);
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
    const auto stock = chosen_stock(session, {}, unread);
    if (!stock) return {};
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
        const auto outcome = set_labels(maker, session.plan, all_labels(maker), *stock, faces, {});
        note(outcome);
        std::vector<document::LabelChoice> moved;
        for (const auto& one : outcome.unfit_choices)
            if (one.container >= maker.containers() || out[one.container].report != nullptr)
                moved.push_back(one);
        if (moved.empty()) return out;
        const auto stocks = all_stocks(session);
        if (const auto plain = on_plain_paper(maker, moved, session, faces, stocks, {}))
            note(*plain);
    } catch (const layout::LayoutError&) {
        out.clear();  // a design that leaves out what must be there
    }
    return out;
}

}  // namespace gallipot::app
