#include "command/label_papers.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "document/make_labels.hpp"
#include "layout/misfit.hpp"
#include "templates/library.hpp"

namespace gallipot::command {
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
    const auto wanted = instead.empty() ? session.job->labels : diag::At<std::string>{instead, {}};
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

std::string in_figures(const layout::Size& lack) {
    const bool wider = lack.width >= 0.05, higher = lack.height >= 0.05;
    std::string out;
    if (wider) out += fmt::format("{:.1f} mm in width", lack.width);
    if (wider && higher) out += " and ";
    if (higher || !wider) out += fmt::format("{:.1f} mm in height", lack.height);
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

/// Labels set alike share a report: what is to be said about them is said once.
class Warnings {
  public:
    Warnings(Session& session, const std::vector<std::string>& languages)
        : session_(session), languages_(languages) {}

    void about(const layout::LabelSheets& sheets, const templates::Stock& stock) {
        std::vector<std::string> one_language;
        std::vector<std::string> small;
        layout::Size lack, asked;
        std::map<std::string, std::vector<std::string>> codes;
        std::map<std::string, qr::Check> worst;
        for (const auto& label : sheets.labels) {
            if (const auto& missing = label.report->languages_lack) {
                one_language.push_back(label.name);
                lack = {std::max(lack.width, missing->width),
                        std::max(lack.height, missing->height)};
            }
            if (const auto& larger = label.report->rules_ask) {
                small.push_back(label.name);
                asked = {std::max(asked.width, larger->width),
                         std::max(asked.height, larger->height)};
            }
            for (const auto& check : label.report->checks) {
                if (check.verdict == qr::Verdict::good) continue;
                codes[check.name].push_back(label.name);
                auto [at, is_new] = worst.try_emplace(check.name, check);
                if (!is_new && check.verdict > at->second.verdict) at->second = check;
            }
        }
        if (!one_language.empty())
            warn("one-language",
                 fmt::format(
                     "labels in '{}' alone, for in two languages they lack up to {} on {}: {}",
                     languages_.front(), in_figures(lack), described(stock), listed(one_language)),
                 "use larger labels (--stock) to have both");
        if (!small.empty())
            warn("label-smaller-than-rules-ask",
                 fmt::format("for containers this large EU rules (CLP Annex I, Table 1.3) ask for "
                             "labels of up to {:.0f} x {:.0f} mm; these are smaller, {}: {}",
                             asked.width, asked.height, described(stock), listed(small)),
                 "use larger labels (--stock)");
        for (const auto& [name, labels] : codes)
            warn("code-" + name,
                 fmt::format("codes on {}: {}", listed(labels), worst.at(name).sentence),
                 remedy(name));
    }

    void warn(std::string code, std::string message, std::string hint) {
        session_.found.warning(std::move(code), {session_.job->source, 0, 0, 1}, std::move(message),
                               std::move(hint));
    }

  private:
    Session& session_;
    const std::vector<std::string>& languages_;
};

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

}  // namespace

void add_labels(Session& session, const PaperChoice& choice,
                const std::vector<std::string>& languages, Papers& papers) {
    const auto stock = chosen_stock(session, choice.stock, session.found);
    if (!stock) return;
    std::vector<const text::Catalog*> spoken;
    for (const auto& language : languages) spoken.push_back(&session.words(language));
    auto labels = document::make_labels(*session.job, session.plan, session.who, spoken);
    const auto stocks = all_stocks(session);
    const auto options = options_of(choice);
    Warnings warnings(session, languages);
    const auto add = [&](layout::LabelSheets sheets, const LabelStock& on, std::string file) {
        warnings.about(sheets, on.stock);
        papers.all.push_back({std::move(file), std::move(sheets.paper)});
    };
    try {
        add(layout::place_labels(labels, *stock, papers.faces, options, stocks), *stock,
            "labels.pdf");
        return;
    } catch (const layout::LayoutError&) {
        // Small labels are for cups: what a bottle's label must say may take more room than theirs.
        const auto reports = layout::fit_labels(labels, *stock, papers.faces);
        document::Labels vessels = labels, rest = labels;
        vessels.labels.clear();
        rest.labels.clear();
        for (std::size_t i = 0; i < reports.size(); ++i) {
            const bool vessel = labels.labels[i].code.empty();
            if (reports[i] == nullptr && !vessel) throw;
            (reports[i] == nullptr ? vessels : rest).labels.push_back(std::move(labels.labels[i]));
        }
        if (vessels.labels.empty()) throw;
        const auto* plain = plain_paper(vessels, session, papers.faces, stocks);
        if (plain == nullptr) throw;
        std::vector<std::string> names;
        for (const auto& label : vessels.labels) names.push_back(label.name);
        warnings.warn("vessels-on-plain-paper",
                      fmt::format("{} is too small for what these labels must say, so they go on "
                                  "{}, to cut from plain paper: {}",
                                  described(stock->stock), described(plain->stock), listed(names)),
                      "use larger labels (--stock) to have all on one sheet");
        if (!rest.labels.empty())
            add(layout::place_labels(rest, *stock, papers.faces, options, stocks), *stock,
                "labels.pdf");
        layout::LabelOptions whole = options;
        whole.start_at = 1;
        add(layout::place_labels(vessels, *plain, papers.faces, whole, stocks), *plain,
            "labels-" + plain->stock.name + ".pdf");
    }
}

void add_alignment(Session& session, const PaperChoice& choice, Papers& papers) {
    const auto stock = chosen_stock(session, choice.stock, session.found);
    if (!stock) return;
    papers.all.push_back(
        {"alignment.pdf", layout::alignment_page(stock->stock, papers.faces, stock->stock.name,
                                                 options_of(choice))});
}

std::map<std::string, std::shared_ptr<const LabelReport>> label_reports(Session& session,
                                                                        const fonts::Faces& faces) {
    std::map<std::string, std::shared_ptr<const LabelReport>> out;
    diag::Diagnostics unread;  // a stock that is not there is `check`'s to say
    const auto stock = chosen_stock(session, {}, unread);
    if (!stock) return out;
    std::vector<const text::Catalog*> spoken;
    for (const auto& language : session.job->languages) spoken.push_back(&session.words(*language));
    // One label a station: the others differ in their number only.
    plan::Plan first = session.plan;
    std::vector<std::string> stations;
    for (auto& station : first.stations) {
        if (station.container_ids.empty()) continue;
        station.container_ids.resize(1);
        stations.push_back(station.id);
    }
    auto labels = document::make_labels(*session.job, first, session.who, spoken);
    labels.labels.resize(stations.size());  // without those for vessels
    try {
        const auto reports = layout::fit_labels(labels, *stock, faces);
        for (std::size_t i = 0; i < stations.size(); ++i)
            if (reports[i] != nullptr) out.emplace(stations[i], reports[i]);
    } catch (const layout::LayoutError&) {
        out.clear();  // a design that leaves out what must be there
    }
    return out;
}

}  // namespace gallipot::command
