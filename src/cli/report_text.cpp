#include "cli/report_text.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "cli/table.hpp"
#include "papers/document/bait_strength.hpp"
#include "papers/document/building_words.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/report_tables.hpp"
#include "papers/document/station_history.hpp"
#include "papers/document/verdict_words.hpp"

namespace gallipot::cli {
namespace {

using analysis::Day;
using analysis::Report;
using analysis::StationReport;
using text::Catalog;

std::string heading(const Catalog& words, const char* key) {
    return words(std::string("report.") + key);
}

void add_sentence(std::string& text, const std::string& sentence) {
    if (sentence.empty()) return;
    if (!text.empty()) text += ' ';
    text += sentence;
}

std::string day_text(Day on, const Report& report, const Catalog& words) {
    return document::near_day(on, report.as_of, words);
}

std::string summary(const document::PlotSource& source, const std::vector<analysis::Round>& walks) {
    const auto& [job, sites, histories, report, words] = source;
    std::string text;
    const bool several = report.pests.size() > 1;
    for (const auto& [pest, verdict, evidence, except] : document::pest_lines(job, report, words)) {
        std::string line = (several ? pest + ": " : "") + verdict;
        add_sentence(line, except);
        text += line + '\n';
        if (!evidence.empty()) text += evidence + '\n';
    }
    std::string building = document::building_sentence(job, report, words);
    add_sentence(building, document::call_sentence(report, words));
    if (!building.empty()) text += building + '\n';
    std::string next = document::next_round_sentence(report, walks, words);
    add_sentence(next, document::see_to_sentence(report, words));
    if (!next.empty()) text += next + '\n';
    const std::string left_out = document::left_out_sentence(report, words);
    if (!left_out.empty()) text += left_out + '\n';
    const std::string recipes = document::recipes_sentence(job, sites, words);
    if (!recipes.empty()) text += recipes + '\n';
    for (const text::StyledText& warning :
         document::warnings_of(document::wood_pests(job), job, words))
        text += text::plain(warning) + '\n';
    return text;
}

std::string counts_plot(const StationReport& station) {
    std::vector<double> seen;
    for (const analysis::Total& total : station.counts.totals) seen.push_back(total.seen);
    return small_plot(seen, station.trend.highest);
}

/// Of the container that is empty first.
std::string level_plot(const document::PlotSource& source, std::size_t index) {
    const analysis::Site& site = source.sites[index];
    const StationReport& station = source.report.stations[index];
    if (site.control || site.sprayed) return {};
    const auto paths =
        analysis::level_paths(site, source.histories.until(index, source.report.as_of));
    const analysis::Level* first = station.feeding.first_empty();
    const std::size_t shown = first != nullptr && first->container > 0
                                  ? static_cast<std::size_t>(first->container - 1)
                                  : 0;
    std::vector<double> levels;
    for (const auto& [time, percent] : paths.at(shown)) levels.push_back(percent);
    std::string text = levels.size() > 1 ? small_plot(levels, 100, 12) : std::string();
    const analysis::Level& level = first != nullptr ? *first : station.feeding.levels.front();
    if (level.left_percent && levels.size() > 1)
        text += " " + source.words.percent(*level.left_percent / 100);
    return text;
}

std::string stations_table(const document::PlotSource& source, const Terminal& terminal) {
    const Catalog& words = source.words;
    Table table({{heading(words, "table.station"), false, true},
                 {heading(words, "table.counts"), false, true},
                 {heading(words, "table.first"), true},
                 {heading(words, "table.last"), true},
                 {heading(words, "table.change"), true},
                 {heading(words, "table.half"), true},
                 {heading(words, "table.level")},
                 {heading(words, "table.empty"), true},
                 {heading(words, "table.flags")}});
    const auto count = [&](double seen) { return document::count_text(seen, words); };
    for (std::size_t i = 0; i < source.report.stations.size(); ++i) {
        const StationReport& station = source.report.stations[i];
        const analysis::Trend& t = station.trend;
        std::string half;
        if (document::shows_fall(t)) {
            half = document::days_text(t.half->days, words);
            const std::string range = document::fall_range(*t.half, words);
            if (!range.empty()) half += " (" + range + ")";
        }
        std::vector<std::string> flags;
        for (const analysis::Flag flag : station.flags)
            flags.push_back(document::flag_name(flag, words));
        const analysis::Level* empty = station.feeding.first_empty();
        table.row({station.id, counts_plot(station), t.counts > 0 ? count(t.first.seen) : "",
                   t.counts > 1 ? count(t.last.seen) : "",
                   t.counts > 1 && t.change_percent
                       ? document::change_text(*t.change_percent, words)
                       : "",
                   half, level_plot(source, i),
                   empty ? day_text(analysis::day_of(empty->empty->at), source.report, words) : "",
                   words.list(flags)});
    }
    return table.text(terminal, words.language());
}

std::string verdicts(const document::PlotSource& source, const plan::Plan& plan) {
    const Catalog& words = source.words;
    std::string text;
    for (std::size_t i = 0; i < source.report.stations.size(); ++i) {
        const StationReport& station = source.report.stations[i];
        std::string line = document::verdict_sentence(station, source.report.as_of, words);
        add_sentence(line, document::changes_sentence(source.job, i, source.report.as_of, words));
        add_sentence(line, document::effect_sentence(station.efficacy, source.report.as_of, words));
        add_sentence(line, document::caution_sentence(station.caution, words));
        add_sentence(line, document::counting_sentence(station, words));
        add_sentence(line,
                     document::bait_strength_sentence(plan, station, source.report.as_of, words));
        text += "  " + station.id + ": " + line + '\n';
        for (const std::string& sentence :
             document::step_sentences(station, source.report.as_of, words))
            text += "    " + sentence + '\n';
    }
    return text;
}

std::string visits_table(const document::PlotSource& source,
                         const std::vector<analysis::Round>& walks, const Terminal& terminal) {
    const Catalog& words = source.words;
    Table table({{heading(words, "round.day")},
                 {heading(words, "round.station")},
                 {heading(words, "round.place")},
                 {heading(words, "round.do")}});
    for (const analysis::Round& walk : walks) {
        bool first = true;
        for (const analysis::Stop& stop : walk.stops) {
            const StationReport& station = source.report.stations[stop.station];
            table.row(
                {first ? day_text(walk.on, source.report, words) : "", station.id,
                 source.job.stations[stop.station].where(words.tag()),
                 document::action_sentences(station, stop.steps, source.report.as_of, words)});
            first = false;
        }
    }
    return table.text(terminal, words.language());
}

std::string used_table(const document::PlotSource& source, const Terminal& terminal) {
    const Catalog& words = source.words;
    Table table({{heading(words, "used.mix")},
                 {heading(words, "used.put_out"), true},
                 {heading(words, "used.gone"), true},
                 {heading(words, "used.cost"), true}});
    for (const analysis::MixUse& use : source.report.used) {
        const job::Mix* mix = source.job.mix(use.mix);
        const std::string at_most =
            use.containers.at_most ? heading(words, "used.at_most") + ' ' : "";
        std::string cost;
        if (use.cost) {
            cost = at_most + words.number(*use.cost, text::Figures::two_decimals);
            if (!source.job.currency.empty()) cost += ' ' + source.job.currency;
        }
        table.row({mix == nullptr ? use.mix : mix->title->in(words.tag()),
                   at_most + words.usual(use.put_out), at_most + words.usual(use.gone), cost});
    }
    return table.text(terminal, words.language());
}

/// A table of a paper, for the terminal.
std::string plain_table(const document::Table& paper, const Catalog& words,
                        const Terminal& terminal) {
    std::vector<Table::Column> columns;
    for (const document::Column& column : paper.columns)
        columns.push_back({text::plain(column.heading), column.align == document::Align::right});
    Table table(columns);
    for (const auto& cells : paper.rows) {
        std::vector<std::string> row;
        for (const document::Cell& cell : cells) row.push_back(text::plain(cell.text));
        table.row(row);
    }
    return table.text(terminal, words.language());
}

}  // namespace

std::string small_plot(const std::vector<double>& figures, double highest, std::size_t maximum) {
    constexpr std::array<const char*, 9> bars{"·", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};
    std::string text;
    const std::size_t shown = std::min(figures.size(), maximum);
    for (std::size_t i = 0; i < shown; ++i) {
        const std::size_t from = i * figures.size() / shown;
        const std::size_t to = (i + 1) * figures.size() / shown;
        double sum = 0;
        for (std::size_t f = from; f < to; ++f) sum += figures[f];
        const double share = highest > 0 ? sum / static_cast<double>(to - from) / highest : 0;
        text += bars.at(static_cast<std::size_t>(std::ceil(std::clamp(share, 0.0, 1.0) * 8)));
    }
    return text;
}

std::string report_text(const document::PlotSource& source, const plan::Plan& plan,
                        const std::vector<analysis::Round>& walks, Detail detail,
                        const Terminal& terminal) {
    const Catalog& words = source.words;
    const auto head = [&](const std::string& text) {
        return painted(terminal, Paint::heading, text) + "\n\n";
    };
    const auto sentences = [&](const std::string& text) {
        constexpr std::size_t deeper = 2;
        return paragraphs(text, terminal, words.language(), deeper);
    };
    std::string text = head(words(
        "report.kicker", {{"job", source.job.title->in(source.words.tag())},
                          {"day", words.date(std::chrono::year_month_day(source.report.as_of))}}));
    if (detail == Detail::summary) {
        text += paragraphs(summary(source, walks), terminal, words.language()) + '\n' +
                plain_table(document::verdict_table(source), words, terminal);
        if (!walks.empty())
            text += '\n' + head(heading(words, "acts.heading")) +
                    plain_table(document::acts_table(source, {walks.front()}), words, terminal);
        return text;
    }
    text += paragraphs(summary(source, walks), terminal, words.language()) + '\n' +
            stations_table(source, terminal) + '\n' + sentences(verdicts(source, plan));
    if (!walks.empty())
        text +=
            '\n' + head(heading(words, "round.heading")) + visits_table(source, walks, terminal);
    if (!source.report.used.empty())
        text += '\n' + head(heading(words, "used.heading")) + used_table(source, terminal);
    return text;
}

}  // namespace gallipot::cli
