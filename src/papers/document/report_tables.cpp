#include "papers/document/report_tables.hpp"

#include <algorithm>
#include <map>

#include "papers/document/bait_strength.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/station_history.hpp"
#include "papers/document/verdict_words.hpp"

namespace gallipot::document {

namespace {

using analysis::StationReport;
using text::Catalog;

StyledText notes_of(const PlotSource& source, const plan::Plan& plan, std::size_t index) {
    const auto& [job, sites, histories, report, words] = source;
    const StationReport& station = report.stations[index];
    StyledText note = regular(changes_sentence(job, index, report.as_of, words));
    add_sentence(note, regular(counting_sentence(station, words)));
    add_sentence(note, regular(bait_strength_sentence(plan, station, report.as_of, words)));
    return note;
}

std::vector<std::string> flags_of(const StationReport& station, const Catalog& words) {
    std::vector<std::string> flags;
    for (const analysis::Flag flag : station.flags) flags.push_back(flag_name(flag, words));
    return flags;
}

}  // namespace

Table to_do_table(const PlotSource& source, const plan::Plan& plan,
                  const std::vector<std::size_t>& which, bool with_notes) {
    const auto& [job, sites, histories, report, words] = source;
    Table table;
    table.columns = {{words.rich("report.table.station"), Align::left, 3},
                     {words.rich("report.do.verdict"), Align::left, 7},
                     {words.rich("report.table.flags"), Align::left, 3},
                     {words.rich("report.do.next"), Align::left, 7}};
    for (const std::size_t i : which) {
        const StationReport& station = report.stations[i];
        StyledText note;
        if (with_notes) {
            note = regular(effect_sentence(station.efficacy, report.as_of, words));
            add_sentence(note, regular(caution_sentence(station.caution, words)));
            add_sentence(note, notes_of(source, plan, i));
        }
        Cell next;
        for (const std::string& sentence : step_sentences(station, report.as_of, words)) {
            if (next.text.empty())
                next.text = regular(sentence);
            else
                add_sentence(next.note, regular(sentence));
        }
        table.rows.push_back({{bold(station.id), regular(where_in_report(job, i, words))},
                              {regular(verdict_sentence(station, report.as_of, words)), note},
                              {bold(words.list(flags_of(station, words))), {}},
                              std::move(next)});
    }
    return table;
}

Table verdict_table(const PlotSource& source) {
    const auto& [job, sites, histories, report, words] = source;
    std::map<analysis::Verdict, std::vector<std::string>> ids;
    for (const StationReport& station : report.stations) ids[station.verdict].push_back(station.id);
    std::vector<analysis::Verdict> order;
    for (const auto& [verdict, stations] : ids) order.push_back(verdict);
    std::ranges::stable_sort(order, std::ranges::greater(), analysis::badness);
    Table table;
    table.columns = {{words.rich("report.by_verdict.how"), Align::left, 0},
                     {{}, Align::right, 0},
                     {words.rich("report.by_verdict.stations"), Align::left, 1}};
    for (const analysis::Verdict verdict : order) {
        const auto& stations = ids.at(verdict);
        table.rows.push_back(
            {{bold(verdict_name(verdict, words)), {}},
             {regular(words.number(static_cast<double>(stations.size()), text::Figures::whole)),
              {}},
             {regular(words.list(stations)), {}}});
    }
    return table;
}

Table acts_table(const PlotSource& source, const std::vector<analysis::Round>& walks) {
    const auto& [job, sites, histories, report, words] = source;
    Table table;
    table.columns = {{words.rich("report.acts.day"), Align::left, 0},
                     {words.rich("report.acts.act"), Align::left, 1},
                     {words.rich("report.acts.stations"), Align::left, 2}};
    for (const analysis::Round& walk : walks) {
        // In the order in which the walk first meets each act.
        std::vector<std::pair<std::string, std::vector<std::string>>> acts;
        for (const analysis::Stop& stop : walk.stops) {
            const StationReport& station = report.stations[stop.station];
            const std::string act = action_sentences(station, stop.steps, report.as_of, words);
            auto known = std::ranges::find(acts, act, [](const auto& each) { return each.first; });
            if (known == acts.end()) known = acts.insert(acts.end(), {act, {}});
            known->second.push_back(station.id);
        }
        bool first = true;
        for (const auto& [act, ids] : acts) {
            // The day again in plain type, so that a row on the next page still says it.
            table.rows.push_back({{{{near_day(walk.on, report.as_of, words), first}}, {}},
                                  {regular(act), {}},
                                  {regular(words.list(ids)), {}}});
            first = false;
        }
    }
    return table;
}

Table notes_table(const PlotSource& source, const plan::Plan& plan) {
    const auto& [job, sites, histories, report, words] = source;
    Table table;
    table.columns = {{words.rich("report.table.station"), Align::left, 0},
                     {words.rich("report.notes.note"), Align::left, 1}};
    for (std::size_t i = 0; i < report.stations.size(); ++i) {
        StyledText note = notes_of(source, plan, i);
        if (!note.empty())
            table.rows.push_back({{bold(report.stations[i].id), {}}, {std::move(note), {}}});
    }
    return table;
}

namespace {

/// A cell with a figure and a small second line; a dash where there is none.
Cell figure(std::string text, std::string note = {}) {
    return {regular(text.empty() ? "–" : std::move(text)), regular(std::move(note))};
}

class Figures {
  public:
    Figures(const PlotSource& source, bool brief)
        : source_(source), report_(source.report), words_(source.words), brief_(brief) {}

    Table make() {
        column("station", Align::left, brief_ ? 0 : 1);
        if (brief_) column("counts", Align::left, 0, line_width);
        column("first");
        column("last");
        if (brief_) {
            column("half");
            column("effect");
            table_.columns.push_back({words_.rich("report.by_verdict.how"), Align::left, 1});
        } else {
            for (const char* key : {"change", "half", "tenth", "level", "rate"}) column(key);
            column("empty", Align::right, 1);
        }
        for (std::size_t i = 0; i < report_.stations.size(); ++i) add_row(i);
        return std::move(table_);
    }

  private:
    static constexpr double line_width = 17;  // mm

    void column(const char* key, Align align = Align::right, double weight = 0,
                double minimum = 0) {
        table_.columns.push_back(
            {words_.rich(std::string("report.table.") + key), align, weight, minimum});
    }
    [[nodiscard]] std::string day(analysis::LocalTime time) const {
        return near_day(analysis::day_of(time), report_.as_of, words_);
    }

    void add_row(std::size_t index) {
        const StationReport& station = report_.stations[index];
        const analysis::Trend& t = station.trend;
        std::vector<Cell> row;
        row.push_back({bold(station.id), {}});
        if (brief_) {
            Cell line;
            for (const analysis::Total& total : station.counts.totals)
                line.series.push_back(total.seen);
            row.push_back(std::move(line));
        }
        const auto counted = [&](bool any, const analysis::Total& total) {
            return any ? figure(count_text(total.seen, words_), brief_ ? "" : day(total.time))
                       : figure("");
        };
        row.push_back(counted(t.counts > 0, t.first));
        row.push_back(counted(t.counts > 1, t.last));
        if (brief_)
            add_brief(station, row);
        else
            add_whole(station, index, row);
        table_.rows.push_back(std::move(row));
    }

    void add_whole(const StationReport& station, std::size_t index, std::vector<Cell>& row) const {
        const analysis::Trend& t = station.trend;
        const bool falls = shows_fall(t);
        row.push_back(
            figure(t.change_percent && t.counts > 1 ? change_text(*t.change_percent, words_) : ""));
        row.push_back(falls ? figure(days_text(t.half->days, words_), fall_range(*t.half, words_))
                            : figure(""));
        row.push_back(falls && t.tenth ? figure(days_text(t.tenth->days, words_)) : figure(""));
        row.push_back(level(station));
        row.push_back(rate(station, source_.sites[index]));
        row.push_back(empty(station));
    }

    /// On one line each, in small type.
    void add_brief(const StationReport& station, std::vector<Cell>& row) const {
        const analysis::Trend& t = station.trend;
        const auto small = [&](std::string figure, const std::string& range) {
            if (!range.empty())
                figure = words_("report.table.with_range", {{"figure", figure}, {"range", range}});
            row.push_back({{}, regular(figure.empty() ? "–" : std::move(figure))});
        };
        if (shows_fall(t))
            small(days_text(t.half->days, words_), fall_range(*t.half, words_));
        else
            small("", "");
        const analysis::Efficacy& effect = station.efficacy;
        small(effect.percent ? effect_figure(*effect.percent, words_) : "",
              effect.interval ? words_("report.table.range",
                                       {{"low", effect_figure(effect.interval->low, words_)},
                                        {"high", effect_figure(effect.interval->high, words_)}})
                              : "");
        StyledText how = regular(verdict_name(station.verdict, words_));
        std::vector<std::string> flags;
        for (const analysis::Flag flag : station.flags)
            if (flag != analysis::Flag::rebound && flag != analysis::Flag::stalled)
                flags.push_back(flag_name(flag, words_));
        if (!flags.empty()) add_joined(how, words_, Join::semicolon, bold(words_.list(flags)));
        row.push_back({{}, std::move(how)});
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

    const PlotSource& source_;
    const analysis::Report& report_;
    const Catalog& words_;
    bool brief_;
    Table table_;
};

}  // namespace

Table figures_table(const PlotSource& source, bool brief) {
    return Figures(source, brief).make();
}

}  // namespace gallipot::document
