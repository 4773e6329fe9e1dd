#include "web/counting.hpp"

#include <algorithm>

#include "papers/document/pest_advice.hpp"

namespace gallipot::web {
namespace {

/// When something was first set down: at the station, or of a control anywhere.
std::optional<log::LocalTime> placed(const Context& context, const Place& place) {
    if (place.planned.placed || !place.site.control) return place.planned.placed;
    std::optional<log::LocalTime> first;
    for (const plan::Station& station : context.plan.stations)
        if (station.placed) first = std::min(first.value_or(*station.placed), *station.placed);
    return first;
}

const reference::Pest* pest_of(const Place& place) {
    return reference::pest_named(place.site.pest);
}

Html lines(const Page& page, const Place& place) {
    Html lines;
    if (const reference::Pest* pest = pest_of(place))
        for (const text::StyledText& sentence :
             document::advice_on(*pest, reference::Topic::count, page.context.job, page.words))
            lines += element("li", {text::plain(sentence)});
    if (lines.empty()) lines += element("li", {page.words.rich("takeover.visit.count")});
    return element("ul", {lines});
}

}  // namespace

bool is_time_for_baseline(const Context& context, const Place& place,
                          const StationState& station_state) {
    if (before_placing(context, place)) return true;
    const bool counted = std::ranges::any_of(
        station_state.visits, [](const log::Entry& entry) { return entry.visit.seen.has_value(); });
    if (counted) return false;
    // Who comes later than planned sets it out later.
    const auto when = placed(context, place);
    return !when || analysis::day_of(context.local_now()) <= analysis::day_of(*when);
}

bool before_placing(const Context& context, const Place& place) {
    const auto when = placed(context, place);
    if (!when) return false;
    const log::LocalTime now = context.local_now();
    // Of a day without an hour nobody knows whether the hour is past.
    if (place.asked.placed_by_day || place.site.control)
        return analysis::day_of(now) < analysis::day_of(*when);
    return now <= *when;
}

bool tells_young_apart(const Place& place) {
    const reference::Pest* pest = pest_of(place);
    return pest != nullptr && std::ranges::any_of(pest->advice, [](const reference::Advice& said) {
               return said.key == "advice.count.young";
           });
}

Html how_to_count(const Page& page, const Place& place, const StationState& station_state) {
    const std::string heading = page.words("visits.how.count");
    if (!is_time_for_baseline(page.context, place, station_state))
        return element("details", {{"class", "other"}},
                       {element("summary", {heading}), lines(page, place)});
    return element("section", {{"class", "baseline"}},
                   {element("h2", {page.words("web.baseline.heading")}),
                    element("p", {page.words("visits.baseline.why")}), element("h3", {heading}),
                    lines(page, place)});
}

}  // namespace gallipot::web
