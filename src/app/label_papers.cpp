#include "app/label_papers.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>
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

std::string in_figures(const layout::Size& shortfall) {
    const bool wider = shortfall.width >= 0.05, higher = shortfall.height >= 0.05;
    std::string out;
    if (wider) out += fmt::format("{:.1f} mm in width", shortfall.width);
    if (wider && higher) out += " and ";
    if (higher || !wider) out += fmt::format("{:.1f} mm in height", shortfall.height);
    return out;
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
        if (const auto& missing = report.languages_lack) {
            one_language_.push_back(name);
            lack_ = {std::max(lack_.width, missing->width),
                     std::max(lack_.height, missing->height)};
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

    void tell(const templates::Stock& stock) {
        if (!one_language_.empty())
            warn(
                "one-language",
                fmt::format(
                    "labels in '{}' alone, for in two languages they lack up to {} on {}: {}",
                    languages_.front(), in_figures(lack_), described(stock), listed(one_language_)),
                "use larger labels (--stock) to have both");
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
    std::vector<std::string> one_language_, small_, small_type_;
    std::map<std::string, std::vector<std::string>> left_out_;  ///< by what is missing
    double smallest_points_ = 1000;
    layout::Size lack_, asked_;
    std::map<std::string, std::vector<std::string>> codes_;
    std::map<std::string, qr::Check> worst_;
};

/// Labels that do not fit, those alike together.
struct Unfit {
    std::shared_ptr<const layout::LabelOverflow> overflow;
    document::Label like;  ///< the first of them
    std::vector<std::size_t> which;
    std::vector<std::string> names;
};

/// How all labels of a job come out on one stock.
struct Outcome {
    std::vector<std::size_t> fit;
    std::vector<Unfit> unfit;  ///< in order of the first of each
};

/// The numbers of the labels that are wanted.
std::vector<std::size_t> wanted_labels(const document::LabelMaker& maker,
                                       const PaperChoice& choice) {
    if (choice.stations) return choice.stations->labels;
    std::vector<std::size_t> all(maker.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return all;
}

/// Fits these labels, some at a time; what is set is noted in `warnings`.
Outcome fit_all(const document::LabelMaker& maker, std::span<const std::size_t> wanted,
                layout::LabelImposer& imposer, Warnings& warnings) {
    Outcome out;
    std::map<const layout::LabelOverflow*, std::size_t> known;
    for (std::size_t begin = 0; begin < wanted.size(); begin += LabelRun::labels_a_volume) {
        const auto which =
            wanted.subspan(begin, std::min(LabelRun::labels_a_volume, wanted.size() - begin));
        const auto labels = maker(which);
        const auto settings = imposer.fit(labels);
        for (std::size_t i = 0; i < settings.size(); ++i) {
            const auto& label = labels.labels[i];
            if (settings[i].report != nullptr) {
                warnings.note(label.name, *settings[i].report);
                out.fit.push_back(which[i]);
                continue;
            }
            const auto [at, is_new] =
                known.try_emplace(settings[i].overflow.get(), out.unfit.size());
            if (is_new) out.unfit.push_back({settings[i].overflow, label, {}, {}});
            out.unfit[at->second].which.push_back(which[i]);
            out.unfit[at->second].names.push_back(label.name);
        }
    }
    return out;
}

/// The smallest labels to cut from the job's paper on which all of these fit, in all their
/// languages if that can be.
const LabelStock* plain_paper(const document::Labels& labels, const Session& session,
                              const fonts::Faces& faces, const std::vector<LabelStock>& stocks) {
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
    const LabelStock* in_one_language = nullptr;
    for (const auto* one : plain) {
        const auto reports = layout::fit_labels(labels, *one, faces);
        if (std::find(reports.begin(), reports.end(), nullptr) != reports.end()) continue;
        if (std::none_of(reports.begin(), reports.end(),
                         [](const auto& report) { return report->languages_lack.has_value(); }))
            return one;
        if (in_one_language == nullptr) in_one_language = one;
    }
    return in_one_language;
}

[[noreturn]] void refuse(const std::vector<Unfit>& unfit, const LabelStock& stock,
                         const fonts::Faces& faces, const std::vector<LabelStock>& others) {
    std::vector<layout::Overflow> overflows;
    overflows.reserve(unfit.size());
    for (const auto& one : unfit)
        overflows.push_back(layout::describe(
            *one.overflow, (one.names.size() > 1 ? "labels " : "label ") + listed(one.names),
            one.like, stock, faces, others));
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
    const auto wanted = wanted_labels(*maker, choice);
    if (wanted.empty()) return;
    const auto options = options_of(choice);
    const auto imposer = std::make_shared<layout::LabelImposer>(*stock, papers.faces, options);
    const diag::Place chosen_at = place_of_stock(*session.job, choice.stock);
    Warnings warnings(session, languages, chosen_at);
    auto outcome = fit_all(*maker, wanted, *imposer, warnings);
    if (outcome.unfit.empty()) {
        warnings.tell(stock->stock);
        papers.labels.emplace_back(maker, imposer, std::move(outcome.fit), "labels");
        return;
    }
    // Small labels are for cups: what a bottle's label must say may take more room than theirs.
    const auto stocks = all_stocks(session);
    std::vector<std::size_t> vessels;
    for (const auto& one : outcome.unfit)
        vessels.insert(vessels.end(), one.which.begin(), one.which.end());
    std::sort(vessels.begin(), vessels.end());
    if (vessels.front() < maker->containers()) refuse(outcome.unfit, *stock, papers.faces, stocks);
    const auto labels = (*maker)(vessels);
    const auto* plain = plain_paper(labels, session, papers.faces, stocks);
    if (plain == nullptr) refuse(outcome.unfit, *stock, papers.faces, stocks);
    std::vector<std::string> names;
    for (const auto& label : labels.labels) names.push_back(label.name);
    warnings.warn("vessels-on-plain-paper",
                  fmt::format("{} is too small for what these labels must say, so they go on "
                              "{}, to cut from plain paper: {}",
                              described(stock->stock), described(plain->stock), listed(names)),
                  "use larger labels (--stock) to have all on one sheet");
    if (!outcome.fit.empty()) {
        warnings.tell(stock->stock);
        papers.labels.emplace_back(maker, imposer, std::move(outcome.fit), "labels");
    }
    layout::LabelOptions whole = options;
    whole.start_at = 1;
    const auto on_plain = std::make_shared<layout::LabelImposer>(*plain, papers.faces, whole);
    Warnings others(session, languages, chosen_at);
    for (std::size_t i = 0; const auto& setting : on_plain->fit(labels))
        others.note(labels.labels[i++].name, *setting.report);
    others.tell(plain->stock);
    papers.labels.emplace_back(maker, on_plain, std::move(vessels), "labels-" + plain->stock.name);
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
    const auto fit = [&](const LabelStock& on, const std::vector<std::size_t>& which) {
        layout::LabelImposer imposer(on, faces);
        const std::span all(which);
        for (std::size_t begin = 0; begin < all.size(); begin += LabelRun::labels_a_volume) {
            const auto some =
                all.subspan(begin, std::min(LabelRun::labels_a_volume, all.size() - begin));
            const auto settings = imposer.fit(maker(some));
            for (std::size_t i = 0; i < settings.size(); ++i)
                if (settings[i].report != nullptr)
                    out[some[i]] = {settings[i].report, on.stock.name};
        }
    };
    try {
        std::vector<std::size_t> all(maker.size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        fit(*stock, all);
        std::vector<std::size_t> vessels;
        for (std::size_t i = maker.containers(); i < maker.size(); ++i)
            if (out[i].report == nullptr) vessels.push_back(i);
        if (vessels.empty()) return out;
        const auto stocks = all_stocks(session);
        if (const auto* plain = plain_paper(maker(vessels), session, faces, stocks))
            fit(*plain, vessels);
    } catch (const layout::LayoutError&) {
        out.clear();  // a design that leaves out what must be there
    }
    return out;
}

}  // namespace gallipot::app
