#include "papers/document/report_sheets.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "domain/plan/rooms.hpp"
#include "papers/document/building_words.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/report_tables.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/takeover_sheet.hpp"
#include "papers/document/verdict_words.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::document {

namespace {

using analysis::Day;
using analysis::StationReport;
using text::Catalog;

class ReportSheet {
  public:
    ReportSheet(const PlotSource& source, const plan::Plan& plan,
                const std::vector<analysis::Round>& walks)
        : source_(source),
          plan_(plan),
          job_(source.job),
          report_(source.report),
          words_(source.words),
          walks_(walks) {}

    Sheet make() {
        Sheet sheet;
        sheet.bookmark = words_("report.bookmark");
        const std::string day = words_.date(std::chrono::year_month_day(report_.as_of));
        sheet.kicker =
            words_.rich("report.kicker", {{"job", job_.title->in(words_.tag())}, {"day", day}});
        sheet.title = words_.rich("report.title");
        summary();
        std::vector<std::size_t> all(report_.stations.size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        if (many()) {
            heading("report.by_verdict.heading");
            blocks_.emplace_back(verdict_table(source_));
            add_report_floors(source_, blocks_);
            table("report.worst", to_do_table(source_, plan_, worst(), false));
            table("report.acts.heading", acts_table(source_, walks_));
        } else {
            add_report_floors(source_, blocks_);
            table("report.do.heading", to_do_table(source_, plan_, all, true));
        }
        table("report.table.heading", figures_table(source_, many()));
        if (many()) table("report.notes.heading", notes_table(source_, plan_));
        plots();
        if (!report_.used.empty()) {
            heading("report.used.heading");
            blocks_.emplace_back(used());
        }
        if (!walks_.empty() && !many()) {
            heading("report.round.heading");
            blocks_.emplace_back(round());
        }
        sheet.blocks = std::move(blocks_);
        sheet.footer_left = words_.rich("report.footer");
        sheet.footer_right = words_.rich("report.made", {{"day", day}});
        return sheet;
    }

  private:
    /// More than anybody reads one by one: the worst are told first, and the same acts once.
    [[nodiscard]] bool many() const {
        constexpr std::size_t at_a_glance = 12;
        return report_.stations.size() > at_a_glance;
    }
    /// Those that need it most: what does not get better, and where somebody should be called.
    [[nodiscard]] std::vector<std::size_t> worst() const {
        constexpr std::size_t most = 10;
        std::vector<std::size_t> which;
        for (const std::size_t i : analysis::worst_first(report_)) {
            const bool called = std::ranges::find(report_.building.call_professional, i) !=
                                report_.building.call_professional.end();
            if (which.size() < most && (called || analysis::badness(report_.stations[i].verdict) >=
                                                      analysis::badness(analysis::Verdict::lower)))
                which.push_back(i);
        }
        return which;
    }
    void table(const char* key, Table table) {
        if (table.rows.empty()) return;
        heading(key);
        blocks_.emplace_back(std::move(table));
    }

    void heading(const char* key) { blocks_.emplace_back(Heading{words_.rich(key)}); }
    [[nodiscard]] std::string day(Day on) const { return near_day(on, report_.as_of, words_); }
    [[nodiscard]] std::string day(analysis::LocalTime time) const {
        return day(analysis::day_of(time));
    }
    [[nodiscard]] std::string count(double seen) const { return count_text(seen, words_); }

    void summary() {
        for (const auto& [pest, verdict, evidence, except] : pest_lines(job_, report_, words_)) {
            blocks_.emplace_back(
                Paragraph{bold(report_.pests.size() > 1 ? headed(words_, pest, verdict) : verdict),
                          Voice::large});
            StyledText more = bold(except);
            add_sentence(more, regular(evidence));
            if (!more.empty()) blocks_.emplace_back(Paragraph{std::move(more)});
        }
        StyledText building = bold(building_sentence(job_, report_, words_));
        add_sentence(building, bold(call_sentence(report_, words_)));
        if (!building.empty()) blocks_.emplace_back(Paragraph{std::move(building)});
        StyledText next = bold(next_round_sentence(report_, walks_, words_));
        add_sentence(next, regular(see_to_sentence(report_, words_)));
        if (!next.empty()) blocks_.emplace_back(Paragraph{std::move(next)});
        const StyledText left_out = regular(left_out_sentence(report_, words_));
        if (!left_out.empty()) blocks_.emplace_back(Paragraph{left_out});
        const StyledText recipes = regular(recipes_sentence(job_, source_.sites, words_));
        if (!recipes.empty()) blocks_.emplace_back(Paragraph{recipes});
        add_warnings(wood_pests(job_), job_, words_, blocks_);
    }

    void plots() {
        heading("report.plots.heading");
        Plots plots = report_plots(source_, many() ? most_plots : report_.stations.size());
        const auto stations_with_plots = static_cast<std::size_t>(std::ranges::count_if(
            report_.stations,
            [](const StationReport& station) { return !station.counts.empty(); }));
        if (plots.plots.empty()) {
            blocks_.emplace_back(Paragraph{words_.rich("report.plots.none")});
            return;
        }
        StyledText how = words_.rich("report.plots.above");
        add_sentence(how, words_.rich("report.plots.below"));
        if (plots.plots.size() < stations_with_plots)
            add_sentence(
                how, words_.rich("report.plots.only", {{"n", std::to_string(plots.plots.size())}}));
        blocks_.emplace_back(Paragraph{std::move(how), Voice::small});
        blocks_.emplace_back(report_plot_key(source_));
        blocks_.emplace_back(std::move(plots));
    }

    static constexpr std::size_t most_plots = 24;

    [[nodiscard]] std::string money(double amount) const {
        const std::string figure = words_.number(amount, text::Figures::two_decimals);
        return job_.currency.empty() ? figure : figure + "\u00a0" + job_.currency;
    }

    [[nodiscard]] Table used() const {
        Table table;
        table.columns = {{words_.rich("report.used.mix"), Align::left, 2},
                         {words_.rich("report.used.put_out"), Align::right, 0},
                         {words_.rich("report.used.gone"), Align::right, 0},
                         {words_.rich("report.used.cost"), Align::right, 0}};
        for (const analysis::MixUse& use : report_.used) {
            const job::Mix* mix = job_.mix(use.mix);
            const std::string at_most =
                use.containers.at_most ? words_("report.used.at_most") + " " : "";
            const double containers = std::round(use.containers.put_out * 10) / 10;
            table.rows.push_back(
                {{regular(mix == nullptr ? use.mix : mix->title->in(words_.tag())), {}},
                 {regular(at_most + words_.usual(use.put_out)),
                  words_.rich("report.used.containers", {{"n", containers}})},
                 {regular(at_most + words_.usual(use.gone)), words_.rich("report.used.gone_note")},
                 {regular(use.cost ? at_most + money(*use.cost) : "–"), {}}});
        }
        return table;
    }

    [[nodiscard]] Table round() const {
        Table table;
        table.columns = {{words_.rich("report.round.day"), Align::left, 0},
                         {words_.rich("report.round.station"), Align::left, 0},
                         {words_.rich("report.round.place"), Align::left, 1},
                         {words_.rich("report.round.do"), Align::left, 2}};
        for (const analysis::Round& walk : walks_) {
            bool first = true;
            for (const analysis::Stop& stop : walk.stops) {
                const StationReport& station = report_.stations[stop.station];
                // The day again in plain type, so that a row on the next page still says it.
                table.rows.push_back(
                    {{{{day(walk.on), first}}, {}},
                     {bold(station.id), {}},
                     {regular(job_.stations[stop.station].where(words_.tag())), {}},
                     {regular(action_sentences(station, stop.steps, report_.as_of, words_)), {}}});
                first = false;
            }
        }
        return table;
    }

    const PlotSource& source_;
    const plan::Plan& plan_;
    const job::Job& job_;
    const analysis::Report& report_;
    const Catalog& words_;
    const std::vector<analysis::Round>& walks_;
    std::vector<Block> blocks_;
};

}  // namespace

std::vector<Sheet> report_sheets(const PlotSource& source, const plan::Plan& plan,
                                 const std::vector<analysis::Round>& walks,
                                 const safety::WhoToCall& who) {
    return {ReportSheet(source, plan, walks).make(),
            takeover_sheet(source.job, plan, source.report, who, source.words)};
}

}  // namespace gallipot::document
