#include "web/context.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>

#include "base/strings/ascii.hpp"

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
    Place place{context.job.station_at(index), planned, context.sites.at(index), index};
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

EvidenceReader::Shared EvidenceReader::read(const job::Job& job, const plan::Plan& plan,
                                            const log::Log& visits, log::LocalTime now) {
    const std::lock_guard lock(mutex_);
    const std::string version = visits.version();
    const analysis::Day day = analysis::day_of(now);
    if (known_ && version == version_ && day == day_) return known_;
    known_ =
        std::make_shared<const evidence::Evidence>(evidence::read(job, plan, &visits, now, day));
    version_ = version;
    day_ = day;
    return known_;
}

StationState station_state_of(const Context& context, const Place& place, std::size_t visits_kept) {
    return {context.log.last(place.planned.id, visits_kept), context.evidence_now(), place.index};
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
