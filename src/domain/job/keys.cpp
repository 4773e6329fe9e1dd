#include "domain/job/keys.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <map>
#include <stdexcept>

namespace gallipot::job {

namespace {

constexpr double years = 365.25;  // days, for bounds only

// clang-format off
constexpr std::array table = {
    Key{"title", Type::local_text, true, "", "The building or the job, as it stands on every paper", "Millrace Community Hall", 1, 120, ""},
    Key{"prepared", Type::date, true, "", "The day the mixes are made", "2027-03-02", 0, 0, ""},
    Key{"by", Type::local_text, false, "", "Who makes and places the baits", "Hall caretaker", 1, 60, ""},
    Key{"languages", Type::list, false, "[en]", "The papers' languages; the first is the main one", "[en, es]", 1, 8, ""},
    Key{"languages.*", Type::text, false, "", "A language tag", "en", 2, 20, ""},
    Key{"paper", Type::choice, false, "", "The sheet size; left out, it follows the region", "A4", 0, 0, "A4|Letter"},
    Key{"labels", Type::text, false, "", "The label sheet, named by its geometry; left out, it follows the paper", "a4-2x4", 1, 40, ""},
    Key{"currency", Type::text, false, "", "What prices are in, an ISO 4217 code", "AUD", 3, 3, ""},
    Key{"time_zone", Type::text, false, "", "Where times are, an IANA name", "Australia/Sydney", 3, 40, ""},
    Key{"spoons", Type::choice, false, "", "Which sizes spoons and cups have; left out, it follows the region", "metric", 0, 0, "US|label|metric|AU|imperial"},
    Key{"units", Type::choice, false, "", "Which units to show where nobody wrote one: metric, or US with metric beside. What you write keeps its unit. Left out, temperatures, lengths and areas follow the region, and all else is metric", "US", 0, 0, "metric|US"},
    Key{"premises", Type::choice, false, "", "What kind of building it is; the last four are for licensed operators only, so they are an error", "home", 0, 0, "home|flats|hall|workshop|childcare|school|care|food business"},

    Key{"asked", Type::mapping, false, "", "Which authority you asked whether you may do this, and its answer", "{ whom: State regulator, on: 2027-02-20, answer: may be done at home }", 0, 0, ""},
    Key{"asked.whom", Type::text, true, "", "The authority, and who there", "State regulator, advice line", 1, 80, ""},
    Key{"asked.on", Type::date, true, "", "The day of the answer", "2027-02-20", 0, 0, ""},
    Key{"asked.answer", Type::text, true, "", "What they said, in a sentence", "May be done in your own home", 1, 200, ""},
    Key{"accept", Type::list, false, "", "Messages that you have read and mean, by the code in brackets behind each", "[far-from-usual]", 0, 30, ""},
    Key{"accept.*", Type::text, false, "", "The code in brackets behind a message", "far-from-usual", 2, 60, ""},

    Key{"help", Type::mapping, true, "", "Whom to call", "{ region: AU }", 0, 0, ""},
    Key{"help.region", Type::text, true, "", "The country or territory, an ISO 3166-1 code: it picks poison-information number, label rules and spoons", "AU", 1, 60, ""},
    Key{"help.contact", Type::mapping, false, "", "Who looks after the baits", "{ name: Hall caretaker, phone: (02) 5550 0142 }", 0, 0, ""},
    Key{"help.contact.name", Type::local_text, true, "", "A name or a role", "Hall caretaker", 1, 60, ""},
    Key{"help.contact.phone", Type::text, true, "", "A telephone number, printed as it stands", "(02) 5550 0142", 1, 40, ""},
    Key{"help.poison_centre", Type::mapping, false, "", "Used in place of the built-in number; you vouch for it", "{ name: Poison help line, phone: (02) 5550 0199 }", 0, 0, ""},
    Key{"help.poison_centre.name", Type::local_text, true, "", "The centre's name", "Poison help line", 1, 80, ""},
    Key{"help.poison_centre.phone", Type::text, true, "", "Its number, printed as it stands", "(02) 5550 0199", 1, 40, ""},
    Key{"help.emergency", Type::text, false, "", "The emergency number, in place of the built-in one", "112", 1, 40, ""},
    Key{"help.vet", Type::number_to_call, false, "", "Whom to call for an animal: a vet or an animal poison line, in place of the built-in one", "{ name: Vet at the mill, phone: (02) 5550 0177 }", 1, 40, ""},
    Key{"help.vet.name", Type::local_text, false, "", "A name", "Vet at the mill", 1, 60, ""},
    Key{"help.vet.phone", Type::text, true, "", "A telephone number, printed as it stands", "(02) 5550 0177", 1, 40, ""},

    Key{"log", Type::mapping, false, "", "The visit log", "{ address: http://192.168.1.20:8017 }", 0, 0, ""},
    Key{"log.address", Type::text, false, "", "What the QR codes open; left out, a code holds the station's facts as text", "http://192.168.1.20:8017", 8, 200, ""},

    Key{"measures", Type::list, false, "", "What there is to measure with", "[1 tbsp, 1 tsp, 1/2 tsp]", 0, 50, ""},
    Key{"measures.*", Type::measure, false, "", "A spoon or scoop by what it holds, or a jug, a syringe or a scale", "1/2 tsp", 0.01, 20'000, ""},
    Key{"measures.*.jug", Type::volume, false, "", "A jug with marks: what it holds", "500 mL", 1, 100'000, ""},
    Key{"measures.*.syringe", Type::volume, false, "", "A syringe with marks: what it holds", "10 mL", 0.1, 1'000, ""},
    Key{"measures.*.scale", Type::mass, false, "", "A scale: the most it weighs", "2 kg", 1, 200'000, ""},
    Key{"measures.*.marks", Type::mass_or_volume, true, "", "From one mark to the next, or the scale's steps", "25 mL", 0.001, 100'000, ""},

    Key{"supplies", Type::named, false, "", "What was bought, by your own names; known substances need no entry", "{ borax: { pack: 500 g, price: 3.20 } }", 0, 60, ""},
    Key{"supplies.*", Type::mapping, false, "", "One thing that was bought", "{ pack: 500 g, price: 3.20 }", 1, 40, ""},
    Key{"supplies.*.substance", Type::text, false, "", "What it is; left out, a known name stands for itself", "borax decahydrate", 1, 60, ""},
    Key{"supplies.*.density", Type::density_or_range, false, "", "As scooped or poured; needed for a substance of your own", "1.40 g/mL", 0.02, 20, ""},
    Key{"supplies.*.density.from", Type::density, true, "", "The least it may be", "0.75 g/mL", 0.02, 20, ""},
    Key{"supplies.*.density.to", Type::density, true, "", "The most it may be", "0.95 g/mL", 0.02, 20, ""},
    Key{"supplies.*.strength", Type::mapping, false, "", "Of a ready-made product: how much of a known substance it holds, by mass", "{ of: boric acid, percent: 5 }", 0, 0, ""},
    Key{"supplies.*.strength.of", Type::text, true, "", "The substance in it", "boric acid", 1, 60, ""},
    Key{"supplies.*.strength.percent", Type::number, true, "", "Percent of it, by mass", "5", 0.0001, 100, ""},
    Key{"supplies.*.hazard", Type::choice, false, "", "Written only where you vouch that there is none", "none", 0, 0, "none"},
    Key{"supplies.*.pack", Type::mass_or_volume, false, "", "What one pack holds", "500 g", 0.1, 1'000'000, ""},
    Key{"supplies.*.price", Type::number, false, "", "What one pack costs, without a currency sign", "3.20", 0, 1'000'000, ""},
    Key{"supplies.from", Type::csv_file, false, "", "A table in the place of the supplies: a row each, its column `name` for the name, the others named as the keys", "supplies.csv", 5, 200, ""},

    Key{"mixes", Type::named, false, "", "The baits and treatments, by short names of your own", "{ syrup: ... }", 0, 40, ""},
    Key{"mixes.*", Type::mapping, false, "", "One mix", "{ title: Sweet liquid bait, ... }", 1, 24, ""},
    Key{"mixes.*.title", Type::local_text, true, "", "What the papers call it", "Sweet liquid bait", 1, 60, ""},
    Key{"mixes.*.against", Type::text, true, "", "The pest that it is for", "ants", 1, 60, ""},
    Key{"mixes.*.form", Type::choice, true, "", "What it is to handle", "liquid", 0, 0, "liquid|dry|paste|spray"},
    Key{"mixes.*.basis", Type::choice, false, "", "What the numbers of the ingredients mean; left out where every amount has its unit", "percent w/w", 0, 0, "parts by volume|parts by mass|percent w/w|percent w/v|percent v/v|as measured"},
    Key{"mixes.*.ingredients", Type::named, true, "", "Supplies or known substances, and how much of each", "{ borax: 1, sugar: 20, water: rest }", 1, 20, ""},
    Key{"mixes.*.ingredients.*", Type::amount, false, "", "A number on the mix's basis, `rest`, a volume or mass where the mix has no basis, or a strength in another borate's terms", "20", 0.000001, 1'000'000, ""},
    Key{"mixes.*.ingredients.*.as", Type::text, true, "", "The borate whose strength is stated", "boric acid", 1, 60, ""},
    Key{"mixes.*.ingredients.*.percent", Type::number, false, "", "How much of it, on a percent basis", "1", 0.000001, 100, ""},
    Key{"mixes.*.ingredients.*.parts", Type::number, false, "", "How much of it, in parts by mass", "1", 0.000001, 1'000'000, ""},
    Key{"mixes.*.limits", Type::named, false, "", "Amounts never to be passed, after rounding to real measures", "{ borax: 1.5 }", 0, 20, ""},
    Key{"mixes.*.limits.*", Type::limit, false, "", "The most of an ingredient, on the mix's basis or one of its own, like `5 % w/w`", "1.5", 0.000001, 1'000'000, ""},
    Key{"mixes.*.spare", Type::share, false, "10 %", "More than the containers take, for spills", "10 %", 0, 200, ""},
    Key{"mixes.*.vessel", Type::volume, false, "", "The largest batch that fits; more is split into batches", "1 L", 1, 1'000'000, ""},
    Key{"mixes.*.batch", Type::batch, false, "", "One batch as measured; left out, it follows from containers and areas. Where the amounts have units also `as written`, or `3 times` what is written", "750 mL", 1, 1'000'000, ""},
    Key{"mixes.*.makes", Type::volume, false, "", "How much is to be there once it is mixed, in place of `batch`, which is what is measured before", "2 cups", 1, 1'000'000, ""},
    Key{"mixes.*.lasts", Type::duration, false, "", "Replace what is set out after so long", "30 d", 1.0 / 24, 5 * years, ""},
    Key{"mixes.*.tolerance", Type::share, false, "5 %", "How far real measures may be off", "5 %", 0.01, 50, ""},
    Key{"mixes.*.visits", Type::visits, false, "", "Visits to this mix's stations, in place of the job's", "[1 d, 7 d]", 0, 60, ""},
    Key{"mixes.*.visits.every", Type::list, true, "", "The same as a list alone; `within` stands at the job only", "[1 d, 7 d]", 0, 60, ""},
    Key{"mixes.*.visits.every.*", Type::duration, false, "", "A time after placing", "7 d", 1.0 / 1440, 5 * years, ""},
    Key{"mixes.*.accept", Type::list, false, "", "Messages about this mix that you have read and mean", "[far-from-usual]", 0, 30, ""},
    Key{"mixes.*.accept.*", Type::text, false, "", "The code in brackets behind a message", "far-from-usual", 2, 60, ""},

    Key{"containers", Type::named, false, "", "Cups and trays, by short names of your own", "{ cup: { holds: 60 mL, fill: 45 mL } }", 0, 40, ""},
    Key{"containers.*", Type::mapping, false, "", "One kind of container", "{ holds: 60 mL, fill: 45 mL }", 1, 24, ""},
    Key{"containers.*.holds", Type::volume, true, "", "Full to the brim", "60 mL", 0.1, 20'000, ""},
    Key{"containers.*.fill", Type::volume, true, "", "What is put into it", "45 mL", 0.1, 20'000, ""},
    Key{"containers.*.body", Type::mapping, false, "", "Its outside, for labels", "{ diameter: 48 mm, height: 44 mm }", 0, 0, ""},
    Key{"containers.*.body.diameter", Type::length, false, "", "Of the round wall", "48 mm", 5, 1'000, ""},
    Key{"containers.*.body.height", Type::length, false, "", "Of the wall", "44 mm", 5, 1'000, ""},
    Key{"containers.*.body.lid", Type::length, false, "", "Diameter of a round lid that takes a label", "60 mm", 5, 1'000, ""},
    Key{"containers.*.openings", Type::openings, false, "", "How the pest gets in", "4 side holes of 6 mm", 3, 60, ""},
    Key{"containers.*.labels", Type::list, false, "", "Label sheets for these instead of the job's, a label on each: the first says all, the second may be a small one for the lid", "[a4-strip-40, a4-round-50]", 1, 2, ""},
    Key{"containers.*.labels.*", Type::text, false, "", "A label sheet, named by its geometry", "a4-strip-40", 1, 40, ""},
    Key{"containers.*.exposure", Type::area, false, "", "The bait's open surface, where you measured it", "18 cm2", 0.000001, 10, ""},

    Key{"stations", Type::list, true, "", "Every place where something is set out, sprayed or counted", "[{ id: K1, ... }]", 1, 100'000, ""},
    Key{"stations.*", Type::mapping, false, "", "One place", "{ id: K1, place: Kitchen, mix: syrup, container: cup }", 0, 0, ""},
    Key{"stations.*.id", Type::id, true, "", "Letters, digits and hyphens, on the label and in its link", "K1", 1, 12, ""},
    Key{"stations.*.was", Type::list, false, "", "Older names of this station: what was logged under them, and the codes on labels with them, are still its own", "[B7]", 1, 20, ""},
    Key{"stations.*.was.*", Type::id, false, "", "A name it had before", "B7", 1, 12, ""},
    Key{"stations.*.place", Type::local_text, true, "", "Where it is, so that another finds it", "Kitchen, behind the bins", 1, 80, ""},
    Key{"stations.*.room", Type::local_text, false, "", "The room it is in; then its place is the spot there. Left out, it is what stands before the comma of the place", "Kitchen", 1, 40, ""},
    Key{"stations.*.unit", Type::local_text, false, "", "Whose home it is in, where a building has several", "Flat 12", 1, 40, ""},
    Key{"stations.*.mix", Type::text, false, "", "What is set out or sprayed", "syrup", 1, 24, ""},
    Key{"stations.*.container", Type::text, false, "", "What it is set out in", "cup", 1, 24, ""},
    Key{"stations.*.count", Type::whole, false, "1", "How many containers; two at K1 are K1-1 and K1-2", "2", 1, 1'000, ""},
    Key{"stations.*.placed", Type::time, false, "", "When, local time; a date alone will do", "2027-03-02 19:30", 0, 0, ""},
    Key{"stations.*.changes", Type::list, false, "", "What is another from a day on, in order of time; papers, phone and report go by the day", "[{ on: 2027-04-02, mix: strong }]", 1, 50, ""},
    Key{"stations.*.changes.*", Type::mapping, false, "", "One change, with at least one thing that is another; what it does not name stays as it was", "{ on: 2027-04-02, mix: strong }", 0, 0, ""},
    Key{"stations.*.changes.*.on", Type::time, true, "", "From when on it holds, local time; a date alone will do", "2027-04-02", 0, 0, ""},
    Key{"stations.*.changes.*.place", Type::local_text, false, "", "Where it stands from then on", "Kitchen, under the sink", 1, 80, ""},
    Key{"stations.*.changes.*.room", Type::local_text, false, "", "The room it is in from then on", "Kitchen", 1, 40, ""},
    Key{"stations.*.changes.*.unit", Type::local_text, false, "", "Whose home it is in from then on", "Flat 12", 1, 40, ""},
    Key{"stations.*.changes.*.floor", Type::text, false, "", "The floor of the plan it is on from then on", "Ground floor", 1, 40, ""},
    Key{"stations.*.changes.*.at", Type::point, false, "", "Where it stands on the floor plan from then on, metres to the right and up", "[3.8, 3.6]", -10'000, 10'000, ""},
    Key{"stations.*.changes.*.mix", Type::text, false, "", "What is set out from then on, against the same pest", "strong", 1, 24, ""},
    Key{"stations.*.changes.*.container", Type::text, false, "", "What it is set out in from then on", "cup", 1, 24, ""},
    Key{"stations.*.changes.*.count", Type::whole, false, "", "How many containers from then on: K1-3 comes to two, and the highest numbers go first", "3", 1, 1'000, ""},
    Key{"stations.*.until", Type::date, false, "", "The day it is taken up for good; from then on it stands on no paper, its counts and its codes stay known", "2027-05-01", 0, 0, ""},
    Key{"stations.*.near", Type::list, false, "", "What a spill or a curious hand could reach from there", "[children, food]", 0, 10, ""},
    Key{"stations.*.near.*", Type::choice, false, "", "One thing that is near", "food", 0, 0, "children|pets|food|rain|sun|cold|heat|plants|water|sockets"},
    Key{"stations.*.locked", Type::flag, false, "false", "Inside a closed box, fixed down, with holes of 6 mm at most, that only the caretaker opens", "true", 0, 0, ""},
    Key{"stations.*.inspected", Type::mapping, false, "", "Who, licensed to, has looked at the place before it is treated", "{ by: Licensed inspector, on: 2027-02-22 }", 0, 0, ""},
    Key{"stations.*.inspected.by", Type::text, true, "", "A name or a role", "Licensed inspector", 1, 80, ""},
    Key{"stations.*.inspected.on", Type::date, true, "", "The day of the inspection", "2027-02-22", 0, 0, ""},
    Key{"stations.*.coldest", Type::temperature, false, "", "The coldest it gets there", "8 C", -60, 60, ""},
    Key{"stations.*.at", Type::point, false, "", "Metres on the floor plan, to the right and up", "[3.2, 1.1]", -10'000, 10'000, ""},
    Key{"stations.*.floor", Type::text, false, "", "Which floor of the plan, where there are several", "Ground floor", 1, 40, ""},
    Key{"stations.*.area", Type::area, false, "", "A sprayed surface instead of containers", "6 m2", 0.0001, 100'000, ""},
    Key{"stations.*.coats", Type::whole, false, "1", "How often the surface is sprayed", "2", 1, 10, ""},
    Key{"stations.*.control", Type::flag, false, "false", "An unbaited station: nothing is set out, pests are only counted", "true", 0, 0, ""},
    Key{"stations.*.against", Type::text, false, "", "The pest counted at an unbaited station, where the job has several", "ants", 1, 60, ""},
    Key{"stations.*.visits", Type::visits, false, "", "Visits to this station, in place of the mix's or the job's", "[1 d, 7 d]", 0, 60, ""},
    Key{"stations.*.visits.every", Type::list, true, "", "The same as a list alone; `within` stands at the job only", "[1 d, 7 d]", 0, 60, ""},
    Key{"stations.*.visits.every.*", Type::duration, false, "", "A time after placing", "7 d", 1.0 / 1440, 5 * years, ""},
    Key{"stations.*.accept", Type::list, false, "", "Messages about this station that you have read and mean", "[far-from-usual]", 0, 30, ""},
    Key{"stations.*.accept.*", Type::text, false, "", "The code in brackets behind a message", "far-from-usual", 2, 60, ""},
    Key{"stations.from", Type::csv_file, false, "", "A table in the place of the list: a row each, its columns named as the keys", "stations.csv", 5, 200, ""},

    Key{"floor_plan", Type::mapping, false, "", "The rooms, for the placement plan", "{ rooms: [...] }", 0, 0, ""},
    Key{"floor_plan.start", Type::point, false, "", "Where the walk begins", "[0.5, 0]", -10'000, 10'000, ""},
    Key{"floor_plan.rooms", Type::list, true, "", "The rooms", "[{ name: Kitchen, outline: [[0, 0], [5, 0], [5, 4]] }]", 1, 200, ""},
    Key{"floor_plan.rooms.*", Type::mapping, false, "", "One room", "{ name: Kitchen, outline: [[0, 0], [5, 0], [5, 4]] }", 0, 0, ""},
    Key{"floor_plan.rooms.*.name", Type::local_text, true, "", "Its name on the plan", "Kitchen", 1, 40, ""},
    Key{"floor_plan.rooms.*.outline", Type::outline, true, "", "Its corners in metres, in order around", "[[0, 0], [5, 0], [5, 4], [0, 4]]", 3, 200, ""},
    Key{"floor_plan.rooms.*.floor", Type::local_text, false, "", "The floor it is on, where there are several", "Ground floor", 1, 40, ""},

    Key{"visits", Type::visits, false, "[1 d, 7 d, 14 d, 21 d, 28 d]", "When to look again, counted from placing; with `within` and `every` also what one round takes in", "[1 h, 1 d, 4 d, 10 d]", 0, 60, ""},
    Key{"visits.within", Type::duration, false, "1 d", "What falls due within so long shares one round, at one time; a day or more counts calendar days, less goes by the clock", "2 d", 1.0 / 1440, 31, ""},
    Key{"visits.every", Type::list, false, "[1 d, 7 d, 14 d, 21 d, 28 d]", "When to look again, counted from placing", "[1 h, 1 d, 4 d, 10 d]", 0, 60, ""},
    Key{"visits.every.*", Type::duration, false, "", "A time after placing", "7 d", 1.0 / 1440, 5 * years, ""},
    Key{"no_sprays_for", Type::duration, false, "", "How long nobody may spray insecticide near a station; left out, as long as its bait lasts", "30 d", 1.0 / 24, 5 * years, ""},
};
// clang-format on

/// What stands before the last step; empty at the top.
std::string_view parent_of(std::string_view path) {
    const auto dot = path.rfind('.');
    return dot == std::string_view::npos ? std::string_view() : path.substr(0, dot);
}

std::map<std::string_view, Section> all_sections() {
    std::map<std::string_view, Section> sections;
    for (const Key& key : table) {
        Section& section = sections[parent_of(key.path)];
        section.keys.push_back(&key);
        section.names.emplace_back(key.name());
    }
    return sections;
}

}  // namespace

std::string_view Key::name() const {
    const auto dot = path.rfind('.');
    return dot == std::string_view::npos ? path : path.substr(dot + 1);
}

std::vector<std::string> Key::words() const {
    std::vector<std::string> all;
    for (std::string_view rest = choices; !rest.empty();) {
        const auto bar = std::min(rest.find('|'), rest.size());
        all.emplace_back(rest.substr(0, bar));
        rest.remove_prefix(std::min(bar + 1, rest.size()));
    }
    return all;
}

bool Key::recipe() const {
    // The region and `spoons` say what a spoon holds.
    constexpr std::string_view paths[] = {
        "mixes.*.basis",       "mixes.*.ingredients", "mixes.*.limits", "supplies.*.density",
        "supplies.*.strength", "help.region",         "spoons"};
    return std::any_of(std::begin(paths), std::end(paths), [&](std::string_view it) {
        return path.starts_with(it) && (path.size() == it.size() || path[it.size()] == '.');
    });
}

std::span<const Key> keys() {
    return table;
}

const Key* find_key(std::string_view path) {
    const auto found =
        std::find_if(table.begin(), table.end(), [&](const Key& key) { return key.path == path; });
    return found == table.end() ? nullptr : &*found;
}

std::string word_of(std::string_view path, std::size_t index) {
    return find_key(path)->words().at(index);
}

const Section& section_of(std::string_view path) {
    static const std::map<std::string_view, Section> sections = all_sections();
    const auto found = sections.find(path);
    if (found == sections.end()) throw std::logic_error("no keys below " + std::string(path));
    return found->second;
}

diag::Text type_in_words(const Key& key) {
    switch (key.type) {
        case Type::text:
            return "a text";
        case Type::local_text:
            return "a text, or one for each language";
        case Type::number:
            return "a number";
        case Type::whole:
            return "a whole number";
        case Type::flag:
            return "true or false";
        case Type::date:
            return "a date";
        case Type::time:
            return "a date and time, or a date";
        case Type::volume:
            return "a volume";
        case Type::mass:
            return "a mass";
        case Type::length:
            return "a length";
        case Type::area:
            return "an area";
        case Type::duration:
            return "a length of time";
        case Type::density:
            return "a density";
        case Type::temperature:
            return "a temperature";
        case Type::share:
            return "a share in percent";
        case Type::choice:
            return diag::say("one of {}", fmt::join(key.words(), ", "));
        case Type::id:
            return "a short name of letters, digits and hyphens";
        case Type::point:
            return "two numbers in brackets";
        case Type::outline:
            return "a list of points";
        case Type::list:
            return "a list";
        case Type::mapping:
            return "a mapping of keys";
        case Type::named:
            return "a mapping of names";
        case Type::measure:
            return "a volume, or a jug, syringe or scale";
        case Type::mass_or_volume:
            return "a mass or a volume";
        case Type::density_or_range:
            return "a density, or a range of densities";
        case Type::amount:
            return "a number, an amount with its unit, `rest`, or { as: .., percent: .. }";
        case Type::limit:
            return "a number, or a share like 5 % w/w";
        case Type::batch:
            return "a volume, `as written`, or so many `times`";
        case Type::openings:
            return "a description of the openings";
        case Type::csv_file:
            return "the name of a CSV file in the job's folder";
        case Type::number_to_call:
            return "a telephone number, or { name: .., phone: .. }";
        case Type::visits:
            return key.path == "visits" ? "a list of times, or { within: .., every: [..] }"
                                        : "a list of times, or { every: [..] }";
    }
    throw std::logic_error("a type without words");
}

}  // namespace gallipot::job
