#include "app/label_setting.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "app/label_run.hpp"
#include "papers/layout/label_fit.hpp"
#include "papers/templates/library.hpp"

namespace gallipot::app {

namespace {

using layout::LabelReport;
using layout::LabelStock;
using units::in_mm;

templates::Library library_of(const Session& session) {
    std::vector<std::filesystem::path> folders;
    if (session.data.own_templates) folders.push_back(*session.data.own_templates);
    folders.push_back(session.data.templates);
    return templates::Library(folders);
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

}  // namespace

std::optional<LabelStock> read_stock(const Session& session, const diag::At<std::string>& wanted,
                                     diag::Diagnostics& out) {
    const auto library = library_of(session);
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
        auto design = library.design(stock, unread);
        if (design && !design->compact) out.push_back({std::move(stock), std::move(*design)});
    }
    return out;
}

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

}  // namespace gallipot::app
