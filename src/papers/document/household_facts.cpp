#include "papers/document/household_facts.hpp"

#include <algorithm>
#include <stdexcept>

#include "domain/reference/pests.hpp"
#include "papers/document/notices.hpp"

namespace gallipot::document {

namespace {

void add_once(std::vector<std::string>& list, const std::string& item) {
    if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

template <class T>
void keep_later(std::optional<T>& kept, const std::optional<T>& other) {
    if (other && (!kept || *other > *kept)) kept = other;
}

bool means_ants(const std::string& against) {
    const auto* pest = reference::find_pest(against);
    return pest != nullptr && pest->name.ends_with("ants");
}

}  // namespace

HouseholdFacts household_facts(const job::Job& job, const plan::Plan& plan) {
    HouseholdFacts house;
    bool endless = false;
    for (const job::Station& station : job.stations) {
        if (!station.mix) continue;
        const job::Mix* asked = job.mix(station.mix->value);
        const plan::Mix* mix = plan.mix(station.mix->value);
        const plan::Station* planned = plan.station(station.id.value);
        if (asked == nullptr || mix == nullptr || planned == nullptr) {
            throw std::logic_error("the plan is not this job's");
        }
        if (std::find(house.mixes.begin(), house.mixes.end(), mix) == house.mixes.end()) {
            house.mixes.push_back(mix);
        }
        if (station.sprayed()) {
            house.sprayed = true;
            add_once(house.spray_against, asked->against.value);
        } else {
            const job::Form form = asked->form.value;
            house.liquid |= form == job::Form::liquid || form == job::Form::spray;
            house.dry |= form == job::Form::dry;
            house.paste |= form == job::Form::paste;
            house.ants |= means_ants(asked->against.value);
            add_once(house.bait_against, asked->against.value);
            keep_later(house.bait_until, planned->replace_by);
            endless |= !planned->replace_by;
        }
        house.poison |= mix->hazard.hazardous();
        house.peanut |= holds_peanut(job, *mix);
        keep_later(house.no_sprays_until, planned->no_sprays_until);
    }
    if (endless) house.bait_until.reset();
    return house;
}

}  // namespace gallipot::document
