#include "web/context.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>

#include "base/strings/ascii.hpp"
#include "tracking/log/period.hpp"

namespace gallipot::web {
namespace {

/// "es" of "es-MX". Phones may still call Filipino by its older code.
std::string primary(std::string_view tag) {
    std::string language = strings::to_lower(tag.substr(0, tag.find_first_of("-_")));
    return language == "tl" ? "fil" : language;
}

struct Wish {
    std::string tag;
    double weight = 1;
};

/// Accept-Language (RFC 9110, 12.5.4), dearest first. What is malformed counts as least wished.
std::vector<Wish> wishes(std::string_view header) {
    std::vector<Wish> wishes;
    while (!header.empty() && wishes.size() < 20) {
        const auto end = std::min(header.find(','), header.size());
        std::string_view item = header.substr(0, end);
        header.remove_prefix(std::min(end + 1, header.size()));
        Wish wish;
        const auto semicolon = item.find(';');
        if (semicolon != std::string_view::npos) {
            const auto q = item.find("q=", semicolon);
            wish.weight = 0;
            if (q != std::string_view::npos)
                std::from_chars(item.data() + q + 2, item.data() + item.size(), wish.weight);
            item = item.substr(0, semicolon);
        }
        const auto first = item.find_first_not_of(' ');
        if (first == std::string_view::npos) continue;
        wish.tag = item.substr(first, item.find_last_not_of(' ') - first + 1);
        wishes.push_back(wish);
    }
    std::stable_sort(wishes.begin(), wishes.end(),
                     [](const Wish& a, const Wish& b) { return a.weight > b.weight; });
    return wishes;
}

}  // namespace

Place place_at(const Context& context, std::size_t index) {
    const plan::Station& planned = context.plan.station_at(index);
    Place place{context.job.station_at(index), planned, context.sites.at(index)};
    if (!planned.mix.empty()) {
        place.mix = context.job.mix(planned.mix);
        place.mixed = context.plan.mix(planned.mix);
        for (const plan::Mix& idle : context.plan.idle_mixes)
            if (idle.id == planned.mix) place.mixed = &idle;
    }
    return place;
}

Place place_of(const Context& context, const std::string& id) {
    for (std::size_t i = 0; i < context.plan.all_stations(); ++i)
        if (context.plan.station_at(i).id == id) return place_at(context, i);
    throw std::logic_error("no station '" + id + "'");
}

StationState station_state_of(const Context& context, const Place& place, std::size_t visits_kept) {
    const std::string& id = place.planned.id;
    StationState station_state;
    station_state.visits = context.log.last(id, visits_kept);

    // A visit at a time that cannot be is shown, and counts for nothing.
    const log::Period period(context.plan, context.local_now());
    analysis::Histories histories({id});
    if (place.site.until) histories.end(0, *place.site.until);
    const auto add = [&](const visit::Visit& visit) {
        if (period.fault(visit.time) == log::TimeFault::none) histories.add(visit);
    };
    if (station_state.visits.size() == visits_kept) {
        // What came before is left out, but for what everything is compared with.
        const auto first = context.log.first_count(id, place.planned.placed);
        const auto replaced = context.log.last_replaced(id);
        const auto shown = [&](const log::Entry& entry) {
            return std::any_of(station_state.visits.begin(), station_state.visits.end(),
                               [&](const auto& other) { return other.number == entry.number; });
        };
        if (first && !shown(*first)) add(first->visit);
        if (replaced && !shown(*replaced) && (!first || replaced->number != first->number))
            add(replaced->visit);
    }
    for (auto entry = station_state.visits.rbegin(); entry != station_state.visits.rend(); ++entry)
        add(entry->visit);

    const log::LocalTime now = context.local_now();
    const analysis::Day today = analysis::day_of(now);
    const auto history = histories.until(0, today);
    analysis::Controls none({});
    station_state.report = analysis::report_station(place.site, history, none, today);
    const auto state = analysis::station_state_of(place.site, history);
    station_state.retired = state.retired || place.site.over(today);
    if (!station_state.retired) {
        const auto last =
            history.empty() ? std::optional<log::LocalTime>() : std::optional(history.back().time);
        station_state.due = analysis::next_due(place.site, last, today);
        station_state.replace_by = analysis::replace_by(place.site, state);
    }
    return station_state;
}

const text::Catalog& choose_words(const Context& context, const std::string& asked_for,
                                  const std::string& accept_language) {
    const auto exact = context.words.find(asked_for);
    if (exact != context.words.end()) return *exact->second;
    for (const Wish& wish : wishes(accept_language)) {
        if (wish.weight <= 0) break;
        const std::string* near = nullptr;
        for (const auto& language : context.job.languages) {
            if (strings::to_lower(*language) == strings::to_lower(wish.tag))
                return *context.words.at(*language);
            if (near == nullptr && primary(*language) == primary(wish.tag)) near = &*language;
        }
        if (near != nullptr) return *context.words.at(*near);
    }
    return *context.words.at(context.job.languages.at(0).value);
}

}  // namespace gallipot::web
