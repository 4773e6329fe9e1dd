#include "papers/document/report_sheets.hpp"

#include <algorithm>
#include <cmath>

#include "domain/plan/rooms.hpp"
#include "papers/document/bait_strength.hpp"
#include "papers/document/building_words.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/station_history.hpp"
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
        heading("report.do.heading");
        blocks_.emplace_back(to_do());
        heading("report.table.heading");
        blocks_.emplace_back(figures());
        plots();
        if (!report_.used.empty()) {
            heading("report.used.heading");
            blocks_.emplace_back(used());
        }
        if (!walks_.empty()) {
            heading("report.round.heading");
            blocks_.emplace_back(round());
        }
        sheet.blocks = std::move(blocks_);
        sheet.footer_left = words_.rich("report.footer");
        sheet.footer_right = words_.rich("report.made", {{"day", day}});
        return sheet;
    }

  private:
    void heading(const char* key) { blocks_.emplace_back(Heading{words_.rich(key)}); }
    [[nodiscard]] std::string day(Day on) const { return near_day(on, report_.as_of, words_); }
    [[nodiscard]] std::string day(analysis::LocalTime time) const {
        return day(analysis::day_of(time));
    }
    [[nodiscard]] std::string count(double seen) const { return count_text(seen, words_); }

    void summary() {
        for (const auto& [pest, verdict, evidence, except] : pest_lines(job_, report_, words_)) {
            blocks_.emplace_back(Paragraph{
                bold((report_.pests.size() > 1 ? pest + ": " : "") + verdict), Voice::large});
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

    /// A cell with a figure and a small second line; a dash where there is none.
    static Cell figure(std::string text, std::string note = {}) {
        return {regular(text.empty() ? "–" : std::move(text)), regular(std::move(note))};
    }

    [[nodiscard]] Cell level(const StationReport& station) const {
        const analysis::Level* shown = station.feeding.first_empty();
        if (shown == nullptr && !station.feeding.levels.empty())
            shown = &station.feeding.levels.front();
        if (shown == nullptr || !shown->left_percent) return figure("");
        return figure(words_.percent(*shown->left_percent / 100), day(shown->as_read));
    }

    [[nodiscard]] Cell empty(const StationReport& station) const {
        const analysis::Level* first = station.feeding.first_empty();
        if (first == nullptr) return figure("");
        return figure(day(first->empty->at), forecast_range(*first->empty, report_.as_of, words_));
    }

    /// Of all its containers; what is shown is eaten and dried up.
    [[nodiscard]] Cell rate(const StationReport& station, const analysis::Site& site) const {
        double percent = 0;
        bool known = false;
        for (const analysis::Level& level : station.feeding.levels) {
            if (!level.percent_per_day) continue;
            percent += *level.percent_per_day;
            known = true;
        }
        if (!known || percent <= 0) return figure("");
        const double containers =
            station.feeding.levels.size() > 1 ? 1 : std::max(site.containers, 1);
        return figure(words_.usual(site.filling * (containers * percent / 100)));
    }

    [[nodiscard]] Table figures() const {
        Table table;
        const auto column = [&](const char* key, Align align = Align::right, double weight = 0) {
            table.columns.push_back(
                {words_.rich(std::string("report.table.") + key), align, weight});
        };
        column("station", Align::left, 1);
        column("first");
        column("last");
        column("change");
        column("half");
        column("tenth");
        column("level");
        column("rate");
        column("empty", Align::right, 1);
        for (std::size_t i = 0; i < report_.stations.size(); ++i) {
            const StationReport& station = report_.stations[i];
            const analysis::Trend& t = station.trend;
            std::vector<Cell> row;
            row.push_back({bold(station.id), {}});
            if (t.counts > 0) {
                row.push_back(figure(count(t.first.seen), day(t.first.time)));
                row.push_back(t.counts > 1 ? figure(count(t.last.seen), day(t.last.time))
                                           : figure(""));
            } else {
                row.push_back(figure(""));
                row.push_back(figure(""));
            }
            row.push_back(figure(
                t.change_percent && t.counts > 1 ? change_text(*t.change_percent, words_) : ""));
            const bool falls = shows_fall(t);
            row.push_back(falls
                              ? figure(days_text(t.half->days, words_), fall_range(*t.half, words_))
                              : figure(""));
            row.push_back(falls ? figure(days_text(t.tenth->days, words_)) : figure(""));
            row.push_back(level(station));
            row.push_back(rate(station, source_.sites[i]));
            row.push_back(empty(station));
            table.rows.push_back(std::move(row));
        }
        return table;
    }

    [[nodiscard]] Table to_do() const {
        Table table;
        table.columns = {{words_.rich("report.table.station"), Align::left, 3},
                         {words_.rich("report.do.verdict"), Align::left, 7},
                         {words_.rich("report.table.flags"), Align::left, 3},
                         {words_.rich("report.do.next"), Align::left, 7}};
        for (std::size_t i = 0; i < report_.stations.size(); ++i) {
            const StationReport& station = report_.stations[i];
            StyledText note = regular(changes_sentence(job_, i, report_.as_of, words_));
            add_sentence(note, regular(effect_sentence(station.efficacy, report_.as_of, words_)));
            add_sentence(note, regular(caution_sentence(station.caution, words_)));
            add_sentence(note, regular(counting_sentence(station, words_)));
            add_sentence(note,
                         regular(bait_strength_sentence(plan_, station, report_.as_of, words_)));
            std::vector<std::string> flags;
            for (const analysis::Flag flag : station.flags)
                flags.push_back(flag_name(flag, words_));
            Cell next;
            for (const std::string& sentence : step_sentences(station, report_.as_of, words_)) {
                if (next.text.empty())
                    next.text = regular(sentence);
                else
                    add_sentence(next.note, regular(sentence));
            }
            table.rows.push_back(
                {{bold(station.id), regular(where_in_report(job_, i, words_))},
                 {regular(verdict_sentence(station, report_.as_of, words_)), std::move(note)},
                 {bold(words_.list(flags)), {}},
                 std::move(next)});
        }
        return table;
    }

    void plots() {
        heading("report.plots.heading");
        Plots plots = report_plots(source_);
        if (plots.plots.empty()) {
            blocks_.emplace_back(Paragraph{words_.rich("report.plots.none")});
            return;
        }
        StyledText how = words_.rich("report.plots.above");
        add_sentence(how, words_.rich("report.plots.below"));
        add_sentence(how, words_.rich("report.plots.axis"));
        blocks_.emplace_back(Paragraph{std::move(how), Voice::small});
        blocks_.emplace_back(report_plot_key(source_));
        blocks_.emplace_back(std::move(plots));
    }

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
                 figure(use.cost ? at_most + money(*use.cost) : "")});
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
