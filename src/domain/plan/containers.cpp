#include "domain/plan/containers.hpp"

#include <algorithm>
#include <iterator>
#include <memory>
#include <set>

#include "domain/plan/composition.hpp"
#include "domain/plan/due.hpp"
#include "domain/plan/station_planner.hpp"
#include "domain/safety/rules.hpp"

namespace gallipot::plan {

using units::Mass;
using units::Volume;

namespace {

/// The jobs do not say what a supply is decanted into. Published sizes of letters and pictograms
/// are the same up to half a litre.
constexpr Volume decanted_jar = units::mL(500);

std::string vessel_name(job::Form form) {
    if (form == job::Form::spray) return "sprayer";
    return form == job::Form::liquid ? "bottle" : "jar";
}

using SharedHazard = std::shared_ptr<const safety::Hazard>;

/// The part of its plain water that a container's bait may have lost by the day it is replaced: at
/// worst of what is estimated. All of it where the bait may dry and nobody knows how fast (a paste;
/// a container of which the job does not say how it is open); nothing of it where it is closed.
double water_gone(const MixCalculation& calculation, const job::Container& type,
                  const Station& station) {
    if (type.openings && type.openings->closed) return 0;
    if (!station.evaporation) return 1;
    const Contents& contents = *station.per_container;
    const double before = contents.boric_acid_equivalent / contents.mass;
    const Mass water = plain_water_in(calculation, contents);
    if (before <= 0 || water <= Mass{}) return 1;
    const Mass lost =
        contents.mass * (1 - before / station.evaporation->strength_after_lasts_w_w.high);
    return std::clamp(lost / water, 0.0, 1.0);
}

class Containers {
  public:
    Containers(const job::Job& job, const Plan& plan,
               const std::vector<MixCalculation>& calculation)
        : job_(job), plan_(plan), rules_(safety::rules_for(*job.help.region).rules) {
        for (const MixCalculation& one : calculation) mixes_.emplace(one.mix.id, &one);
        add_cups();
        for (const MixCalculation& one : calculation) add_stored(one);
        for (const MixCalculation& one : calculation) add_decanted(one);
    }

    std::vector<Container> take() { return std::move(all_); }

  private:
    void add_cups() {
        for (std::size_t i = 0; i < plan_.stations.size(); ++i) {
            const Station& station = plan_.stations[i];
            const auto mix = mixes_.find(station.mix);
            if (mix == mixes_.end() || station.container_ids.empty()) continue;
            const job::Station& asked = job_.stations[i];
            const job::Container* type = job_.container(**asked.container);
            if (type == nullptr) continue;
            Container cup;
            cup.kind = ContainerKind::cup;
            cup.station = station.id;
            cup.type = type->id;
            cup.mix = station.mix;
            cup.capacity = *type->holds;
            cup.contents = station.per_container;
            cup.hazard = hazard(*mix->second, water_gone(*mix->second, *type, station));
            // What a change brought was filled for it.
            cup.made = *job_.prepared;
            if (asked.filled) cup.made = std::max(cup.made, schedule::day_of(*asked.filled));
            cup.placed = asked.filled ? asked.filled : station.placed;
            cup.replace_by = station.replace_by;
            cup.link = station.link;
            cup.has_link = !station.link.empty();
            for (const std::string& id : station.container_ids) {
                cup.id = id;
                all_.push_back(cup);
            }
        }
    }

    void add_stored(const MixCalculation& calculation) {
        const Mix& mix = calculation.mix;
        const job::Mix& asked = *calculation.job;
        Container vessel;
        vessel.kind = ContainerKind::vessel;
        vessel.id = vessel_name(*asked.form) + " " + mix.id;
        vessel.mix = mix.id;
        vessel.capacity = asked.vessel ? **asked.vessel : mix.finished;
        vessel.contents = std::make_shared<const Contents>(contents_of(calculation, mix.finished));
        vessel.hazard = hazard(calculation, 0);
        vessel.made = asked.made.value_or(*job_.prepared);
        if (asked.lasts) vessel.replace_by = later(vessel.made, **asked.lasts);
        Container left = vessel;
        left.kind = ContainerKind::leftovers;
        left.id = "left " + mix.id;
        left.contents = nullptr;
        if (mix.spare_left > Mass{}) {
            left.contents = std::make_shared<const Contents>(
                contents_of(calculation, mix.finished * (mix.spare_left / mix.mass)));
        }
        all_.push_back(std::move(vessel));
        all_.push_back(std::move(left));
    }

    void add_decanted(const MixCalculation& calculation) {
        for (const mixing::Component& component : calculation.recipe.components) {
            const SharedHazard hazard = std::make_shared<const safety::Hazard>(
                safety::classify(composition(component), rules_));
            const bool harmless = hazard->signal_word == safety::SignalWord::none &&
                                  hazard->unknown.empty() && !component.borate();
            if (harmless || !decanted_.insert(component.name).second) continue;
            Container jar;
            jar.kind = ContainerKind::decanted;
            jar.id = "jar of " + component.name;
            jar.mix = calculation.mix.id;
            jar.supply = component.name;
            jar.capacity = decanted_jar;
            for (const mixing::Part& part : component.parts) {
                jar.parts.emplace_back(part.substance->formal, part.share);
            }
            jar.hazard = hazard;
            jar.made = *job_.prepared;
            all_.push_back(std::move(jar));
        }
    }

    /// Made once for all containers that dry alike.
    SharedHazard hazard(const MixCalculation& calculation, double water_gone) {
        SharedHazard& known = hazards_[{&calculation, water_gone}];
        if (known == nullptr) {
            known =
                std::make_shared<const safety::Hazard>(hazard_of(calculation, water_gone, rules_));
        }
        return known;
    }

    const job::Job& job_;
    const Plan& plan_;
    safety::RuleSet rules_;
    std::map<std::string, const MixCalculation*> mixes_;
    std::map<std::pair<const MixCalculation*, double>, SharedHazard> hazards_;
    std::set<std::string> decanted_;
    std::vector<Container> all_;
};

}  // namespace

safety::Setting Filling::setting() const {
    return kind == ContainerKind::cup ? safety::Setting::set_out : safety::Setting::stored;
}

bool Filling::product() const {
    return !parts.empty() && (parts.size() > 1 || parts.front().second < 1);
}

std::vector<std::string> Filling::statements() const {
    std::vector<std::string> codes = hazard->hazard_codes;
    std::ranges::copy(safety::precautions_for(*hazard, setting()), std::back_inserter(codes));
    return codes;
}

std::vector<Container> containers(const job::Job& job, const Plan& plan,
                                  const std::vector<MixCalculation>& calculation) {
    return Containers(job, plan, calculation).take();
}

std::map<std::string, SharedHazard> worst_hazards(const std::vector<Container>& containers) {
    std::map<std::string, SharedHazard> worst;
    for (const Container& one : containers) {
        if (one.kind == ContainerKind::decanted) continue;
        SharedHazard& known = worst[one.mix];
        // Drying adds classes and takes none away.
        if (known == nullptr || one.hazard->classes.size() > known->classes.size()) {
            known = one.hazard;
        }
    }
    return worst;
}

}  // namespace gallipot::plan
