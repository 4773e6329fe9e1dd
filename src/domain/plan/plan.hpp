#pragma once

#include <chrono>
#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/job/job.hpp"
#include "domain/mixing/evaporation.hpp"
#include "domain/safety/hazard.hpp"
#include "domain/safety/precautions.hpp"

/// Every computed fact of a job and no layout. Amounts are SI at full precision: whoever shows one
/// rounds it. "Measured" means with the spoons, jugs and scales the job lists; that is what is in
/// the cup, so that is what labels print.
namespace gallipot::plan {

using job::Date;
using job::LocalTime;

/// One kind of action at the table: "2 level 1/2 tsp", "the jug to 250 mL", "weigh 24 g".
struct MeasureStep {
    std::string measure;  ///< the job's own name for it
    job::Measure::Kind kind = job::Measure::Kind::scoop;
    int times = 1;
    units::Volume volume;       ///< of one action (scoop content, or the mark to fill to)
    units::Mass weight;         ///< what the scale shows; scales only
    units::WrittenUnit unit{};  ///< of the tool's marks, as written
};

/// A batch size at which an ingredient that does not come out right would.
struct BetterBatch {
    units::Volume measured;  ///< as-measured total of one batch
    double factor = 1;       ///< of the batch planned
};

struct Ingredient {
    std::string name;  ///< as the job calls it
    std::string
        substance;        ///< as the table of substances calls it; empty for one of the user's own
    bool powder = false;  ///< scooped, so its volume is uncertain
    bool borate = false;
    double boron = 0;  ///< mass of boron per mass of it
    bool limited = false;
    units::Mass mass;                   ///< asked for, one batch
    units::Volume volume;               ///< asked for, as scooped or poured
    std::vector<MeasureStep> measures;  ///< empty when the job lists nothing that can measure it
    units::Mass measured_mass;
    /// How a scooped powder packs, and how finely scale, jug or syringe read.
    units::Range<units::Mass> measured_mass_range;
    units::Volume measured_volume;
    double error = 0;  ///< measured over asked, minus 1
    bool within_tolerance = true;
    /// Where an ingredient does not come out right: the nearest smaller and larger batch at which
    /// the whole mix does, smaller first; empty when none of half the size to six times does.
    std::vector<BetterBatch> better_batches;
};

/// What was asked of one active ingredient, in both forms, since "1 part to 50" (1.96 %) is not
/// "2 %" (1 part to 49). On the kind of basis the job uses: by volume as measured, or by mass.
struct Asked {
    std::string ingredient;
    std::string as;  ///< the substance the job states it in, when that is another one
    job::Basis basis = job::Basis::percent_w_w;
    double share = 0;  ///< of the whole; for percent w/v: grams per mL of the finished mix
    double parts = 0;  ///< "1 part to N parts of all the rest"; w/v: 1 g in N mL finished
};

/// The strength that is usual against the mix's pest, as boric acid equivalent by mass.
struct UsualRange {
    double low = 0, high = 0;  ///< fractions
    std::string source;        ///< who found it
    bool published = true;     ///< else common practice
    bool far_outside = false;  ///< the mix is, by more than half as much again: a message says so
    std::string found_for{};   ///< the compounds it was found for, where others acted less well
};

/// Strength of one ingredient (everything but water), in the finished mix.
struct Strength {
    double asked_w_w = 0;  ///< shares as fractions
    double w_w = 0;        ///< as measured
    units::Range<double> w_w_range;
    units::Density w_v;  ///< as measured, mass per finished volume
    double parts = 0;    ///< "1 part to N parts of the rest" on the mix's own kind of basis
};

/// What one container of a liquid bait does while it stands open: water leaves, the rest stays.
/// An estimate within a factor of two; low and high are those bounds.
struct Evaporation {
    std::string station;
    units::Mass water;      ///< that one container may lose in the end
    units::Duration after;  ///< until replace-by; a week when the mix has no `lasts`
    units::Range<double> water_loss_g_per_day;      ///< while it is fresh
    units::Range<double> strength_after_lasts_w_w;  ///< boric acid equivalent after that time
    /// Days until it is stronger than usual for its pest; low is the soonest. None: never, as far
    /// as it goes, or nobody knows what is usual.
    std::optional<units::Range<double>> days_to_too_strong;
    units::Range<units::Volume> water_to_restore;  ///< per container, after that time
    std::shared_ptr<const mixing::Drying> drying;  ///< how it goes on, for a level that is read
};

struct Mix {
    std::string id;
    int batches = 1;
    int repeats =
        1;  ///< of those, how often what `batch` says is made: 2 where it is half the need
    int fills_per_batch = 0;       ///< containers that one batch fills
    units::Volume needed;          ///< finished volume the stations take in all, spare included
    units::Volume measured;        ///< one batch as asked: what is scooped and poured, in all
    units::Volume finished;        ///< one batch, as really measured
    units::Mass mass;              ///< one batch, as really measured
    units::Volume finished_asked;  ///< one batch as asked, before rounding to real measures
    units::Mass mass_asked;
    int containers = 0;  ///< how many it fills
    std::vector<Ingredient> ingredients;
    std::map<std::string, Strength> strength;
    units::Range<double> boric_acid_equivalent_w_w;  ///< fraction, as measured, with its spread
    units::Range<double> boron_w_w;
    std::vector<Asked> asked;         ///< of the borates, else of the first ingredient but water
    std::optional<UsualRange> usual;  ///< none: nothing is known for this pest and form
    std::optional<units::Celsius> dissolves_above;  ///< none: nothing to dissolve or soluble at 0 C
    std::optional<units::Celsius> crystals_below;
    bool never_dissolves = false;  ///< not even in boiling water
    bool warm_water = false;       ///< above room temperature
    /// Borax and boric acid together dissolve better than the tables of each: figures are cautious.
    bool borates_together = false;
    safety::Hazard hazard;   ///< the most severe it has in any of its containers
    units::Mass spare_left;  ///< left over in all, after filling; none when it does not suffice
};

/// How much of what is in something: what a poison centre asks for.
struct Contents {
    units::Volume fill;
    units::Mass mass;
    std::vector<std::pair<std::string, units::Mass>> ingredients;
    units::Mass boric_acid_equivalent;
    units::Mass boron;
};

/// What a sprayed surface gets, in all coats.
struct Loading {
    units::Quantity<-2, 1, 0> per_area;  ///< boric acid equivalent
    units::Length depth;                 ///< taken to hold all of it
    units::Density in_wood;              ///< over that depth
};

struct Station {
    std::string id;
    std::string mix;                         ///< id; empty for a control
    int containers = 0;                      ///< 0 for a sprayed surface or a control
    int most_containers = 0;                 ///< that it ever had or will have
    std::vector<std::string> was{};          ///< older names
    std::vector<std::string> container_ids;  ///< "K1" alone, or "K1-1", "K1-2"
    /// Null for a control; of a sprayed surface: the whole surface.
    std::shared_ptr<const Contents> per_container;
    std::optional<Loading> loading;  ///< of a sprayed surface
    std::optional<LocalTime> placed;
    std::optional<Date> until;  ///< taken up for good on that day
    std::optional<Date> replace_by;
    std::optional<Date> no_sprays_until;
    std::vector<LocalTime> visits;                  ///< rising; see schedule::Starts
    std::optional<Date> result_from, result_until;  ///< when a decline is usually seen
    std::optional<Evaporation> evaporation;         ///< of a liquid in a container
    std::string link;                               ///< what its QR code holds
};

enum class ContainerKind {
    cup,        ///< what bait stands in at a station
    vessel,     ///< what a mix is made in
    leftovers,  ///< what is left of a mix once all is filled
    decanted,   ///< a supply out of its packet
};

/// What a container holds and what its label says of it, but for which one it is: containers with
/// equal fillings get equal labels. Contents and hazard are shared by those alike.
struct Filling {
    ContainerKind kind = ContainerKind::cup;
    std::string type;    ///< of a cup: its key under `containers`
    std::string mix;     ///< id; of a decanted supply: the first mix that it goes into
    std::string supply;  ///< of a decanted supply: what the job calls it
    units::Volume capacity;
    /// Of a vessel: one batch. Null where nobody knows how much there will be.
    std::shared_ptr<const Contents> contents;
    /// Of a decanted supply: the substances in it, by mass; nobody knows what they leave of 1.
    std::vector<std::pair<std::string, double>> parts;
    /// Of what is in it, at its strongest until it is replaced. Not null in a plan.
    std::shared_ptr<const safety::Hazard> hazard;
    Date made{};  ///< filled, or taken out of its packet
    std::optional<LocalTime> placed;
    std::optional<Date> replace_by;
    bool has_link = false;  ///< its QR code opens something

    bool operator==(const Filling&) const = default;
    [[nodiscard]] safety::Setting setting() const;
    /// Of a decanted supply: a bought product that holds something else besides the substance.
    [[nodiscard]] bool product() const;
    /// Codes of what its label says of the hazard, in the order it says them: hazard statements,
    /// then precautionary ones.
    [[nodiscard]] std::vector<std::string> statements() const;
};

/// One thing that gets a label.
struct Container : Filling {
    std::string id;       ///< names its label: "K1-2", "bottle syrup", "left syrup", "jar of borax"
    std::string station;  ///< id, of a cup
    std::string link;     ///< what its QR code opens; may be empty
};

struct Purchase {
    std::string name;
    units::Mass mass;
    units::Volume volume;
    std::optional<int> packs;
    std::optional<units::Mass> left_over;
    std::optional<double> cost;
};

/// In the job's currency. What must be bought counts, so a half-used packet is paid in full.
struct Cost {
    double total = 0;                     ///< of the packs to buy
    std::optional<double> per_container;  ///< total over all containers
    double used_up = 0;                   ///< the part of the packs that goes into the mixes
    bool complete = false;                ///< every ingredient but water has a price
};

struct Plan {
    std::vector<Mix> mixes;          ///< in the job's order
    std::vector<Mix> idle_mixes{};   ///< what retired stations held and no other has; on no paper
    std::vector<Station> stations;   ///< in the job's order
    std::vector<Station> retired{};  ///< the job's `retired`, in its order; on no paper
    /// All that gets a label: the cups in the order of the stations, then for every mix its vessel
    /// and its leftovers, then the decanted supplies. A plan made by hand need not have them.
    std::vector<Container> containers{};
    /// Where each stands among `stations` and then `retired`, by id. A plan made by hand need not
    /// have it.
    std::unordered_map<std::string, std::size_t> station_numbers{};
    std::vector<std::size_t> walk;  ///< indices into them, in the order to walk: see walk.hpp
    /// What falls due within it is one round: see rounds.hpp. A plan made by hand has a day.
    units::Duration round_within = units::days(1);
    std::vector<Purchase> shopping;
    std::optional<Cost> cost;

    [[nodiscard]] const Mix* mix(const std::string& id) const;
    /// Also a retired one.
    [[nodiscard]] const Station* station(const std::string& id) const;
    /// One of all stations: `stations`, then `retired`.
    [[nodiscard]] std::size_t all_stations() const { return stations.size() + retired.size(); }
    [[nodiscard]] const Station& station_at(std::size_t index) const {
        return index < stations.size() ? stations[index] : retired.at(index - stations.size());
    }
};

}  // namespace gallipot::plan
