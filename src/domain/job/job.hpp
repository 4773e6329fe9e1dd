#pragma once

#include <chrono>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/units/quantity.hpp"
#include "base/units/unit_table.hpp"
#include "domain/job/local_text.hpp"

/// The job file as plain structs: what the user wrote, checked for form and for names that are
/// there, computed by nobody. Every value that a later step may object to keeps its place.
namespace gallipot::job {

using diag::At;
using diag::Place;
using LocalTime = std::chrono::local_time<std::chrono::minutes>;
using Date = std::chrono::year_month_day;

enum class Paper { a4, letter };

/// Which sizes spoons and cups have. The region gives the default, `spoons` overrides it, and a
/// measure may say its own ("1 US tbsp").
using units::KitchenSystem;

enum class Form { liquid, dry, paste, spray };

enum class Basis {
    parts_by_volume,
    parts_by_mass,
    percent_w_w,
    percent_w_v,
    percent_v_v,
    as_measured  ///< every amount is a volume or a mass of its own
};

struct Contact {
    At<LocalText> name;  ///< a vet's may be empty
    At<std::string> phone;
};

struct Help {
    At<std::string> region;                    ///< ISO 3166-1 alpha-2, upper case
    std::optional<Contact> contact;            ///< who looks after the baits
    std::optional<Contact> poison_centre;      ///< overrides the table; the user vouches for it
    std::optional<At<std::string>> emergency;  ///< overrides the table
    std::optional<Contact> vet;                ///< for animals; overrides the table
};

/// What kind of building it is. At those from `childcare` on only licensed operators may work.
enum class Premises { home, flats, hall, workshop, childcare, school, care, food_business };

/// Which authority was asked whether this may be done, and what it said.
struct Asked {
    At<std::string> whom;
    At<Date> on;
    At<std::string> answer;
};

struct Log {
    std::optional<At<std::string>> address;
};

/// What there is to measure with.
struct Measure {
    enum class Kind { scoop, jug, syringe, scale };
    Kind kind = Kind::scoop;
    std::string name;           ///< as the user wrote it: "1/4 tsp", "jug", "scale"
    units::Volume volume;       ///< a scoop's content; a jug's or syringe's capacity
    units::Volume marks;        ///< of a jug or syringe
    units::Mass capacity;       ///< of a scale
    units::Mass resolution;     ///< of a scale
    units::WrittenUnit unit{};  ///< of a scoop's size or the marks, as written
    Place place;
};

/// Price of one pack, in the job's currency.
struct Pack {
    std::optional<At<units::Mass>> mass;  ///< either mass or volume
    std::optional<At<units::Volume>> volume;
    units::WrittenUnit unit{};
    std::optional<At<double>> price;
};

/// How much of a named substance a bought solution or powder holds, by mass.
struct Strength {
    At<std::string> of;      ///< a substance known by name: "boric acid"
    At<units::Share> share;  ///< mass of it per mass of the supply
};

struct Supply {
    std::string name;
    Place place;
    std::optional<At<std::string>> substance;  ///< name in the table of substances
    std::optional<At<units::Range<units::Density>>> density;
    std::optional<Strength> strength;
    std::optional<At<std::string>> hazard;  ///< "none" when the user vouches that there is none
    Pack pack;
};

struct Ingredient {
    std::string name;  ///< of a supply, else of a substance
    Place place;       ///< of the name
    bool rest = false;
    At<double> amount;  ///< parts or percent, by the mix's basis; unused for rest and as measured
    std::optional<units::Volume> volume;  ///< as measured: either this, as scooped or poured,
    std::optional<units::Mass> mass;      ///< or this
    units::WrittenUnit unit{};            ///< as measured: what the amount is written in
    std::optional<At<std::string>> as;    ///< stated in terms of this substance
};

/// The most there may be of an ingredient.
struct Limit {
    At<double> percent;
    std::optional<Basis> basis;  ///< none: the mix's own
};

struct Mix {
    std::string id;
    Place place;
    At<LocalText> title;
    At<std::string> against;
    At<Form> form;
    At<Basis> basis;
    std::vector<Ingredient> ingredients;  ///< in file order
    /// By ingredient, as the other substance where its amount is stated so.
    std::map<std::string, Limit> limits;
    At<units::Share> spare;  ///< 10 % when not given
    std::optional<At<units::Volume>> vessel;
    units::WrittenUnit vessel_unit{};
    std::optional<At<units::Volume>> batch;  ///< as measured, in all
    units::WrittenUnit batch_unit{};
    std::optional<At<double>> batch_times;   ///< or so many times what is written, as measured
    std::optional<At<units::Volume>> makes;  ///< or so much finished, in all
    units::WrittenUnit makes_unit{};
    std::optional<At<units::Duration>> lasts;
    At<units::Share> tolerance;  ///< 5 % when not given
    std::optional<std::vector<At<units::Duration>>> visits;
    /// Set by on_day() where all that stands of it came with changes: the day it was mixed. None:
    /// the job's `prepared`.
    std::optional<Date> made;
};

/// A container's outside, for labels.
struct Body {
    std::optional<units::Length> diameter;  ///< of a round wall
    std::optional<units::Length> height;
    std::optional<units::Length> lid;  ///< diameter of a round lid to stick a label on
    Place place;
};

/// How the pest gets in, and how the water gets out.
struct Openings {
    std::string text;     ///< as written: "4 side holes of 6 mm"
    bool side = false;    ///< holes in the wall (rain stays out), else open at the top
    bool closed = false;  ///< nothing gets in or out
    units::Area area;     ///< all openings together; 0 when closed, or open with no size said
    units::Length hole;   ///< diameter of one hole, in the wall or the lid; 0 for an open top
    Place place;
};

struct Container {
    std::string id;
    Place place;
    At<units::Volume> holds;
    At<units::Volume> fill;
    units::WrittenUnit fill_unit{};
    Body body;
    std::optional<Openings> openings;
    std::optional<At<units::Area>> exposure;  ///< open surface of the bait, when measured
    /// Label stocks for these instead of the job's: a label on each of them. The first carries all
    /// that must be said.
    std::vector<At<std::string>> labels;
};

enum class Near { children, pets, food, rain, sun, cold, heat, plants, water, sockets };

struct Point {
    units::Length x, y;
};

/// Who, licensed to, has looked at the place.
struct Inspected {
    At<std::string> by;
    At<Date> on;
};

/// From a time on, something at a station is another. What it does not name stays as it was.
struct Change {
    At<LocalTime> on;
    bool on_by_day = false;  ///< the job gives the day alone: noon stands in
    std::optional<At<LocalText>> place, room, unit;
    std::optional<At<std::string>> floor;
    std::optional<At<Point>> at;
    std::optional<At<std::string>> mix;        ///< id of a mix
    std::optional<At<std::string>> container;  ///< id of a container
    std::optional<At<int>> count;
};

struct Station {
    At<std::string> id;
    std::vector<At<std::string>> was;  ///< older names, under which entries were logged
    /// "Kitchen, behind the bins"; where there is a room, the spot in it alone.
    At<LocalText> place;
    std::optional<At<LocalText>> room;  ///< none: before the comma of its place
    std::optional<At<LocalText>> unit;  ///< whose home it is in, where there are several: "Flat 12"
    bool control = false;
    std::optional<At<std::string>> against;    ///< of a control: the pest counted there
    std::optional<At<std::string>> mix;        ///< id of a mix; none for a control
    std::optional<At<std::string>> container;  ///< id of a container
    int count = 1;
    std::optional<At<LocalTime>> placed;
    bool placed_by_day = false;  ///< the job gives the day alone: noon stands in
    std::vector<At<Near>> near;
    /// In a closed box, fixed down, with holes of 6 mm at most, that only the caretaker opens.
    bool locked = false;
    std::optional<Inspected> inspected;
    std::optional<At<units::Celsius>> coldest;
    std::optional<At<Point>> at;
    /// Of a floor when there are several: its name in the main language.
    std::optional<At<std::string>> floor;
    std::optional<At<units::Area>> area;  ///< sprayed surface instead of containers
    units::WrittenUnit area_unit{};
    int coats = 1;
    std::optional<std::vector<At<units::Duration>>> visits;
    std::vector<Change> changes;    ///< in order of time; see on_day.hpp
    std::optional<At<Date>> until;  ///< the day it is taken up for good
    /// Set by on_day() where there are changes: the station as the file has it.
    std::shared_ptr<const Station> written;
    /// Set by on_day(): when a change last brought another mix or container, so that what stands
    /// there now is from then and not from `placed`.
    std::optional<LocalTime> filled;

    [[nodiscard]] bool sprayed() const { return area.has_value(); }
    /// Its room and place in a language (BCP 47): "Kitchen, behind the bins".
    [[nodiscard]] std::string room_and_place(std::string_view language) const;
    /// The same behind its unit: "Flat 12: Kitchen, behind the bins".
    [[nodiscard]] std::string where(std::string_view language) const;
};

struct Room {
    At<LocalText> name;
    LocalText floor;  ///< empty: the only one
    std::vector<Point> outline;
};

struct FloorPlan {
    std::vector<Room> rooms;
    std::optional<At<Point>> start;  ///< where the walk begins
};

/// A message that the user has read and means: `accept: [far-from-usual]`. Those of that code which
/// point between `from` and `to` are taken out of what is reported; at the job, all of that code.
struct Acceptance {
    At<std::string> code;
    bool everywhere = true;
    Place from, to;
};

struct Job {
    diag::SourcePtr source;
    At<LocalText> title;
    At<Date> prepared;
    std::optional<At<LocalText>> by;
    std::optional<At<Premises>> premises;
    std::optional<Asked> asked;
    std::vector<At<std::string>> languages;  ///< BCP 47, the first is the main one; default en
    At<Paper> paper;
    At<std::string> labels;                    ///< name of a stock
    std::string currency;                      ///< ISO 4217, or empty
    std::optional<At<std::string>> time_zone;  ///< IANA name
    Help help;
    Log log;
    KitchenSystem kitchen = KitchenSystem::metric;
    units::DisplayUnits units{};
    std::vector<Measure> measures;
    std::map<std::string, Supply> supplies;
    std::vector<Mix> mixes;  ///< in file order
    std::vector<Container> containers;
    std::vector<Station> stations;
    std::optional<FloorPlan> floor_plan;
    std::vector<At<units::Duration>> visits;
    At<units::Duration> round_within;  ///< what falls due within it is one round; a day by default
    std::optional<At<units::Duration>> no_sprays_for;
    std::vector<Acceptance> accepted;  ///< of the job, its mixes and its stations

    // Set by on_day(); empty in a job as the file has it.
    std::vector<Station> retired;  ///< taken up by that day, in file order, as each was last
    /// Those that no station has on that day, but one had before or will have.
    std::vector<Mix> idle_mixes;
    std::vector<Container> idle_containers;

    /// Also of the idle ones; null when there is none.
    [[nodiscard]] const Mix* mix(const std::string& id) const;
    [[nodiscard]] const Container* container(const std::string& id) const;
    /// One of all stations: `stations`, then `retired`.
    [[nodiscard]] const Station& station_at(std::size_t index) const {
        return index < stations.size() ? stations[index] : retired.at(index - stations.size());
    }
};

}  // namespace gallipot::job
