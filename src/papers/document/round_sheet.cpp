#include "papers/document/round_sheet.hpp"

#include <algorithm>
#include <map>

#include "domain/plan/walk.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/verdict_words.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using analysis::Action;
using analysis::StationReport;
using text::Catalog;

const analysis::ContainerState* container_of(const StationReport& station, int number) {
    const auto at =
        std::ranges::find(station.containers, number, &analysis::ContainerState::number);
    return at == station.containers.end() ? nullptr : &*at;
}

/// The steps of one container as if they were of its station: the row has its name.
std::vector<analysis::Step> unnamed(std::vector<analysis::Step> steps) {
    for (analysis::Step& step : steps) step.container = 0;
    return steps;
}

class RoundTable {
  public:
    RoundTable(const job::Job& job, const analysis::Report& report, const Catalog& words)
        : job_(job), report_(report), words_(words) {
        table_.to_write = true;
        table_.columns = {{words.rich("report.round.station"), Align::left, 40},
                          {words.rich("report.round.do"), Align::left, 58},
                          {words.rich("visits.column.seen"), Align::left, 16},
                          {words.rich("visits.column.level"), Align::left, 18},
                          {words.rich("round.done"), Align::left, 16},
                          {words.rich("visits.column.note"), Align::left, 26}};
    }

    void add(const analysis::Stop& stop) {
        const StationReport& station = report_.stations.at(stop.station);
        const job::Station& asked = job_.stations.at(stop.station);
        bool first = true;
        for (const analysis::Task& task : analysis::tasks_of(station, stop)) {
            Cell where{bold(station.container_id(task.number)), {}};
            if (first) where.note = regular(words_.capital(asked.where(words_.tag())));
            StyledText found;
            if (const auto* container = container_of(station, task.number)) {
                const std::string states = states_text(container->open, words_);
                if (!states.empty()) found = bold(words_.capital(states));
            }
            const bool holds = !station.control && !asked.sprayed();
            const Cell none{regular("–"), {}};
            table_.rows.push_back(
                {std::move(where),
                 {regular(action_sentences(station, unnamed(task.steps), report_.as_of, words_)),
                  std::move(found)},
                 first ? Cell{} : none,
                 holds ? Cell{} : none,
                 {{}, {}, true},
                 {}});
            first = false;
        }
    }

    [[nodiscard]] Table take() { return std::move(table_); }

  private:
    const job::Job& job_;
    const analysis::Report& report_;
    const Catalog& words_;
    Table table_;
};

}  // namespace

std::string states_text(visit::Marks<visit::State> states, const Catalog& words) {
    std::vector<std::string> names;
    for (const visit::State state : visit::all_states())
        if (states.has(state)) names.push_back(words("flag." + std::string(visit::word(state))));
    return names.empty() ? std::string() : words.list(names);
}

std::vector<ToBring> to_bring(const job::Job& job, const analysis::Report& report,
                              const std::vector<analysis::Stop>& stops, const job::Job& made_job,
                              const plan::Plan& made, const Catalog& words) {
    std::vector<ToBring> all;
    for (const plan::Mix& mix : made.mixes)
        all.push_back({made_job.mix(mix.id)->title->in(words.tag()), words.volume(mix.needed)});
    std::map<std::string, std::int64_t> lost;  // by kind of container
    std::int64_t labels = 0;
    for (const analysis::Stop& stop : stops) {
        const StationReport& station = report.stations.at(stop.station);
        const auto& type = job.stations.at(stop.station).container;
        for (const analysis::Task& task : analysis::tasks_of(station, stop)) {
            if (station.containers.empty()) continue;
            if (analysis::is_filled_afresh(task)) ++labels;
            const bool another = std::ranges::any_of(task.steps, [](const analysis::Step& step) {
                return step.action == Action::find || step.action == Action::set_out;
            });
            if (another && type) ++lost[**type];
        }
    }
    for (const auto& [type, number] : lost)
        all.push_back({type, words.number(static_cast<double>(number), text::Figures::whole)});
    if (labels > 0)
        all.push_back({words("round.labels", {{"n", labels}}),
                       words.number(static_cast<double>(labels), text::Figures::whole)});
    return all;
}

Sheet round_sheet(const job::Job& job, const analysis::Report& report,
                  const std::vector<analysis::Stop>& stops, analysis::Day on,
                  const job::Job& made_job, const plan::Plan& made, const Catalog& words) {
    Sheet sheet;
    sheet.bookmark = words("round.bookmark");
    sheet.kicker = words.rich("round.kicker", {{"job", job.title->in(words.tag())}});
    const std::chrono::year_month_day date(on);
    sheet.title = words.rich("round.title", {{"day", words.date(date)}});
    auto& blocks = sheet.blocks;
    if (stops.empty()) blocks.emplace_back(Paragraph{words.rich("round.nothing")});
    std::vector<StyledText> bring;
    for (const ToBring& each : to_bring(job, report, stops, made_job, made, words)) {
        StyledText line = bold(each.amount);
        add_sentence(line, regular(each.what));
        bring.push_back(std::move(line));
    }
    if (!bring.empty()) {
        blocks.emplace_back(Heading{words.rich("round.bring")});
        blocks.emplace_back(Checklist{std::move(bring)});
        if (!made.mixes.empty()) blocks.emplace_back(Paragraph{words.rich("round.see_cards")});
    }
    for (std::size_t i = 0; i < stops.size();) {
        const std::string floor = plan::floor_of(job, job.stations.at(stops[i].station));
        RoundTable table(job, report, words);
        for (; i < stops.size() && plan::floor_of(job, job.stations.at(stops[i].station)) == floor;
             ++i)
            table.add(stops[i]);
        const std::string name = plan::floor_in(job, floor, words.tag());
        blocks.emplace_back(
            Heading{name.empty() ? words.rich("round.walk") : regular(words.capital(name))});
        blocks.emplace_back(table.take());
    }
    if (!stops.empty())
        blocks.emplace_back(FillIn{{{words.rich("visits.by"), Align::left, 3},
                                    {words.rich("visits.time"), Align::left, 2}},
                                   1});
    sheet.footer_left = words.rich("report.footer");
    sheet.footer_right = words.rich("report.made", {{"day", words.date(date)}});
    return sheet;
}

}  // namespace gallipot::document
