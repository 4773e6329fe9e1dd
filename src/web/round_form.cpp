#include "web/round_form.hpp"

#include <algorithm>

#include "papers/document/verdict_words.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::web {
namespace {

std::string prefix_of(std::size_t number) {
    return "r" + std::to_string(number) + ".";
}

/// What the next round has to do at each station, in walking order; by its index.
std::vector<std::pair<std::size_t, std::string>> stops_of(const Page& page,
                                                          const evidence::Evidence& evidence) {
    std::vector<std::pair<std::size_t, std::string>> stops;
    if (evidence.rounds.empty()) return stops;
    for (const analysis::Stop& stop : evidence.rounds.front().stops)
        stops.emplace_back(stop.station, document::action_sentences(
                                             evidence.report.stations.at(stop.station), stop.steps,
                                             evidence.report.as_of, page.words));
    return stops;
}

}  // namespace

std::size_t RoundForm::recorded() const {
    return static_cast<std::size_t>(
        std::ranges::count_if(rows, [](const RoundRow& row) { return row.recorded.has_value(); }));
}

std::size_t RoundForm::faulty() const {
    return static_cast<std::size_t>(std::ranges::count_if(
        rows, [](const RoundRow& row) { return !row.errors.faults.empty(); }));
}

RoundForm next_round_form(const Page& page, const std::string& by) {
    const auto evidence = page.context.evidence_now();
    RoundForm form;
    form.by = by;
    form.opened = log::print_time(page.context.local_now());
    if (!evidence->rounds.empty()) form.on = evidence->rounds.front().on;
    for (const auto& [station, to_do] : stops_of(page, *evidence)) {
        if (form.rows.size() == maximum_stops) {
            ++form.left_out;
            continue;
        }
        RoundRow row;
        row.prefix = prefix_of(form.rows.size() + 1);
        row.id = page.context.plan.station_at(station).id;
        row.station = station;
        row.to_do = to_do;
        row.data.token = new_token();
        form.rows.push_back(std::move(row));
    }
    return form;
}

RoundForm round_form(const Page& page, const Form& sent) {
    const auto evidence = page.context.evidence_now();
    const auto stops = stops_of(page, *evidence);
    RoundForm form;
    if (!evidence->rounds.empty()) form.on = evidence->rounds.front().on;
    form.by = sent.value("by");
    form.opened = sent.value("opened");
    form.when = sent.value("when");
    for (std::size_t number = 1; number <= maximum_stops; ++number) {
        const std::string prefix = prefix_of(number);
        if (!sent.has(prefix + "id")) continue;
        RoundRow row;
        row.prefix = prefix;
        row.id = sent.value(prefix + "id");
        const auto target = log::find_target(page.context.plan, row.id);
        if (target && target->container == 0) {
            const Place place = place_of(page.context, target->station);
            row.id = target->station;
            row.station = place.index;
            for (const auto& [station, to_do] : stops)
                if (station == place.index) row.to_do = to_do;
        }
        row.data = data(sent, prefix);
        row.data.by = form.by;
        row.data.opened = form.opened;
        row.data.when = form.when;
        row.returned = !is_empty(row.data);
        form.rows.push_back(std::move(row));
    }
    return form;
}

}  // namespace gallipot::web
